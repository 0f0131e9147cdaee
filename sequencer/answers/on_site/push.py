"""A plan whose work is pushed back: the order of work kept, nothing before its planned moment, everything on its day.

Worked out for many ends of one step at once, from the rules themselves: each number here is an array, one entry an end
asked about.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from sequencer.network.model import (
    HAND_OVER,
    AllowedStarts,
    AtMost,
    Claim,
    Mask,
    MinuteFunction,
    Minutes,
    OneAtATime,
    WaitFor,
    Why,
    Window,
)
from sequencer.network.taken import taken_by
from sequencer.terms.minute import DAY, Minute, Span
from sequencer.waits.progress import NEVER
from sequencer.writeup.timed import Timed


@dataclass(frozen=True)
class Behind:
    """Task `after` starts no earlier than `ready(end of before)`, or than that end, in the order of the plan."""

    before: str
    after: str
    ready: MinuteFunction | None
    why: Why


@dataclass(frozen=True)
class Lost:
    """Task `id` finds no start on its day: `why` holds it up until `since`; `by` is the task in front.

    `latest`: the last start that the layers in front of it allow, None if any will do.
    """

    id: str
    why: Why
    by: str
    since: Minute
    latest: Minute | None


@dataclass(frozen=True)
class _Step:
    """A task pushed back: its `starts`, where none is left on its day, since when it is free, its latest start.

    `pushed`: what is in front of it, `holds`: which of these lets go of it last.
    """

    id: str
    starts: Minutes
    gone: Mask
    since: Minutes
    latest: Minutes
    pushed: list[Behind]
    holds: Minutes

    def held_by(self, number: int) -> Behind:
        return self.pushed[int(self.holds[number])]


class Pushed:
    """The plan, ready to be pushed."""

    def __init__(self, timed: Timed) -> None:
        self.timed = timed
        self.tasks = sorted(timed.network.tasks, key=lambda id: (timed.start(id), timed.end(id), id == HAND_OVER, id))
        self.behind: dict[str, list[Behind]] = {id: [] for id in self.tasks}
        self.windows: dict[str, list[Window]] = {id: [] for id in self.tasks}
        self.rules: dict[str, list[AllowedStarts]] = {id: [] for id in self.tasks}
        for one in (*self._pairs(), *self._in_order()):
            self.behind[one.after].append(one)
        for window in timed.network.of(Window):
            self.windows[window.after].append(window)
        for rule in timed.network.of(AllowedStarts):
            self.rules[rule.task].append(rule)
        self._places: dict[str, Minutes] = {}

    def fits(self, id: str, ends: Minutes) -> tuple[Mask, list[Lost | None]]:
        """Where everything that follows an end of a task keeps its day; for each end, what loses its day first."""
        good = np.ones(len(ends), dtype=np.bool_)
        lost: list[Lost | None] = [None] * len(ends)
        for step in self._following(id, ends):
            over = (step.latest < step.starts) | step.gone
            for number in np.flatnonzero(over & good):
                one = step.held_by(int(number))
                latest = int(step.latest[number])
                by = None if latest >= NEVER else latest
                lost[number] = Lost(step.id, one.why, one.before, int(step.since[number]), by)
            good &= ~over
        return good, lost

    def starts_after(self, id: str, start: Minute) -> dict[str, Minute]:
        """The starts of everything that a start of a task pushes back, itself included."""
        end = self.timed.network.tasks[id].work.ends(np.array([start], dtype=np.int64))
        following = self._following(id, end)
        return {id: start, **{step.id: int(step.starts[0]) for step in following}}

    def _following(self, id: str, end: Minutes) -> Iterator[_Step]:
        """Every task that ends of another one push back, in the order of the plan."""
        ends = {id: end}
        for task in self.tasks[self.tasks.index(id) + 1 :]:
            pushed = [one for one in self.behind[task] if one.before in ends]
            if not pushed:
                continue
            freed = np.array([ends[p.before] if p.ready is None else p.ready(ends[p.before]) for p in pushed])
            since = freed.max(axis=0)
            planned = self.timed.start(task)
            if (since <= planned).all():
                continue
            places = self.places(task)
            found = np.searchsorted(places, np.maximum(since, planned))
            gone = found >= len(places)
            here = np.where(gone, np.maximum(since, planned), places[np.minimum(found, len(places) - 1)])
            yield _Step(task, here, gone, since, self._latest(task, ends), pushed, freed.argmax(axis=0))
            ends[task] = self.timed.network.tasks[task].work.ends(here)

    def _latest(self, task: str, ends: dict[str, Minutes]) -> Minutes:
        """The last start that the layers in front of a task allow; NEVER if any will do."""
        like = next(iter(ends.values()))
        latest = np.full_like(like, NEVER)
        for window in self.windows[task]:
            planned = np.full_like(like, self.timed.end(window.before))
            latest = np.minimum(latest, window.latest(ends.get(window.before, planned)))
        return latest

    def places(self, id: str) -> Minutes:
        """The starts of a task on its day, from its planned one on, that its own hours and rules allow."""
        if id not in self._places:
            start = self.timed.start(id)
            starts = from_then(start, self.day_of(start)[1])
            work = self.timed.network.tasks[id].work
            free, ends = work.allowed(starts), work.ends(starts)
            for rule in self.rules[id]:
                free = free & rule.allowed(starts, ends)
            free[0] = True
            self._places[id] = starts[free]
        return self._places[id]

    def day_of(self, moment: Minute) -> Span:
        """The local day that holds a moment."""
        edges = self.timed.case.job.half_days[::2]
        number = bisect_right(edges, moment)
        if not 0 < number < len(edges):
            return moment, moment + DAY
        return edges[number - 1], edges[number]

    def _pairs(self) -> Iterator[Behind]:
        for pairs in self.timed.binding.values():
            for pair in pairs:
                yield Behind(pair.before, pair.after, pair.ready if isinstance(pair, WaitFor) else None, pair.why)

    def _in_order(self) -> Iterator[Behind]:
        """Each claim behind the one whose place it takes; claims are dealt to as many lanes as may run at once."""
        groups: list[OneAtATime | AtMost] = [*self.timed.network.of(OneAtATime), *self.timed.network.of(AtMost)]
        for group in groups:
            lanes: list[Claim | None] = [None] * (1 if isinstance(group, OneAtATime) else group.n)
            for claim in sorted(group.claims, key=lambda one: (self.timed.start(one.task), self.timed.until(one))):
                start = self.timed.start(claim.task)
                free = [lane for lane, last in enumerate(lanes) if last is None or self.timed.until(last) <= start]
                amount = 1 if isinstance(group, OneAtATime) else claim.amount
                for lane in free[:amount]:
                    last = lanes[lane]
                    if last is not None and last.closes_with != claim.task:
                        yield Behind(last.closes_with, claim.task, last.until, self._taken(group.why, last))
                    lanes[lane] = claim

    def _taken(self, what: Why, claim: Claim) -> Why:
        title = self.timed.case.job.step(claim.task).title
        return taken_by(what, claim, title, self.timed.until(claim) > self.timed.end(claim.task))


def from_then(start: Minute, end: Minute) -> Minutes:
    """Every minute from a start on, the start at least."""
    return np.arange(start, max(start + 1, end), dtype=np.int64)
