"""The site book as it is written: nothing lost, nothing doubled, wherever a process ends."""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from sequencer.desk import book as desk_book
from sequencer.desk import lock
from sequencer.desk.book import opened
from sequencer.desk.record import NothingToUndo, Recorded, record, undo
from sequencer.files.book import book_of, read_book
from sequencer.files.book_fact import fact_of
from sequencer.files.book_line import BOOK_FILE, Line
from sequencer.files.calendar_days import Calendar
from sequencer.files.tree import Text
from sequencer.terms.fact import Fact
from sequencer.terms.minute import Minute, minute_of
from sequencer.terms.place import Place

ZONE = ZoneInfo("Europe/London")
MORNING = minute_of(datetime(2026, 3, 2, 8, tzinfo=ZONE))


def fact(words: str, at: Minute = MORNING) -> Fact:
    """The fact of these words, told when it happened."""
    return fact_of(Line(1, at, at, Text(words, Place("command")), Place("command")), Calendar(ZONE))


def told(folder: Path, words: str, at: Minute = MORNING, hour_told: bool = True) -> Recorded:
    return record(folder / BOOK_FILE, ZONE, fact(words, at), hour_told)


def standing(folder: Path) -> list[str]:
    return [f"{one.number} {one.kind} {one.about or one.words}" for one in read_book(folder / BOOK_FILE, ZONE).facts]


def test_a_first_fact_makes_the_book_and_the_next_go_behind_it(tmp_path: Path) -> None:
    told(tmp_path, "done a/b/c")
    told(tmp_path, "note first coat on")
    assert (tmp_path / BOOK_FILE).read_text() == (
        "format: 1\n"
        "1. Mon 2 March 2026 08:00, written Mon 2 March 2026 08:00: done a/b/c\n"
        "2. Mon 2 March 2026 08:00, written Mon 2 March 2026 08:00: note first coat on\n"
    )
    assert [one.name for one in tmp_path.iterdir()] == [BOOK_FILE]


@pytest.mark.parametrize("before", ["", "done a/b/c"])
def test_cut_at_any_byte_the_book_keeps_what_stood_and_the_command_told_again_stands_once(
    tmp_path: Path, before: str
) -> None:
    """The disk as a kill or a power cut leaves it, at every byte of what a command writes."""
    book = tmp_path / BOOK_FILE
    if before:
        told(tmp_path, before)
    start = book.read_bytes() if before else b""
    told(tmp_path, "done a/b/ü")
    whole = book.read_bytes()
    kept = standing(tmp_path)
    for end in range(len(start), len(whole) + 1):
        book.write_bytes(whole[:end])
        assert [one for one in standing(tmp_path) if one in kept] == (kept if end == len(whole) else kept[:-1])
        told(tmp_path, "done a/b/ü")
        assert [one.split(" ", 1)[1] for one in standing(tmp_path)] == [one.split(" ", 1)[1] for one in kept]
        aside = read_book(tmp_path / BOOK_FILE, ZONE).aside
        torn = end not in (len(whole), len(start)) and end > len(b"format: 1\n")
        assert len(aside) == (1 if torn else 0)
        assert not torn or whole[len(start) or 10 : end] in book.read_bytes()


def test_a_tail_torn_while_a_tail_was_set_aside_is_set_aside_too(tmp_path: Path) -> None:
    book = tmp_path / BOOK_FILE
    told(tmp_path, "done a/b/c")
    torn = book.read_bytes() + b"2. Mon 2 Ma"
    book.write_bytes(torn)
    told(tmp_path, "done a/b/d")
    ended = book.read_bytes()
    for end in range(len(torn), len(ended) + 1):
        book.write_bytes(ended[:end])
        told(tmp_path, "done a/b/d")
        assert standing(tmp_path) == ["1 done a/b/c", "2 done a/b/d"]
        assert read_book(tmp_path / BOOK_FILE, ZONE).aside


def test_a_power_cut_that_leaves_zeros_costs_no_fact_that_stood(tmp_path: Path) -> None:
    told(tmp_path, "done a/b/c")
    with (tmp_path / BOOK_FILE).open("ab") as stream:
        stream.write(b"\0" * 50)
    told(tmp_path, "done a/b/d")
    assert standing(tmp_path) == ["1 done a/b/c", "2 done a/b/d"]


def test_one_happening_told_twice_stands_once(tmp_path: Path) -> None:
    assert told(tmp_path, "done a/b/c").fresh
    assert not told(tmp_path, "done a/b/c").fresh
    assert not told(tmp_path, "done a/b/c", MORNING + 600, hour_told=False).fresh
    assert told(tmp_path, "measured bath, 17 C 60 %").fresh
    assert not told(tmp_path, "measured bath, 17 C 60 %", MORNING + 59, hour_told=False).fresh
    assert told(tmp_path, "measured bath, 17 C 60 %", MORNING + 60, hour_told=False).fresh
    assert len(standing(tmp_path)) == 3


