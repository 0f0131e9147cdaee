"""The site book under kills and under two writers: facts lost (recorded, and not there) and doubled.

    python tests/benchmarks/site_book.py kills 10000
    python tests/benchmarks/site_book.py writers 2 50000

A kill ends a process that records, at a moment drawn by chance; the command it was at is then told once more, as
somebody would. In every other book the disk takes a line a few bytes at a time, so that kills find lines half written.
Where processes cannot be forked there is nothing to measure.
"""

from __future__ import annotations

import os
import signal
import sys
import tempfile
import time
from pathlib import Path
from random import Random
from zoneinfo import ZoneInfo

from sequencer.desk import book as desk_book
from sequencer.desk.book import opened
from sequencer.desk.record import record
from sequencer.files.book import read_book
from sequencer.files.book_line import BOOK_FILE, line_text
from sequencer.terms.fact import Fact
from sequencer.terms.place import Place

ZONE = ZoneInfo("America/Halifax")
BEGIN = 29_541_120
AT_ONCE = desk_book._written
BOOK_LASTS = 100
"""Kills for which one book is kept: a command reads it whole."""


def main() -> None:
    what, *numbers = sys.argv[1:]
    if what == "kills":
        kills(int(numbers[0]))
    else:
        writers(int(numbers[0]), int(numbers[1]))


def kills(count: int) -> None:
    """So many kills, book after book."""
    random, begun = Random(1), time.perf_counter()
    lost = doubled = told = aside = 0
    for first in range(0, count, BOOK_LASTS):
        with tempfile.TemporaryDirectory() as folder:
            done = 0
            desk_book._written = a_few_bytes_at_a_time if first // BOOK_LASTS % 2 else AT_ONCE
            for _ in range(min(BOOK_LASTS, count - first)):
                done = killed_while_recording(Path(folder), done, random)
            book = read_book(Path(folder) / BOOK_FILE, ZONE)
            standing = [int(fact.words.split()[-1]) for fact in book.facts]
            lost += len(set(range(done)) - set(standing))
            doubled += len(standing) - len(set(standing))
            told, aside = told + done, aside + len(book.aside)
    seconds = time.perf_counter() - begun
    print(f"{count} kills, {told} facts recorded, {aside} lines cut short, {seconds:.0f} s")
    print(f"lost {lost}, doubled {doubled}")


def killed_while_recording(folder: Path, done: int, random: Random) -> int:
    """Records facts from number `done` on in a process that is killed; how many have been answered for then."""
    listens, speaks = os.pipe()
    child = os.fork()
    if not child:
        os.close(listens)
        number = done
        while True:
            record(folder / BOOK_FILE, ZONE, fact(number), hour_told=True)
            os.write(speaks, b".")
            number += 1
    os.close(speaks)
    time.sleep(random.uniform(0.0, 0.006))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(listens, "rb") as stream:
        return done + len(stream.read())


def a_few_bytes_at_a_time(handle: int, data: bytes) -> None:
    """What the desk does at once, slowly."""
    for begin in range(0, len(data), 5):
        AT_ONCE(handle, data[begin : begin + 5])
        time.sleep(0.0001)


def fact(number: int) -> Fact:
    """The fact of a number, the same each time it is told."""
    return Fact(0, "note", "", BEGIN + number, BEGIN + number, f"happening {number}", Place("command"))


def writers(count: int, each: int) -> None:
    """So many processes, each writing so many facts into one book."""
    begun = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / BOOK_FILE
        children = []
        for writer in range(count):
            child = os.fork()
            if not child:
                for number in range(each):
                    with opened(path) as pen:
                        pen.add(line_text(pen.last_number() + 1, BEGIN, BEGIN, f"note of {writer}: {number}", ZONE))
                os._exit(0)
            children.append(child)
        for child in children:
            os.waitpid(child, 0)
        seconds = time.perf_counter() - begun
        book = read_book(Path(folder) / BOOK_FILE, ZONE)
        found = [fact.words for fact in book.facts]
        wanted = {f"of {writer}: {number}" for writer in range(count) for number in range(each)}
    print(f"{count} writers, {each} facts each, {seconds:.0f} s")
    print(f"lost {len(wanted - set(found))}, doubled {len(found) - len(set(found))}, cut short {len(book.aside)}")


if __name__ == "__main__":
    main()
