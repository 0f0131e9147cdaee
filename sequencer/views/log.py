"""The log in words."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.air.hourly import HourAir
from sequencer.answers.log import AirRange, Log, Told, WaterTest
from sequencer.terms.fact import Value
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import HOUR
from sequencer.terms.words import in_words
from sequencer.views.clock import Clock, length
from sequencer.views.lines import Section, laid_out, wrapped

WIDTH = 80
HEADS = {
    "verdicts": "inspections",
    "readings": "readings",
    "layers": "layers read to be ready",
    "air": "air read",
    "lots": "lots",
    "other": "everything else in the site book",
}
"""The lists of the log, in the order they are told."""


def log_text(log: Log, width: int = WIDTH) -> str:
    """The log in sections, each fact with its number in the site book."""
    clock, job = Clock(log.job.zone), log.job
    sections = [
        Section(in_words(test.hold.hold or test.hold.title, job.words), (f"[{test.hold.id}]", *_test(clock, test)))
        for test in log.tests
    ]
    for key, head in HEADS.items():
        facts: tuple[Told, ...] = getattr(log, key)
        if facts:
            sections.append(Section(head, tuple(_told(clock, job, one) for one in facts)))
    if log.missing:
        texts = (f"{_name(job, step)}: {', '.join(items)}" for step, items in log.missing)
        sections.append(Section("asked for by the recipe, not in the site book", tuple(texts)))
    title = wrapped(f"{job.title}: what was tested, read and used", width)
    told = laid_out(sections, width) if sections else ["Nothing stands in the site book."]
    return "\n".join([*title, "", *told]) + "\n"


def _name(job: Job, step: Step) -> str:
    return f"{in_words(step.hold or step.title, job.words)} [{step.id}]"


def _test(clock: Clock, test: WaterTest) -> Iterator[str]:
    if test.filled is not None:
        start = f", {_value(test.start.value)} (fact {test.start.number})" if test.start and test.start.value else ""
        yield f"water in: {clock.at(test.filled)}{start}"
    elif test.start is not None and test.start.value is not None:
        yield f"water in: {_value(test.start.value)} (fact {test.start.number})"
    read = test.end or test.verdict
    if read is not None:
        level = f", {_value(test.end.value)} (fact {test.end.number})" if test.end and test.end.value else ""
        stood = f", after {length(read.happened - test.filled)}" if test.filled is not None else ""
        yield f"read: {clock.at(read.happened)}{stood}{level}{_lower(test)}"
    if test.verdict is not None:
        said = f", {test.verdict.words}" if test.verdict.words else ""
        yield f"{test.verdict.kind}: {clock.at(test.verdict.happened)}{said} (fact {test.verdict.number})"
    if test.air is not None:
        yield f"air meanwhile: {_range(test.air)}"


def _lower(test: WaterTest) -> str:
    if test.lower is None or test.start is None or test.start.value is None:
        return ""
    unit = test.start.value.unit
    if test.lower == 0:
        return ", no lower than at the start"
    return f", {abs(test.lower):g} {unit} {'lower' if test.lower > 0 else 'higher'} than at the start"


def _told(clock: Clock, job: Job, one: Told) -> str:
    fact = one.fact
    about = _name(job, one.step) if one.step is not None else fact.about
    said = _value(fact.value) if fact.value is not None else fact.words
    kind = "" if fact.kind in ("measured", "note") else f"{fact.kind}{':' if one.step is not None else ''} "
    what = f"{kind}{about}" + (f"{': ' if about else ''}{said}" if said else "")
    late = f", written {clock.at(fact.written)}" if fact.written - fact.happened >= HOUR else ""
    is_air = fact.kind == "measured" and one.step is None
    air = f"; air {_air(one.air)}" if one.air is not None and not is_air else ""
    return f"{clock.at(fact.happened)}: {what}{air} (fact {fact.number}{late})"


def _value(value: Value) -> str:
    """resistance 52.3 ohm, to be 46.8 to 57.2 ohm: within"""
    said = f"{value.what} {value.figure:g} {value.unit}".rstrip()
    if value.within is None:
        return said
    if value.least is not None and value.most is not None:
        limit = f"{value.least:g} to {value.most:g}"
    else:
        limit = f"at least {value.least:g}" if value.least is not None else f"at most {value.most:g}"
    return f"{said}, to be {limit} {value.unit}".rstrip() + f": {'within' if value.within else 'OUTSIDE'}"


def _air(air: HourAir) -> str:
    """17.5 C 62 %, read"""
    same = air.how_temperature == air.how_humidity
    how = air.how_temperature if same else f"{air.how_temperature} and {air.how_humidity}"
    return f"{air.temperature:.1f} C {100 * air.humidity:.0f} % ({how})"


def _range(air: AirRange) -> str:
    temperature = f"{air.coldest:.1f} to {air.warmest:.1f} C"
    return f"{temperature}, {100 * air.driest:.0f} to {100 * air.dampest:.0f} %, {air.read} of {air.hours} h by a meter"
