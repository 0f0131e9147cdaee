"""What has happened of a job's steps: as it was told, else, where that agrees with what was told, as it was planned."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

import numpy as np

from sequencer.network.case import Case
from sequencer.network.hours import Openings
from sequencer.network.tasks import work_clock
from sequencer.terms.fact import Fact
from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Step
from sequencer.terms.minute import HOUR, Minute, Span
from sequencer.terms.past import Past

Pieces = tuple[Span, ...]
ENDS = ("done", "passed", "failed")

LATE = 4 * HOUR
"""Work so long before or after the hours of a trade goes on with them; what lies further away is work of its own [min]:
an assumption, no source."""


def past_of(case: Case, planned: Mapping[str, Pieces]) -> dict[str, Past]:
    """The past by step id. `planned`: the spans of work of the plan that people went by.

    A step that is told to be done ends then; one that is told to have begun keeps its hours. Of what is not told, a
    step that the plan began before now counts as gone to plan, unless it is a hold or a delivery that is not told, or
    what it waits for came later than the plan had it: then it is still to be done.
    """
    return _Behind(case, planned).past()


class _Behind:
    def __init__(self, case: Case, planned: Mapping[str, Pieces]) -> None:
        self.case, self.job, self.planned = case, case.job, planned
        self.found: dict[str, Past] = {}

    def past(self) -> dict[str, Past]:
        for step in self.job.steps:
            told = self._told(step)
            if told is not None:
                self.found[step.id] = told
        for step, pieces in sorted(self._expected(), key=lambda one: (one[1][0][0], one[0].id)):
            if self._agrees(step, pieces):
                self.found[step.id] = Past(pieces, "not told")
        return self.found

    def _told(self, step: Step) -> Past | None:
        began, ended = self._facts.get(("began", step.id)), self._ended(step)
        if ended is not None:
            start = began.happened if began is not None else self._started(step, ended.happened)
            return Past(self._open(step, start, ended.happened), "failed" if ended.kind == "failed" else "done")
        if began is None:
            return None
        pieces = self._onwards(step, began.happened)
        over = pieces[-1][1] <= self.job.now
        if over and step.kind == "hold":
            return None
        return Past(pieces, "not told" if over else "under way")

    @cached_property
    def _facts(self) -> dict[tuple[str, str], Fact]:
        return {(fact.kind, fact.about): fact for fact in self.job.facts}

    def _ended(self, step: Step) -> Fact | None:
        return next((fact for kind in ENDS if (fact := self._facts.get((kind, step.id)))), None)

    def _started(self, step: Step, end: Minute) -> Minute:
        """When the work began that ended at a moment: so many hours before, but no sooner than it was planned.

        Where it ended long after hours, all of it was done then. Who comes at some hour came when the window opened.
        """
        openings = self.case.hours_of(step)
        closed = openings.closes[openings.opens < end]
        after_hours = not len(closed) or end - int(closed[-1]) > LATE
        if not self.job.trades[step.trade].hour_known:
            return end - step.minutes if after_hours else int(openings.opens[len(closed) - 1])
        planned = self.planned.get(step.id)
        no_sooner = planned[0][0] if planned is not None and planned[0][0] < end else self.job.start
        back = end - step.minutes if after_hours else _back(openings, end, step.minutes)
        return min(max(back, no_sooner), end - 1)

    def _open(self, step: Step, start: Minute, end: Minute) -> Pieces:
        """The open hours between two moments, and what was worked before and after hours to reach them."""
        openings = self.case.hours_of(step)
        spans = zip(openings.opens.tolist(), openings.closes.tolist(), strict=True)
        pieces = [(max(opens, start), min(closes, end)) for opens, closes in spans if opens < end and start < closes]
        if not pieces:
            return ((start, end),)
        (first, until), early, late = pieces[0], pieces[0][0] - start, end - pieces[-1][1]
        pieces[:1] = [(start, until)] if early <= LATE else [(start, start + min(step.minutes, early)), (first, until)]
        begun, over = pieces[-1]
        pieces[-1:] = [(begun, end)] if late <= LATE else [(begun, over), (end - min(step.minutes, late), end)]
        return tuple(pieces)

    def _onwards(self, step: Step, start: Minute) -> Pieces:
        """The work of a step that began at a moment: all its hours, in the hours of its trade."""
        work = work_clock(self.case, step)
        later = work.openings.opens[work.openings.closes > start]
        if not len(later):
            return ((start, start + step.minutes),)
        pieces = work.pieces(max(start, int(later[0])))
        return ((start, pieces[0][1]), *pieces[1:])

    def _expected(self) -> list[tuple[Step, Pieces]]:
        """The steps that are not told and were to begin before now: as booked, else as planned."""
        booked = {booking.step: booking.at for booking in self.job.bookings}
        found = []
        for step in self.job.steps:
            pieces = self.planned.get(step.id, ())
            if step.id in booked and (not pieces or pieces[0][0] != booked[step.id]):
                pieces = self._onwards(step, booked[step.id])
            if step.id not in self.found and pieces and pieces[0][0] < self.job.now:
                found.append((step, pieces))
        return found

    def _agrees(self, step: Step, pieces: Pieces) -> bool:
        """True if nothing that is told speaks against a step having gone to plan."""
        start, end = pieces[0][0], pieces[-1][1]
        given_back = self._facts.get(("released", step.id))
        if (step.kind == "hold" and end < self.job.now) or (given_back is not None and given_back.happened > start):
            return False
        openings = self.case.hours_of(step)
        if int(np.diff(openings.worked(np.array(pieces[0], dtype=np.int64)))[0]) <= 0:
            return False
        for order in self.job.orders:
            if step.id in order.for_steps and (order.delivered is None or order.delivered > start):
                return False
        return all(self._ready(hearing) <= start for hearing in self._heard.get(step.id, ()))

    @cached_property
    def _heard(self) -> dict[str, list[Hearing]]:
        found: dict[str, list[Hearing]] = {}
        for hearing in hearings(self.job):
            found.setdefault(hearing.listener.id, []).append(hearing)
        return found

    def _ready(self, hearing: Hearing) -> Minute:
        giver = self.found.get(hearing.giver.id)
        if giver is None:
            return self.job.horizon
        end = giver.pieces[-1][1]
        if hearing.wait is None:
            return end
        clock = self.case.clock(hearing.giver, hearing.wait)
        return int(clock.ready(np.array([end], dtype=np.int64))[0])


def _back(openings: Openings, end: Minute, minutes: int) -> Minute:
    """The latest open minute from which so many open minutes [min] have gone by at a moment."""
    worked = int(openings.worked(np.array([end], dtype=np.int64))[0]) - minutes
    if worked < 0:
        return end - minutes
    span = min(int(np.searchsorted(openings.before, worked, side="right")) - 1, len(openings.opens) - 1)
    return int(openings.opens[span] + worked - openings.before[span])
