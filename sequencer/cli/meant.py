"""What the words of a fact are about: a step, somebody, an order or a room, never guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable

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
        steps = [step for step in job.steps if _exactly(step, about)] if rest else []
        return f"note {steps[0].id}, {rest}" if len(steps) == 1 else f"note {text}"
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
    if len(found) != 1 or not word:
        what = f'"{word}" names several' if len(near) > 1 and word else f'{none} "{word}"'
        raise Refused(f"{what}; write one of: {', '.join(near if len(near) > 1 and word else known)}")
    return found[0]


def _step(job: Job, kind: str, word: str) -> Step:
    """The one step words name, among those a fact of this kind can be about."""
    fitting = [step for step in job.steps if kind not in ENDS or (step.kind == "hold") == (kind != "done")]
    found = [step for step in fitting if _exactly(step, word)]
    if not found:
        parts = word.casefold().split()
        found = [step for step in fitting if parts and all(part in _searched(job, step) for part in parts)]
    if not found:
        raise Refused(f'nothing here is called "{word}"; write one of: {", ".join(step.id for step in fitting)}')
    if len(found) > 1:
        raise Refused(f'"{word}" names several steps; write one of: {", ".join(step.id for step in found)}')
    return found[0]


ENDS = ("done", "passed", "failed")


def _spoken(text: str) -> str:
    return re.sub("[-/]", " ", text).casefold()


def _exactly(step: Step, word: str) -> bool:
    return _spoken(word) in (_spoken(step.id), _spoken(step.id.partition("/")[2]))


def _searched(job: Job, step: Step) -> str:
    said = " ".join((step.id, step.title, in_words(step.title, job.words), step.hold or "", *map(str, step.surfaces)))
    return f"{said.casefold()} {_spoken(said)}"
