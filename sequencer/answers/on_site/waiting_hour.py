"""What fills a waiting hour: work of one's own that could be done, or begun, today without moving anything."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.answers.on_site.last_start import NOT_BEGUN
from sequencer.answers.on_site.push import from_then
from sequencer.answers.on_site.rest import Rest
from sequencer.plan import Plan, PlannedStep
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


def waiting_hours(timed: Timed, plan: Plan, today: Span) -> tuple[WaitingHour, ...]:
    """The free stretches of a day that are long enough to begin something, in order."""
    rest, own = Rest(timed), timed.case.job.hand_over_trade
    mine = [s for s in plan.steps if s.trade == own and s.start >= today[0] and s.state in NOT_BEGUN]
    return tuple(
        WaitingHour(start, end, tuple(found for step in mine if (found := _filler(rest, step, start, end))))
        for start, end in _free(timed, plan, own, today)
        if end - start >= WORTH_BEGINNING
    )


def _free(timed: Timed, plan: Plan, own: str, today: Span) -> list[Span]:
    """The trade's open spans of a day, without the work planned in them."""
    days = timed.case.job.trades[own].days
    free = [span for day in days for span in day.spans if today[0] <= span[0] < today[1]]
    for start, end in sorted(piece for step in plan.steps if step.trade == own for piece in step.pieces):
        cut = [((a, min(b, start)), (max(a, end), b)) for a, b in free]
        free = [span for pair in cut for span in pair if span[0] < span[1]]
    return free


def _filler(rest: Rest, step: PlannedStep, start: Minute, end: Minute) -> Filler | None:
    if step.start < end:
        return None
    starts = from_then(start, end)
    ends = rest.ends(step.id, starts)
    whole = starts[rest.free(step.id, starts) & (ends <= end)]
    if len(whole):
        first = int(whole[0])
        return Filler(step.id, first, int(rest.ends(step.id, whole[:1])[0]), whole=True)
    own = rest.timed.case.job.step(step.id)
    in_pieces = not (own.one_go or own.wet_film or own.services_off) and own.minutes > end - start
    return Filler(step.id, start, end, whole=False) if in_pieces and rest.may_begin(step.id, start, end) else None
