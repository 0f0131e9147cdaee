"""Where a value stands in a user's file, and what is wrong with it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Place:
    """A spot in a file. Line and column count from 1, as editors do."""

    file: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, order=True)
class Fault:
    """One thing wrong in a file: what it is, and what to write instead."""

    place: Place
    what: str
    write: str = ""

    def __str__(self) -> str:
        return f"{self.place}: {self.what}" + (f"; {self.write}" if self.write else "")


class Faulty(Exception):
    """Raised with every fault found in the files, in file order. `more`: some could not be looked for beside these."""

    def __init__(self, faults: list[Fault], more: bool = False) -> None:
        self.faults = tuple(sorted(set(faults)))
        self.more = more
        super().__init__("\n".join(map(str, self.faults)))
