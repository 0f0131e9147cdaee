"""A recipe in a given air as a page: limits, ready times with their working, tables over air, progress as text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sequencer.answers.air_tables import HUMIDITIES, TEMPERATURES, Curve, curve, table
from sequencer.answers.in_air import StepInAir, WaitInAir
from sequencer.answers.in_time import Missed
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.recipe import Recipe
from sequencer.terms.words import say_ready
from sequencer.views.as_json import document
from sequencer.views.clock import Clock
from sequencer.views.lines import wrapped
from sequencer.waits.words import length, limit_words

WIDTH = 80
ROWS = 13
_MARKS = ("c", "o", "w")
"""The colder room, this one, the warmer one."""
_TOGETHER = "*"
_SCALE = 58
BY_THE_CLOCK = "fixed"
"""The law that needs neither table nor curve."""
USUAL_HOURS = "Mon to Fri 08:00-16:00"


@dataclass(frozen=True)
class Asked:
    """What a recipe was shown in: the air as it was said, the end of the first work, and the clock it is told by.

    `zone` None: no place is known, so the clock is one that never changes. `area` [m2] the work was counted for.
    """

    air: str
    from_: Minute
    zone: str | None
    area: float

    @property
    def clock(self) -> Clock:
        """The clock on the wall."""
        return Clock(self.zone or "UTC")


def recipe_in_air(
    recipe: Recipe, asked: Asked, steps: Sequence[StepInAir], tables: bool = False, curves: bool = False
) -> str:
    """The page."""
    lines = wrapped(f"{recipe.title} [{recipe.name}]", WIDTH)
    lines += wrapped(f"in {asked.air}, if the first work ends {asked.clock.at(asked.from_)}", WIDTH, "  ", "    ")
    lines += wrapped(_taken(recipe, asked), WIDTH, "  ", "    ")
    for step in steps:
        lines += ["", *wrapped(f"{step.step.name}: {step.step.title}", WIDTH)]
        for text in (_work(step, asked.clock), *_limits(step)):
            lines += wrapped(text, WIDTH, "  ", "    ")
        for one in step.waits:
            for text in _wait(one, asked.clock):
                lines += wrapped(text, WIDTH, "  ", "    ")
            lines += _table(one) if tables and one.wait.law != BY_THE_CLOCK else []
            lines += _curve(curve(one.clock, one.end, ROWS)) if curves and one.wait.law != BY_THE_CLOCK else []
    sources = [f"({letter}) {words}" for letter, words in sorted(recipe.sources.items())]
    for heading, texts in (("SOURCES", sources), ("TAKE CARE", list(recipe.cautions))):
        if texts:
            lines += ["", heading, *(line for text in texts for line in wrapped(text, WIDTH, "  ", "    "))]
    return "".join(f"{line}\n" for line in lines)


def recipe_in_air_as_json(recipe: Recipe, asked: Asked, steps: Sequence[StepInAir]) -> str:
    """The same as JSON; times with their offset, hours as numbers, null for never."""
    iso = asked.clock.iso
    waits = [
        {
            "step": one.step.name,
            "for": one.wait.purpose,
            "ready": None if one.ready is None else iso(one.ready),
            "latest": None if one.latest is None else iso(one.latest),
            "too_late": None if one.missed is None else one.missed.why,
            "end_by": None if one.missed is None or one.missed.end_by is None else iso(one.missed.end_by),
            "hours": None if one.ready is None else round(one.hours, 2),
            "quick": None if one.ready is None else round(one.quick, 2),
            "slow": None if one.ready is None else round(one.slow, 2),
            "law": one.wait.law,
            "working": one.working,
            "source": one.wait.source,
            "law_source": one.law_source,
            "strength": None if one.strength is None else round(one.strength, 3),
            "table": [[hours if hours is None else round(hours, 2) for hours in row] for row in table(one.wait)],
        }
        for step in steps
        for one in step.waits
    ]
    limits = [
        {"step": step.step.name, "limit": limit_words(limit), "kind": limit.kind, "kept": not broken}
        for step in steps
        for limit, broken in step.limits
    ]
    works = [
        {
            "step": one.step.name,
            "start": None if one.start is None else iso(one.start),
            "end": None if one.end is None else iso(one.end),
            "too_late": None if one.too_late is None else iso(one.too_late),
        }
        for one in steps
    ]
    axes = {"temperatures": list(TEMPERATURES), "humidities": list(HUMIDITIES)}
    return document(
        "recipe in air",
        recipe=recipe.name,
        air=asked.air,
        zone=asked.zone,
        area=asked.area,
        work_ends=iso(asked.from_),
        steps=works,
        waits=waits,
        limits=limits,
        table_axes=axes,
    )


def _taken(recipe: Recipe, asked: Asked) -> str:
    """What the page takes for granted, as one sentence."""
    place = f"by the clock of {asked.zone}" if asked.zone else "by a clock that never changes, no job here says where"
    parts = [f"taken: one step after the other, {USUAL_HOURS}, no holidays", place]
    if any(step.hours.per_area for step in recipe.steps):
        parts.append(f"work as for {asked.area:g} m2")
    if any(step.water for step in recipe.steps):
        parts.append("what water the layers give off is not counted, that takes a room and its size")
    return "; ".join([*parts, "from job to job: nine jobs in ten lie between"])


def _work(step: StepInAir, clock: Clock) -> str:
    if step.start is None or step.end is None:
        return "work: NEVER, what it follows is never ready or nobody works that long in one go"
    late = "" if step.too_late is None else f": TOO LATE, it had to begin by {clock.at(step.too_late)}"
    return f"work: {clock.span(step.start, step.end)}{late}"


def _limits(step: StepInAir) -> Iterator[str]:
    for limit, broken in step.limits:
        here = "NOT IN THIS AIR" if broken else "kept here"
        before = f" and {limit.hours_before:g} h before" if limit.kind == "before" else ""
        yield f"air while working{before}: {limit_words(limit)}, {here} ({limit.source})"
    yield from (f"take care: {text}" for text in step.step.cautions)


def _wait(one: WaitInAir, clock: Clock) -> Iterator[str]:
    said = f"ready {say_ready(one.wait.purpose)}"
    if one.ready is None:
        yield f"{said}: NEVER in this air"
    else:
        yield f"{said}: {clock.at(one.ready)}, after {_hours(one.hours)}{_range(one)}"
    if one.latest is not None:
        yield f"no later than {clock.at(one.latest)}{'' if one.missed is None else f': NOBODY CAN, {one.missed.why}'}"
        yield from _instead(one.missed, clock)
    yield one.working
    if one.strength is not None:
        yield f"by then it has {round(100 * one.strength)} % of its 28-day strength, as concrete goes (EN 1992-1-1)"
    known = f"; known to hold at {one.known}" if one.wait.law != BY_THE_CLOCK else ""
    yield f"goes as {one.wait.law}{known}; source of the hours: {one.wait.source}; of their pace: {one.law_source}"


def _instead(missed: Missed | None, clock: Clock) -> Iterator[str]:
    """What to do where nobody can start in time."""
    if missed is not None and missed.end_by is not None:
        yield f"INSTEAD: end this work by {clock.at(missed.end_by)}"
    elif missed is not None and missed.end_at is not None:
        yield f"INSTEAD: end this work at {clock.at(missed.end_at)}, no sooner"


def _range(one: WaitInAir) -> str:
    quick, slow = _hours(one.quick), _hours(one.slow)
    return "" if quick == slow else f"; from job to job {quick} to {slow}"


def _hours(hours: float) -> str:
    return length(hours * HOUR)


def _table(one: WaitInAir) -> list[str]:
    """How long in steady air, temperature across, humidity down."""
    rows = table(one.wait)
    names = [f"{100 * damp:.0f} %" for damp in HUMIDITIES] if len(rows) > 1 else ["any"]
    head = f"    {say_ready(one.wait.purpose)}, after:"
    top = f"    {'':6}" + "".join(f"{f'{warm:g} C':>11}" for warm in TEMPERATURES)
    cells = [["never" if hours is None else _hours(hours) for hours in row] for row in rows]
    return [
        head,
        top,
        *(f"    {name:6}" + "".join(f"{cell:>11}" for cell in row) for name, row in zip(names, cells, strict=True)),
    ]


def _curve(drawn: Curve) -> list[str]:
    """Progress across, time down."""
    named = ", ".join(f"{mark} {name}" for mark, name in zip(_MARKS, drawn.names, strict=True))
    head = f"    progress: {named}, {_TOGETHER} several"
    lines = [head, f"    {'':11}0 %{'50 %':>{_SCALE // 2}}{'100 %':>{_SCALE // 2 - 1}}"]
    for at, shares in zip(drawn.hours, drawn.shares, strict=True):
        cells = ["."] + [" "] * (_SCALE - 1) + ["."]
        for mark, share in zip(_MARKS, shares, strict=True):
            place = min(int(share * _SCALE), _SCALE)
            cells[place] = _TOGETHER if cells[place] in (*_MARKS, _TOGETHER) else mark
        lines.append(f"    {_hours(at):>10} {''.join(cells)}")
    return lines
