"""The chain from hand-over, or one step, back to today: at every step what held it up last, and what before that."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import reduce

from sequencer.causes.people import on_every_day
from sequencer.network.hours import Openings, WorkClock
from sequencer.network.model import HAND_OVER, Why
from sequencer.terms.cause import Cause, CauseKind
from sequencer.terms.house import House
from sequencer.terms.job import Step
from sequencer.terms.minute import Minute, Span
from sequencer.terms.place import Place
from sequencer.terms.words import OWN_TRADE
from sequencer.writeup.holding import A_QUARTER, Letting, forbids, in_the_way, lets_go, too_early, trade_of
from sequencer.writeup.timed import Timed, at


@dataclass(frozen=True)
class Link:
    """`step` (or hand-over) was held up from `since` until `until`, by `by` if it was a step.

    `kind`: material, people, hours, inspection, delivery, house. `cause`: what could be taken away, None: nothing.
    """

    step: str
    kind: str
    text: str
    since: Minute
    until: Minute
    by: str | None = None
    where: Place | None = None
    cause: Cause | None = None


def chain(timed: Timed, id: str) -> tuple[Link, ...]:
    """The links from a task back to the start of the job, or to what has happened already, newest first."""
    found: list[Link] = []
    seen = set(timed.case.job.past or {})
    here: str | None = id
    while here is not None and here not in seen:
        seen.add(here)
        links, here = _Holder(timed, here).links()
        found += links
    return tuple(found)


class _Holder:
    """What holds one task up."""

    def __init__(self, timed: Timed, id: str) -> None:
        self.timed, self.id = timed, id
        self.job = timed.case.job
        self.start = timed.start(id)
        self.trade = self.job.trades[trade_of(timed, id)]

    def links(self) -> tuple[list[Link], str | None]:
        """The links that hold the task, newest first, and the task to go on with."""
        last = max(lets_go(self.timed, self.id, self.start), key=lambda one: one.moment, default=None)
        freed = max(last.moment if last else self.timed.network.start, self.timed.network.start)
        moment = self.timed.network.tasks[self.id].work.next_start(freed)
        moment = self.start if moment is None else min(moment, self.start)
        gap = self._away(freed, moment)
        if self.start - moment >= A_QUARTER:
            held, always, instead = self._held(moment)
            if always:
                return [held], None
            gap, last = [held, *gap], instead or last
        return [*gap, *([self._let_go(last)] if last else [])], last.by if last else None

    def _let_go(self, last: Letting) -> Link:
        """What the letting go itself took: the time a layer stood, else the work of the step in front."""
        end = self.timed.end(last.by)
        since = end if last.moment > end else self.timed.start(last.by)
        link = self._link(last.why, min(since, last.moment), min(last.moment, self.start), last.by)
        if link.cause is None and since < end and self._paused(last.by):
            trade = trade_of(self.timed, last.by)
            text = f"{self.job.step(last.by).title} waits for {trade} to come back"
            return replace(link, cause=Cause("person", trade), text=text, where=self.job.trades[trade].place)
        return link

    def _paused(self, id: str) -> bool:
        """True if a task's work stops over working days on which its trade does not come."""
        work, trade = self.timed.network.tasks[id].work, self.job.trades[trade_of(self.timed, id)]
        daily = _clock(work, Openings(on_every_day(self.job, trade).days), work.one_go)
        return at(daily.ends, self.timed.start(id)) < self.timed.end(id)

    def _held(self, moment: Minute) -> tuple[Link, bool, Letting | None]:
        """What forbade a start though everybody was there; whether it always did; what to go on with instead."""
        forbidden = forbids(self.timed, self.id, moment, self.start)
        if forbidden is not None:
            since = self.timed.network.start if forbidden.always else moment
            return self._link(forbidden.why, since, self.start), forbidden.always, None
        window = too_early(self.timed, self.id, moment)
        if window is not None:
            follower = lets_go(self.timed, window.after, self.timed.start(window.after))
            last = max((one for one in follower if one.by != self.id), key=lambda one: one.moment, default=None)
            end = at(self.timed.network.tasks[self.id].work.ends, moment)
            late = last if last is not None and last.moment > at(window.latest, end) else None
            return self._link(window.why, moment, self.start, window.after), False, late
        taken = in_the_way(self.timed, self.id, moment)
        if taken is not None:
            return self._link(taken, moment, self.start, taken.step), False, None
        kept = Why("material", "kept back so that what follows comes in time")
        return self._link(kept, moment, self.start), False, None

    def _link(self, why: Why, since: Minute, until: Minute, by: str | None = None) -> Link:
        return Link(self.id, why.kind, why.text, since, until, by, why.where, self._widened(why.cause))

    def _widened(self, cause: Cause | None) -> Cause | None:
        """A person counts as a whole: what keeps an inspector away is the inspection, what keeps others is they."""
        if cause is None or cause.kind not in OF_A_PERSON:
            return cause
        if self.trade.hour_known or self.id == HAND_OVER:
            return Cause("person", self.trade.name)
        return Cause("inspection", self.id)

    def _away(self, freed: Minute, moment: Minute) -> list[Link]:
        """Nobody there: for the house's sake or because a person does not come, and before that nobody works."""
        easier = [(clock.next_start(freed), why) for why, clock in self._easier()]
        soonest, why = min(((at, why) for at, why in easier if at is not None), key=lambda one: one[0])
        held = self._link(why, soonest, moment)
        closed = self._link(Why("hours", "nobody works"), freed, min(soonest, moment))
        return [link for link in (held, closed) if link.until - link.since >= A_QUARTER]

    def _easier(self) -> Iterator[tuple[Why, WorkClock]]:
        """The task's work with its trade there on every working day, then without what the house asks for."""
        house, work = self.job.house, self.timed.network.tasks[self.id].work
        kind = "people" if self.trade.hour_known else "inspection"
        do = "do" if self.trade.name == OWN_TRADE else "does"
        text, cause = f"{self.trade.name} {do} not come before", Cause("days", self.trade.name)
        step = None if self.id == HAND_OVER else self.job.step(self.id)
        asked = dict(_hours_of_the_house(house, step))
        every_day = Openings(on_every_day(self.job, self.trade).days)
        often = reduce(Openings.shared_with, asked.values(), every_day)
        yield Why(kind, text, self.trade.place, None, cause), _clock(work, often, work.one_go)
        for kept in asked:
            others = (spans for key, spans in asked.items() if key != kept)
            usual = reduce(Openings.shared_with, others, self.timed.case.openings[self.trade.name])
            why = Why("house", SHUT[kept], house.place_of(kept), None, Cause(kept, ""))
            yield why, _clock(work, usual, work.one_go)
        if step is not None and work.one_go and not step.one_go:
            text = "people live here: what is taken off comes back the same day"
            why = Why("house", text, house.place, None, Cause("one day", ""))
            yield why, _clock(work, work.openings, False)


SHUT: dict[CauseKind, str] = {
    "noise": "noise is allowed at some hours only",
    "access": "nobody may be in the house at other hours",
}
"""What the house says at hours it does not allow."""


def _hours_of_the_house(house: House, step: Step | None) -> Iterator[tuple[CauseKind, tuple[Span, ...]]]:
    """The hours the house sets a step, or hand-over (None), by what they are for."""
    if step is not None and step.noisy and house.noise is not None:
        yield "noise", house.noise
    if (step is None or step.where is None) and house.access is not None:
        yield "access", house.access


OF_A_PERSON = frozenset({"hands", "travel", "days", "notice", "cushion", "shortest visit", "booking"})
"""Causes that are gone when a person is free in his hours."""



def _clock(work: WorkClock, openings: Openings, one_go: bool) -> WorkClock:
    return WorkClock(openings, work.minutes, one_go, work.whole_window)
