"""One module a command; `run(arguments)` does it and gives its exit code."""

from __future__ import annotations

import argparse
from importlib import import_module

from sequencer.cli.breaks import BREAKS
from sequencer.cli.facts import FACTS

MODULES = {**dict.fromkeys((*FACTS, *BREAKS), "record"), "if": "if_"}
"""Commands whose module has another name."""


def run(arguments: argparse.Namespace) -> int:
    """Does the command that was parsed: the module of its name, one for all facts. Faulty, OSError as it has them."""
    module = MODULES.get(arguments.command, arguments.command)
    code: int = import_module(f"{__name__}.{module}").run(arguments)
    return code
