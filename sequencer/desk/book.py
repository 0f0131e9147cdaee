"""Writes the site book: one line at a time, behind all others, on the disk before anybody is told that it stands."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sequencer.desk.lock import let_go, locked
from sequencer.files.book_line import HEAD, SET_ASIDE

START = f"{HEAD}\n".encode()
MODE = 0o666
LAST_LINES = 4096
"""So many bytes from the end of a book hold its last lines [bytes]; more are read where they do not."""


class Pen:
    """The book while nobody else writes in it."""

    def __init__(self, handle: int) -> None:
        self._handle = handle

    def read(self) -> bytes:
        """The book so far."""
        return self._from(0)

    def last_number(self) -> int:
        """The highest number of a line that was written to its end; 0 if there is none."""
        size, reach = os.fstat(self._handle).st_size, LAST_LINES
        while True:
            begin = max(0, size - reach)
            found = [_number(line) for line in self._from(begin).split(b"\n")[1 if begin else 0 : -1]]
            if any(found) or not begin:
                return max(found, default=0)
            reach *= 8

    def add(self, line: str) -> None:
        """Writes a line, as far as the disk. A tail somebody's end left torn is ended first, and set aside."""
        data = f"{line}\n".encode()
        size = os.fstat(self._handle).st_size
        tail = self._from(max(0, size - len(START)))
        if size < len(START) and START.startswith(tail):
            os.ftruncate(self._handle, 0)
            data = START + data
        elif not tail.endswith(b"\n"):
            data = f"{SET_ASIDE}\n".encode() + data
        _written(self._handle, data)
        os.fsync(self._handle)

    def _from(self, begin: int) -> bytes:
        os.lseek(self._handle, begin, os.SEEK_SET)
        found = bytearray()
        while part := os.read(self._handle, 1 << 20):
            found += part
        return bytes(found)


@contextmanager
def opened(path: Path) -> Iterator[Pen]:
    """The site book at a path, new if there is none, with nobody else writing. OSError if it cannot be had."""
    handle = _had(path)
    try:
        yield Pen(handle)
    finally:
        let_go(handle)
        os.close(handle)


def _had(path: Path) -> int:
    """The open and locked file that stands at the path, though another may have been put there meanwhile."""
    while True:
        new = not path.exists()
        handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0), MODE)
        try:
            locked(handle)
            if path.exists() and os.path.samestat(os.fstat(handle), path.stat()):
                if new:
                    _folder_on_disk(path.parent)
                return handle
        except BaseException:
            os.close(handle)
            raise
        os.close(handle)


def _folder_on_disk(folder: Path) -> None:
    """A new file's name is on the disk too, where a folder can be told so."""
    if os.name != "nt":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _written(handle: int, data: bytes) -> None:
    while data:
        data = data[os.write(handle, data) :]


def _number(line: bytes) -> int:
    number, dot, _ = line.partition(b". ")
    return int(number) if dot and number.isdigit() and not line.endswith(SET_ASIDE.encode()) else 0
