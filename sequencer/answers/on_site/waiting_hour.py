"""What fills a waiting hour: work of one's own that could be done, or begun, today without moving anything."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from sequencer.answers.on_site.last_start import NOT_BEGUN
from sequencer.answers.on_site.push import from_then
from sequencer.answers.on_site.rest import Rest
from sequencer.plan import Plan, PlannedStep
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute, Span
from sequencer.terms.practice import WORTH_BEGINNING
from sequencer.writeup.timed import Timed


@dataclass(frozen=True)
class Filler:
    """A step planned for later. `whole`: it would be done by `end`; else it is left then, to go on as planned."""

    step: str
    start: Minute
    end: Minute
    whole: bool


@dataclass(frozen=True)
class WaitingHour:
    """A free stretch of one's own working day, and what would fill it, soonest planned first."""

    start: Minute
    end: Minute
    fillers: tuple[Filler, ...]


def waiting_hours(job: Job, plan: Plan, today: Span, site: Callable[[], Timed]) -> tuple[WaitingHour, ...]:
    """The free stretches of a day that are long enough to begin something, in order. `site` is asked only if needed."""
    own = job.hand_over_trade
    mine = [s for s in plan.steps if s.trade == own and s.start >= today[0] and s.state in NOT_BEGUN]
    found = []
    for start, end in _free(job, plan, own, today):
        free = [step for step in mine if step.start >= end and _let_go(plan, step) < end]
        rest = Rest(site()) if free else None
        fillers = (_filler(rest, step, start, end) for step in free if rest is not None)
        if end - start >= WORTH_BEGINNING:
            found.append(WaitingHour(start, end, tuple(one for one in fillers if one is not None)))
    return tuple(found)


def _free(job: Job, plan: Plan, own: str, today: Span) -> list[Span]:
    """The trade's open spans of a day, without the work planned in them."""
    free = [span for day in job.trades[own].days for span in day.spans if today[0] <= span[0] < today[1]]
    busy = [piece for step in plan.steps if step.trade == own for piece in step.pieces]
    busy += [(one.start, one.end) for one in plan.elsewhere if one.trade == own]
    for start, end in sorted(busy):
        cut = [((a, min(b, start)), (max(a, end), b)) for a, b in free]
        free = [span for pair in cut for span in pair if span[0] < span[1]]
    return free


def _let_go(plan: Plan, step: PlannedStep) -> Minute:
    """When the last step in front of one lets go of it."""
    moments = []
    for after in step.after:
        giver = plan.step(after.id)
        ready = (one.at for one in giver.ready if one.purpose == after.purpose)
        moments.append(giver.end if after.purpose is None else next(ready, giver.end))
    return max(moments, default=plan.start)


def _filler(rest: Rest, step: PlannedStep, start: Minute, end: Minute) -> Filler | None:
    starts = from_then(start, end)
    ends = rest.ends(step.id, starts)
    whole = starts[rest.free(step.id, starts) & (ends <= end)]
    if len(whole):
        first = int(whole[0])
        return Filler(step.id, first, int(rest.ends(step.id, whole[:1])[0]), whole=True)
    own = rest.timed.case.job.step(step.id)
    in_pieces = not (own.one_go or own.wet_film or own.services_off) and own.minutes > end - start
    return Filler(step.id, start, end, whole=False) if in_pieces and rest.may_begin(step.id, start, end) else None
