"""`check`: every fault in the files."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.cli import DONE, WRONG
from sequencer.cli.give import give
from sequencer.terms.place import Faulty


def run(arguments: argparse.Namespace) -> int:
    from sequencer.files import read_job
    from sequencer.views.checked import check_as_json, checked, faults_as_text

    try:
        job = read_job(Path(arguments.job), arguments.today)
    except Faulty as faulty:
        give(check_as_json(None, faulty.faults) if arguments.json else faults_as_text(faulty.faults), arguments)
        return WRONG
    give(check_as_json(job, ()) if arguments.json else checked(job), arguments)
    return DONE
