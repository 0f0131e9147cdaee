"""Asking whoever sits at the terminal."""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Callable, Iterable

WIDTH = 72
"""Columns of a question: an answer still fits behind it."""

Wrong = Callable[[str], list[str]]
"""What is wrong with an answer, in sentences; none if it can stand."""


def somebody_there() -> bool:
    """True if there is a person to ask."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def ask(question: str, default: str, reason: str, wrong: Wrong) -> str:
    """The answer to a question, the default if there is none; asked again while something is wrong with it."""
    while True:
        because = f": {reason}" if reason else ""
        sys.stderr.write(textwrap.fill(f"{question}? [{default}{because}]", WIDTH) + " ")
        sys.stderr.flush()
        answer = sys.stdin.readline()
        if not answer:
            raise KeyboardInterrupt
        said = answer.strip() or default
        faults = wrong(said)
        if not faults:
            return said
        tell(faults)


def tell(texts: Iterable[str]) -> None:
    """Texts below each other, set off from the questions."""
    for text in texts:
        sys.stderr.write(textwrap.fill(text, WIDTH, initial_indent="  ", subsequent_indent="    ") + "\n")
