"""A brute force for the goals: every plan that hands over in a half-day, what each comes to, the best of them.

Plans that already come to more than the best so far, whatever is placed next, are left out. What a whole plan comes to
is counted by the audit.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from random import Random

import pytest
from brute_force import Pieces, Search
from drawn_jobs import drawn_job

from sequencer.audit import Times, site
from sequencer.audit.goals import counted
from sequencer.audit.site import Site
from sequencer.network.case import Case
from sequencer.network.goals import goals
from sequencer.network.model import HAND_OVER
from sequencer.network.rules.soonest import weight
from sequencer.planning import NoOrderFits, plan_of
from sequencer.terms.goal import PREFERENCES, TOLD_VISITS_MOVED, VISITS
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import Minute, Span
from sequencer.terms.recipe import Given
from sequencer.terms.told import Told, ToldVisit

Value = tuple[int, ...]
Places = dict[str, list[tuple[Span, ...]]]


def with_goals(job: Job, seed: int) -> Job:
    """The job where people live and wait for toilet and shower, with a plan they were told, drawn at random."""
    random = Random(seed)
    others = [step for step in job.steps if step.trade != job.hand_over_trade]
    search = Search(job)
    pieces = {step.id: random.choice(search.places[step.id]) for step in others if search.places[step.id]}
    visits = _visits(pieces, {step.id: step.trade for step in others}, together=random.random() < 0.4)
    prefer = tuple(random.sample(PREFERENCES, 3))
    steps = [_giving(step, random) for step in job.steps]
    house = replace(job.house, lived_in=random.random() < 0.8)
    told = Told(1, job.horizon, pieces, tuple(visits))
    return replace(job, told=told, prefer=prefer, steps=tuple(steps), house=house)


def _visits(pieces: Pieces, trades: dict[str, str], together: bool) -> list[ToldVisit]:
    """A visit for each step, or one for all steps of a trade."""
    found: dict[str, list[str]] = {}
    for number, id in enumerate(pieces):
        found.setdefault(trades[id] if together else f"{trades[id]} {number}", []).append(id)
    return [
        ToldVisit(name, trades[ids[0]], min(pieces[id][0][0] for id in ids), tuple(ids)) for name, ids in found.items()
    ]


def _giving(step: Step, random: Random) -> Step:
    word = random.choice(("toilet back", "first shower", ""))
    purpose = random.choice([None, *(wait.purpose for wait in step.waits)])
    return replace(step, gives=(*step.gives, Given(word, purpose, step.place))) if word else step


def best(job: Job, half_day: int) -> tuple[Value, int]:
    """The least that a plan with hand-over in a half-day can come to: goal by goal in the order the job prefers, then
    its weighted starts [min]; and how many plans come to that."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(site, "ready", lru_cache(maxsize=None)(site.ready))
        search = _Best(job)
        for moment in search.search.hand_overs():
            if bisect_right(job.half_days, moment) == half_day:
                search.try_all(moment)
        assert search.value is not None
        return search.value, search.plans


@dataclass(frozen=True)
class ComparedGoals:
    """What a plan comes to, goal by goal, its weighted starts last; what the best one does; how many come to that."""

    planned: Value
    tried: Value
    plans: int

    @property
    def agree(self) -> bool:
        return self.planned == self.tried and self.plans == 1


def compare_goals(seed: int, folder: Path) -> ComparedGoals | None:
    """Plans a random job that has goals, and tries all its plans. None where no order fits or visits are given up.

    Faulty if its files are; AssertionError if a goal is not proven.
    """
    job = with_goals(drawn_job(seed, folder), seed)
    try:
        plan = plan_of(job)
    except NoOrderFits:
        return None
    if plan.released:
        return None
    assert all(goal.proven for goal in plan.goals)
    first, *between, _ = plan.goals
    times = Times({step.id: step.pieces for step in plan.steps}, plan.finish)
    planned = comes_to(job, [goal.name for goal in between], Search(job), times)
    return ComparedGoals(planned, *best(job, first.value))


