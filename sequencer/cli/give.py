"""Giving: data to stdout or into a file, faults to stderr."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from sequencer.cli import WRONG, say
from sequencer.terms.place import Faulty


def give(content: str | bytes, arguments: argparse.Namespace) -> None:
    """Prints text or octets, or writes them to the file asked for, whole or not at all. OSError if that fails."""
    octets = content.encode() if isinstance(content, str) else content
    if arguments.output is None:
        buffer = getattr(sys.stdout, "buffer", None)
        if isinstance(content, str) or buffer is None:
            sys.stdout.write(octets.decode())
        else:
            buffer.write(octets)
    elif arguments.dry_run:
        say(f"would write {len(octets)} bytes to {arguments.output}")
    else:
        from sequencer.desk.write import write_whole

        changed = write_whole(Path(arguments.output), octets)
        say(f"{arguments.output} {'written' if changed else 'holds this already'}")


def faulty_files(faulty: Faulty, as_json: bool) -> int:
    """Tells every fault of the files; gives the exit code."""
    from sequencer.views.as_json import faults_as_json
    from sequencer.views.checked import faults_as_text

    if as_json:
        sys.stdout.write(faults_as_json(faulty.faults))
    sys.stderr.write(faults_as_text(faulty.faults, faulty.more))
    return WRONG
