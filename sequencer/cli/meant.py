"""What the words of a fact are about: a step, somebody, an order or a room, never guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable

from sequencer.cli.near import called, nearest, spoken, write_one_of
from sequencer.cli.planned import Refused
from sequencer.files.air_text import parse_air
from sequencer.files.wrong import Wrong
from sequencer.terms.fact import CLIENT, OF_ORDERS, OF_TRADES
from sequencer.terms.job import Job, Step
from sequencer.terms.words import in_words

_READY = re.compile(r"(?P<step>.+?)\s+(?P<rest>for\s+.+)")
_MEASURED = re.compile(r"(?P<step>.+?)\s+(?P<rest>(?:not\s+)?ready\s+for\s+.+)")
_LATE = re.compile(r"(?P<who>.+?)\s+(?P<rest>until\s+.+)")


def meant(job: Job, kind: str, text: str) -> str:
    """The words of a fact's line: what it is about by its lasting name, then the rest. Refused if that is not clear."""
    about, rest = _parted(job, kind, text)
    if kind == "note":
        steps = called((step.id for step in job.steps), about) if rest else []
        return f"note {steps[0]}, {rest}" if len(steps) == 1 else f"note {text}"
    if kind in OF_TRADES:
        names = [*job.trades, *([CLIENT] if kind == "told" and CLIENT not in job.trades else [])]
        about = _one_of(about, names, "nobody under people is called")
    elif kind in OF_ORDERS:
        about = _one_of(about, [order.name for order in job.orders], "no order of this job is called")
    elif kind != "measured" or about not in {room.name for room in job.rooms}:
        about = _step(job, kind, about).id
    return f"{kind} {about}" + (f", {rest}" if rest else "")


def _parted(job: Job, kind: str, text: str) -> tuple[str, str]:
    """What a fact is about, and what is said of it; without a comma, where its words show it."""
    about, comma, rest = (part.strip() for part in text.partition(","))
    if kind == "measured" and len(job.rooms) == 1 and _is_air(text):
        return job.rooms[0].name, text
    if comma:
        return about, rest
    if kind == "measured":
        rooms = sorted((room.name for room in job.rooms), key=len, reverse=True)
        for room in rooms:
            if text.startswith(f"{room} ") and _is_air(text.removeprefix(room).strip()):
                return room, text.removeprefix(room).strip()
    form = {"ready": _READY, "measured": _MEASURED, "late": _LATE}.get(kind)
    found = form.fullmatch(text) if form else None
    if found is not None:
        return found[1], found["rest"]
    if kind in OF_TRADES:
        who = next((name for name in (*job.trades, CLIENT) if text.startswith(f"{name} ")), None)
        return (who, text[len(who) :].strip()) if who else (text, "")
    return text, ""


def _is_air(text: str) -> bool:
    try:
        parse_air(text)
    except Wrong:
        return False
    return True


def _one_of(word: str, names: Iterable[str], none: str) -> str:
    known = list(names)
    near = [name for name in known if word.casefold() in name.casefold()]
    found = [word] if word in known else near
    if len(found) == 1 and word:
        return found[0]
    if len(near) > 1 and word:
        raise Refused(f'"{word}" names several; write one of: {", ".join(near)}')
    raise Refused(f'{none} "{word}"; {write_one_of(word, dict.fromkeys(known, ""), "see the job file")}')


def _step(job: Job, kind: str, word: str) -> Step:
    """The one step words name, among those a fact of this kind can be about: its own name before words in titles."""
    steps = {step.id: step for step in job.steps}
    exact = [steps[id] for id in called(steps, word)]
    parts = word.casefold().split()
    found = exact or [step for step in job.steps if parts and all(part in _searched(job, step) for part in parts)]
    fitting = [step for step in found if _fits(kind, step)]
    if len(fitting) == 1:
        return fitting[0]
    if fitting:
        raise Refused(f'"{word}" names several steps; write one of: {", ".join(step.id for step in fitting)}')
    if found and found[0].kind == "hold":
        raise Refused(f"the {found[0].name} is an inspection; write passed {word}, or failed {word}")
    if found:
        raise Refused(f'"{word}" is no inspection; write done {word}')
    near = {step.id: in_words(step.title, job.words) for step in job.steps if _fits(kind, step)}
    if kind == "measured":
        rooms = {room.name: room.title for room in job.rooms}
        near = rooms if nearest(word, rooms) else rooms | near
    raise Refused(f'nothing here is called "{word}"; {write_one_of(word, near)}')


ENDS = ("done", "passed", "failed")


def _fits(kind: str, step: Step) -> bool:
    return kind not in ENDS or (step.kind == "hold") == (kind != "done")


def _searched(job: Job, step: Step) -> str:
    said = " ".join((step.id, step.title, in_words(step.title, job.words), step.hold or "", *map(str, step.surfaces)))
    return f"{said.casefold()} {spoken(said)}"