def test_another_hour_corrects_and_says_what_it_takes_the_place_of(tmp_path: Path) -> None:
    told(tmp_path, "done a/b/c")
    later = told(tmp_path, "done a/b/c", MORNING + 60)
    assert (later.fresh, later.fact.number, later.corrects and later.corrects.number) == (True, 2, 1)
    assert standing(tmp_path) == ["2 done a/b/c"]


def test_what_has_changed_meanwhile_is_told_anew(tmp_path: Path) -> None:
    told(tmp_path, "asked a/b/c")
    told(tmp_path, "released a/b/c")
    assert told(tmp_path, "asked a/b/c").fresh


def test_undo_strikes_the_newest_or_the_one_of_a_number(tmp_path: Path) -> None:
    for words in ("done a/b/c", "done a/b/d", "done a/b/e"):
        told(tmp_path, words)
    assert undo(tmp_path / BOOK_FILE, ZONE, None, MORNING).fact.number == 3
    assert undo(tmp_path / BOOK_FILE, ZONE, 1, MORNING).fact.about == "a/b/c"
    assert standing(tmp_path) == ["2 done a/b/d"]
    assert not undo(tmp_path / BOOK_FILE, ZONE, 1, MORNING).fresh


def test_undo_told_again_after_a_kill_does_not_strike_another_fact(tmp_path: Path) -> None:
    told(tmp_path, "done a/b/c")
    told(tmp_path, "done a/b/d")
    undo(tmp_path / BOOK_FILE, ZONE, None, MORNING)
    with pytest.raises(NothingToUndo, match="fact 2 was undone last; to undo fact 1 too, write: undo 1"):
        undo(tmp_path / BOOK_FILE, ZONE, None, MORNING)
    assert standing(tmp_path) == ["1 done a/b/c"]


def test_there_may_be_nothing_to_undo(tmp_path: Path) -> None:
    with pytest.raises(NothingToUndo, match="nothing stands"):
        undo(tmp_path / BOOK_FILE, ZONE, None, MORNING)
    with pytest.raises(NothingToUndo, match="no fact 4 stands"):
        undo(tmp_path / BOOK_FILE, ZONE, 4, MORNING)


def test_the_last_number_is_found_behind_long_lines_and_lines_set_aside(tmp_path: Path) -> None:
    told(tmp_path, f"note {'x' * 10_000}")
    with (tmp_path / BOOK_FILE).open("ab") as stream:
        stream.write(b"2. Mon [set aside]\n" * 400)
    with opened(tmp_path / BOOK_FILE) as pen:
        assert pen.last_number() == 1


def test_nobody_writes_while_another_has_the_book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lock, "PATIENCE", 0.01)
    with opened(tmp_path / BOOK_FILE), pytest.raises(OSError):
        told(tmp_path, "done a/b/c")
    assert told(tmp_path, "done a/b/c").fresh


def test_a_lock_is_taken_as_soon_as_it_is_free() -> None:
    pauses: list[float] = []

    def take(_: int) -> None:
        if len(pauses) < 12:
            raise OSError

    lock.locked(0, take, pauses.append)
    assert pauses[0] == lock.FIRST_PAUSE
    assert pauses[-1] == lock.LONGEST_PAUSE
    assert len(pauses) == 12


@pytest.mark.skipif(os.name == "nt", reason="an open file cannot be replaced there")
def test_a_book_put_in_the_place_of_the_one_waited_for_is_written_into(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book, other = tmp_path / BOOK_FILE, tmp_path / "saved by an editor"
    book.write_text("format: 1\n")
    take = lock._take

    def replaced_meanwhile(handle: int) -> None:
        if other.exists():
            other.replace(book)
        take(handle)

    other.write_text("format: 1\n1. Mon 2 March 2026 08:00, written Mon 2 March 2026 08:00: note mine\n")
    monkeypatch.setattr(desk_book, "locked", replaced_meanwhile)
    told(tmp_path, "done a/b/c")
    assert standing(tmp_path) == ["1 note mine", "2 done a/b/c"]


def test_the_book_is_on_the_disk_before_the_command_answers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    on_disk: list[bytes] = []
    monkeypatch.setattr(os, "fsync", lambda _: on_disk.append((tmp_path / BOOK_FILE).read_bytes()))
    told(tmp_path, "done a/b/c")
    assert book_of(on_disk[-1], ZONE).facts[0].about == "a/b/c"
