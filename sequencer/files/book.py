"""The site book beside a job: lines that stand, lines undone, and what was cut short while it was written."""

from __future__ import annotations

from codecs import BOM_UTF8
from dataclasses import dataclass
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.files.book_fact import UNDO, fact_of
from sequencer.files.book_line import BOOK_FILE, HEAD, SET_ASIDE, Line, parse_line
from sequencer.files.calendar_days import Calendar
from sequencer.files.tree import Text
from sequencer.files.written import JOB_FILE, folder_of
from sequencer.files.wrong import Wrong
from sequencer.terms.fact import Fact, latest
from sequencer.terms.place import Fault, Faulty, Place


@dataclass(frozen=True)
class Book:
    """`facts`: those that stand, in line order. `undone`: the struck ones. `aside`: lines cut short, kept and mute.

    `last`: the highest number used. `struck_last`: the fact its last line undoes, None if that line does not undo.
    """

    facts: tuple[Fact, ...] = ()
    undone: tuple[Fact, ...] = ()
    aside: tuple[Place, ...] = ()
    last: int = 0
    struck_last: int | None = None


def book_beside(job: Path) -> Path:
    """Where the site book of a job lies, named by its folder or its file: a file of another name has its own book."""
    own = job.suffix and job.name != JOB_FILE and not job.is_dir()
    return folder_of(job) / (f"{job.stem}-{BOOK_FILE}" if own else BOOK_FILE)


def read_book(path: Path, zone: ZoneInfo) -> Book:
    """The site book at a path; an empty one where there is none. Raises Faulty with every fault."""
    if not path.is_file() or not path.stat().st_size:
        return Book()
    return book_of(path.read_bytes(), zone, path.name)


def book_of(data: bytes, zone: ZoneInfo, file: str = BOOK_FILE) -> Book:
    """The book in some bytes. Raises Faulty."""
    faults: list[Fault] = []
    calendar, aside = Calendar(zone), []
    lines = [line.removesuffix(b"\r") for line in data.removeprefix(BOM_UTF8).split(b"\n")]
    facts: dict[int, Fact] = {}
    undone: dict[int, Fact] = {}
    last, struck_last = 0, None
    if lines[0] != HEAD.encode() and not HEAD.encode().startswith(data):
        faults.append(Fault(Place(file), "the site book does not say its format", f"start it with: {HEAD}"))
    for number, octets in enumerate(lines[1:], 2):
        place = Place(file, number)
        cut_short = number == len(lines) or octets.endswith(SET_ASIDE.encode())
        if not octets.strip() or cut_short:
            aside += [place] if octets.strip() else []
            continue
        try:
            line = parse_line(_text(octets, place), calendar)
            if line.number <= last:
                raise Wrong(line.words, f"number {line.number} does not follow {last}", f"write {last + 1}. in front")
            last = line.number
            struck_last = _enter(line, calendar, facts, undone)
        except Wrong as wrong:
            faults.extend(wrong.faults(place))
        except Faulty as faulty:
            faults.extend(faulty.faults)
    if faults:
        raise Faulty(faults)
    return Book(latest(facts.values()), tuple(undone.values()), tuple(aside), last, struck_last)


def _enter(line: Line, calendar: Calendar, facts: dict[int, Fact], undone: dict[int, Fact]) -> int | None:
    """Adds the line's fact, or strikes the one it undoes and gives its number."""
    undo = UNDO.fullmatch(line.words)
    if undo is None:
        facts[line.number] = fact_of(line, calendar)
        return None
    struck = int(undo["number"])
    if struck not in facts:
        what = f"fact {struck} is undone already" if struck in undone else f"there is no fact {struck} to undo"
        raise Wrong(line.words, what, "write the number of a fact above")
    undone[struck] = facts.pop(struck)
    return struck


def _text(octets: bytes, place: Place) -> Text:
    try:
        said = octets.decode("utf-8")
    except UnicodeDecodeError:
        raise Faulty([Fault(place, "this line is not UTF-8", "save the file as UTF-8")]) from None
    return Text(said, place)
