"""`screen`: the site diary on the whole screen."""

from __future__ import annotations

import argparse
import sys

from sequencer.cli import DONE
from sequencer.cli.arguments import parsed
from sequencer.cli.commands import plan
from sequencer.cli.planned import is_dumb


def run(arguments: argparse.Namespace) -> int:
    """The terminal's own program, in this process but never imported by this one."""
    if is_dumb() or not (sys.stdin.isatty() and sys.stdout.isatty()):
        return plan.run(parsed(["plan", "--plain", *_again(arguments)]))
    import runpy

    sys.argv = ["sequencer", *_again(arguments)]
    try:
        runpy.run_module("tui", run_name="__main__", alter_sys=True)
    except SystemExit as left:
        return left.code if isinstance(left.code, int) else DONE
    return DONE


def _again(arguments: argparse.Namespace) -> list[str]:
    return [arguments.job, *(["--today", arguments.today.isoformat()] if arguments.today else [])]
