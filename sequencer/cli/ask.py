"""Asking whoever sits at the terminal."""

from __future__ import annotations

import sys
from collections.abc import Callable

Wrong = Callable[[str], list[str]]
"""What is wrong with an answer, in sentences; none if it can stand."""


def somebody_there() -> bool:
    """True if there is a person to ask."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def ask(question: str, default: str, reason: str, wrong: Wrong) -> str:
    """The answer to a question, the default if there is none; asked again while something is wrong with it."""
    while True:
        because = f": {reason}" if reason else ""
        sys.stderr.write(f"{question}? [{default}{because}] ")
        sys.stderr.flush()
        answer = sys.stdin.readline()
        if not answer:
            raise KeyboardInterrupt
        said = answer.strip() or default
        faults = wrong(said)
        if not faults:
            return said
        sys.stderr.write("".join(f"  {fault}\n" for fault in faults))