def comes_to(job: Job, names: list[str], search: Search, times: Times) -> Value:
    """What a whole plan comes to."""
    found = counted(job, search.airs, times)
    late = sum(weight(id) * (spans[0][0] - job.start) for id, spans in times.pieces.items())
    return (*(found[name] for name in names), late + weight(HAND_OVER) * (times.hand_over - job.start))


class _Best:
    def __init__(self, job: Job) -> None:
        self.job, self.search = job, Search(job)
        self.goals = [goal.name for goal in goals(Case(job, self.search.airs))]
        self.told = job.told.visits if job.told is not None else ()
        self.value: Value | None = None
        self.plans = 0
        self.others = [t for t in job.trades if t != job.hand_over_trade and any(s.trade == t for s in job.steps)]
        self._reached: dict[tuple[str, str, Minute], int] = {}

    def try_all(self, hand_over: Minute) -> None:
        """Tries every plan with hand-over at a moment."""
        in_time = self.search.in_time(hand_over)
        if all(in_time.values()):
            first = {id: places[0][0][0] for id, places in in_time.items()}
            self._try(0, {}, in_time, first, hand_over)

    def _try(self, depth: int, placed: Pieces, in_time: Places, first: dict[str, Minute], at: Minute) -> None:
        if depth == len(self.search.order):
            self._judge(placed, at)
            return
        id = self.search.order[depth].id
        for pieces in in_time[id]:
            more, starts = {**placed, id: pieces}, {**first, id: pieces[0][0]}
            if self.value is not None and self._least(more, starts, at) > self.value:
                continue
            if all(self.search.goes_with(other, placed[other], id, pieces) for other in placed):
                self._try(depth + 1, more, in_time, starts, at)

    def _judge(self, placed: Pieces, hand_over: Minute) -> None:
        value = comes_to(self.job, self.goals, self.search, Times(placed, hand_over))
        if (self.value is None or value <= self.value) and self.search.sound(self.job, placed, hand_over):
            self.plans = self.plans + 1 if value == self.value else 1
            self.value = value

    def _least(self, placed: Pieces, starts: dict[str, Minute], hand_over: Minute) -> Value:
        """What no plan with these steps placed comes below."""
        late = sum(weight(id) * (start - self.job.start) for id, start in starts.items())
        known = (self._known(name, placed) for name in self.goals)
        return (*known, late + weight(HAND_OVER) * (hand_over - self.job.start))

    def _known(self, name: str, placed: Pieces) -> int:
        if name == VISITS:
            return sum(self._visits(trade, placed) for trade in self.others)
        if name == TOLD_VISITS_MOVED:
            told = self.job.told_starts
            moved = {id for id, spans in placed.items() if id in told and spans[0][0] != told[id]}
            return sum(not moved.isdisjoint(visit.steps) for visit in self.told)
        return max((self._half_day(name, id, spans) for id, spans in placed.items()), default=0)

    def _visits(self, trade: str, placed: Pieces) -> int:
        """One where a step is still to come, since it may join what is placed."""
        steps = [step.id for step in self.job.steps if step.trade == trade]
        if not all(id in placed for id in steps):
            return 1
        opens = [day.spans[0][0] for day in self.job.trades[trade].days]
        ends = [(placed[id][0][0], placed[id][-1][1] - 1) for id in steps]
        days = {day for a, b in ends for day in range(bisect_right(opens, a), bisect_right(opens, b) + 1)}
        return sum(day - 1 not in days for day in days)

    def _half_day(self, word: str, id: str, spans: tuple[Span, ...]) -> int:
        key = (word, id, spans[0][0])
        if key not in self._reached:
            alone = Site(self.search.alone[id], self.search.airs, Times({id: spans}, spans[-1][1]))
            step = self.job.step(id)
            ready = [alone.ready(step, given.purpose) for given in step.gives if given.state == word]
            self._reached[key] = max((bisect_right(self.job.half_days, at) for at in ready), default=0)
        return self._reached[key]
