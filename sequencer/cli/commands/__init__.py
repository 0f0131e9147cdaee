"""One module a command; `run(arguments)` does it and gives its exit code."""

from __future__ import annotations

import argparse
from importlib import import_module


def run(arguments: argparse.Namespace) -> int:
    """Does the command that was parsed: the module of its name. Faulty, OSError as the command has them."""
    code: int = import_module(f"{__name__}.{arguments.command}").run(arguments)
    return code
