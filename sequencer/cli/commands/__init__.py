"""One module a command; `run(arguments)` does it and gives its exit code."""

from __future__ import annotations

import argparse
from importlib import import_module

from sequencer.cli.facts import FACTS


def run(arguments: argparse.Namespace) -> int:
    """Does the command that was parsed: the module of its name, one for all facts. Faulty, OSError as it has them."""
    module = "record" if arguments.command in FACTS else arguments.command
    code: int = import_module(f"{__name__}.{module}").run(arguments)
    return code
