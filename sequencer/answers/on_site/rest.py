"""What speaks against other starts of one task, with all the rest of a plan left where it is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from sequencer.audit import Times
from sequencer.network.model import (
    AllowedStarts,
    AtMost,
    Claim,
    Mask,
    Minutes,
    Network,
    OneAtATime,
    Order,
    WaitFor,
    Why,
    Window,
)
from sequencer.network.taken import taken_by
from sequencer.terms.job import Trade
from sequencer.terms.minute import Minute
from sequencer.writeup.holding import trade_of
from sequencer.writeup.timed import Timed, at

Side = Literal["itself", "before", "after"]

ARRANGED = frozenset({"booking", "notice"})
"""Causes that say when somebody was asked to come: they do not count for who is here already."""


@dataclass(frozen=True)
class Against:
    """A rule against some of the starts asked about, those that `broken` marks.

    `side`: the task's own hours, air or material; what comes before it; what comes after it, and would be held up.
    `by`: the other task. `lets_go`: when that one lets go of it, None if it is not a matter of waiting.
    """

    why: Why
    side: Side
    broken: Mask
    by: str | None = None
    lets_go: Minute | None = None


class _Rules:
    """The rules of a network, by the tasks they are about."""

    def __init__(self, network: Network) -> None:
        self.starts: dict[str, list[AllowedStarts]] = {id: [] for id in network.tasks}
        self.pairs: dict[str, list[Order | WaitFor | Window]] = {id: [] for id in network.tasks}
        self.groups: dict[str, list[OneAtATime | AtMost]] = {id: [] for id in network.tasks}
        for rule in network.rules:
            if isinstance(rule, AllowedStarts):
                self.starts[rule.task].append(rule)
            elif isinstance(rule, Order | WaitFor | Window):
                self.pairs[rule.before].append(rule)
                self.pairs[rule.after].append(rule)
            elif isinstance(rule, OneAtATime | AtMost):
                ends = (id for claim in rule.claims for id in (claim.task, claim.closes_with))
                for id in dict.fromkeys(ends):
                    self.groups[id].append(rule)


class Rest:
    """The plan as it stands, around one task that may start at other moments."""

    def __init__(self, timed: Timed, rules: _Rules | None = None) -> None:
        self.timed = timed
        self._rules = rules or _Rules(timed.network)

    def moved(self, id: str, start: Minute) -> Rest:
        """The same plan with one task at another start."""
        pieces = {**self.timed.times.pieces, id: self.timed.network.tasks[id].work.pieces(start)}
        case, network = self.timed.case, self.timed.network
        return Rest(Timed(case, network, Times(pieces, self.timed.times.hand_over)), self._rules)

    def works(self, id: str, starts: Minutes) -> Mask:
        """True where a task's own hours allow a start."""
        return self.timed.network.tasks[id].work.allowed(starts)

    def ends(self, id: str, starts: Minutes) -> Minutes:
        """When the work of a task ends."""
        return self.timed.network.tasks[id].work.ends(starts)

    def against(self, id: str, starts: Minutes) -> Iterator[Against]:
        """Every rule that forbids one of these starts; working hours are asked of `works`."""
        ends = self.ends(id, starts)
        for one in (*self._itself(id, starts, ends), *self._pairs(id, starts, ends), *self._shared(id, starts, ends)):
            if one.broken.any():
                yield one

    def free(self, id: str, starts: Minutes, sides: tuple[Side, ...] = ("itself", "before", "after")) -> Mask:
        """True where a task may start, as far as these sides go and its own hours allow it."""
        free = self.works(id, starts)
        for one in self.against(id, starts):
            if one.side in sides:
                free = free & ~one.broken
        return free

    def may_begin(self, id: str, start: Minute, until: Minute) -> bool:
        """Whether a step may be begun and left at `until`, its end of work staying where the plan has it.

        Until then it keeps its surfaces and its place in the room; its trade is free again when it is left.
        """
        one, end = np.array([start], dtype=np.int64), np.array([self.timed.end(id)], dtype=np.int64)
        left = np.array([until], dtype=np.int64)
        if not all(rule.allowed(one, left).all() for rule in self._rules.starts[id] if _counts(rule.why)):
            return False
        if any(against.side == "before" and against.broken.any() for against in self._pairs(id, one, end)):
            return False
        shared = self._shared(id, one, end)
        return not any(one.broken.any() for one in shared if one.why.cause is None or one.why.cause.kind != "hands")

    def trade(self, id: str) -> Trade:
        """Who does a task."""
        return self.timed.case.job.trades[trade_of(self.timed, id)]

    def _itself(self, id: str, starts: Minutes, ends: Minutes) -> Iterator[Against]:
        for rule in self._rules.starts[id]:
            if _counts(rule.why):
                yield Against(rule.why, "itself", ~rule.allowed(starts, ends))

    def _pairs(self, id: str, starts: Minutes, ends: Minutes) -> Iterator[Against]:
        timed = self.timed
        for rule in self._rules.pairs[id]:
            if isinstance(rule, Window):
                if rule.after == id:
                    late = starts > at(rule.latest, timed.end(rule.before))
                    yield Against(rule.why, "before", late, rule.before)
                else:
                    late = rule.latest(ends) < timed.start(rule.after)
                    yield Against(rule.why, "after", late, rule.after)
            elif rule.after == id:
                end = timed.end(rule.before)
                lets_go = at(rule.ready, end) if isinstance(rule, WaitFor) else end
                yield Against(rule.why, "before", starts < lets_go, rule.before, lets_go)
            else:
                ready = rule.ready(ends) if isinstance(rule, WaitFor) else ends
                yield Against(rule.why, "after", ready > timed.start(rule.after), rule.after)

    def _shared(self, id: str, starts: Minutes, ends: Minutes) -> Iterator[Against]:
        """Claims of others, each against the task's own; among many, those that leave no place for it."""
        for group in self._rules.groups[id]:
            own = [claim for claim in group.claims if id in (claim.task, claim.closes_with)]
            others = [claim for claim in group.claims if claim not in own]
            for claim in own:
                span = self._span(claim, id, starts, ends)
                if isinstance(group, OneAtATime):
                    for other in others:
                        yield from self._met(group, other, span, self._meets(span, other))
                else:
                    yield from self._crowded(group, claim, others, span)

    def _crowded(
        self, group: AtMost, own: Claim, others: list[Claim], span: tuple[Minutes, Minutes]
    ) -> Iterator[Against]:
        """Who is there when the places are all taken: at the start of the span, or when one of them begins in it."""
        for other in others:
            moment = np.maximum(span[0], self.timed.start(other.task))
            there = [
                each.amount * ((self.timed.start(each.task) <= moment) & (moment < self.timed.until(each)))
                for each in others
            ]
            full = np.sum(there, axis=0) + own.amount > group.n
            yield from self._met(group, other, span, self._meets(span, other) & full)

    def _met(
        self, group: OneAtATime | AtMost, other: Claim, span: tuple[Minutes, Minutes], broken: Mask
    ) -> Iterator[Against]:
        """A claim that is met: before the task where it began first, else after it."""
        timed, until = self.timed, self.timed.until(other)
        title = timed.case.job.step(other.task).title
        why = taken_by(group.why, other, title, until > timed.end(other.task))
        earlier = np.asarray(timed.start(other.task) < span[0])
        yield Against(why, "before", broken & earlier, other.task, until)
        yield Against(why, "after", broken & ~earlier, other.task)

    def _span(self, claim: Claim, id: str, starts: Minutes, ends: Minutes) -> tuple[Minutes, Minutes]:
        """A claim of the task, or one of another that ends with it, for each start."""
        first = starts if claim.task == id else np.full_like(starts, self.timed.start(claim.task))
        if claim.closes_with != id:
            return first, np.full_like(starts, self.timed.until(claim))
        return first, ends if claim.until is None else claim.until(ends)

    def _meets(self, span: tuple[Minutes, Minutes], other: Claim) -> Mask:
        return np.asarray((self.timed.start(other.task) < span[1]) & (span[0] < self.timed.until(other)))


def _counts(why: Why) -> bool:
    return why.cause is None or why.cause.kind not in ARRANGED
