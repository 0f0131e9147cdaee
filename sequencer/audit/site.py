"""The site as the audit walks it: steps with their times, and the plain questions every check asks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from sequencer.air.hourly import RoomAir, air_on
from sequencer.audit.grouped import Grouped, kin
from sequencer.audit.slow_damp import DampAir, DampRoom, Wet
from sequencer.audit.slow_wait import Going, Hours, ready
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import Minute, Span
from sequencer.waits.wetting import layer_of, wet_room


@dataclass(frozen=True)
class Times:
    """When everything happens: the spans of work of every step by id, and hand-over [Minute]."""

    pieces: dict[str, tuple[Span, ...]]
    hand_over: Minute


class Site(Grouped):
    """A job, the air of its rooms and the times of a plan."""

    def __init__(self, job: Job, airs: dict[str, RoomAir], times: Times) -> None:
        super().__init__(job)
        self.airs = airs
        self.times = times
        self._ready: dict[tuple[str, str | None], Minute] = {}
        self._opens: dict[str, Minute] = {}
        self._airs: dict[tuple[str, bool], Hours] = {}

    def air(self, step: Step) -> Hours:
        """The air a step is done in: damper where layers of other steps wet its room."""
        return self._air(step, False)

    def wait_air(self, step: Step) -> Hours:
        """The air a step's layer has while it waits: damper where it and others wet its room."""
        return self._air(step, True)

    def _air(self, step: Step, own: bool) -> Hours:
        key = (step.id, own)
        if key not in self._airs:
            room, plain = self._damp_rooms.get(step.room), self._plain_air(step)
            self._airs[key] = plain if room is None else DampAir(room, plain, None if own else step.id)
        return self._airs[key]

    def _plain_air(self, step: Step) -> RoomAir:
        return air_on(self.airs[step.room], (surface.name for surface in step.surfaces))

    def start(self, step: Step) -> Minute:
        """The first minute of a step's work."""
        return self.times.pieces[step.id][0][0]

    def end(self, step: Step) -> Minute:
        """The first minute after a step's work."""
        return self.times.pieces[step.id][-1][1]

    def behind(self, *steps: Step) -> bool:
        """True if all of these have begun, of a job with facts: what has happened breaks no rule any more."""
        told = self._told_begun
        return bool(self.job.facts) and all(step.id in told or self.start(step) < self.job.now for step in steps)

    def too_late(self, giver: Step, step: Step, latest: Minute) -> bool:
        """True if a step had to follow what lies behind by a moment by which nobody can start it any more."""
        if not self.behind(giver) or self.behind(step):
            return False
        if self.job.followed_late:
            return True
        house, now = self.job.house, self.job.now
        kept = [spans for spans in (house.noise if step.noisy else None, None if step.where else house.access) if spans]
        one_go = step.one_go or (house.lived_in and bool(step.services_off))
        trade = self.job.trades[step.trade]
        for day in trade.days:
            opens = list(day.spans)
            for spans in kept:
                both = [(max(a, c), min(b, d)) for a, b in opens for c, d in spans]
                opens = [(start, end) for start, end in both if start < end]
            moments = [max(start, now) for start, end in opens if now < end and max(start, now) <= latest]
            if not trade.hour_known:
                moments = [start for start, _ in opens[:1] if now <= start <= latest]
            for moment in moments:
                left = sum(end - max(start, moment) for start, end in opens if moment < end)
                if not one_go or not trade.hour_known or left >= step.minutes:
                    return False
        return True

    def ready(self, step: Step, purpose: str | None) -> Minute:
        """When a step is ready for a purpose; its end where it has no such wait."""
        key = (step.id, purpose)
        if key not in self._ready:
            wait, end = step.wait_for(purpose) if purpose else None, self.end(step)
            self._ready[key] = end if wait is None else ready(wait, self.wait_air(step), end)
        return self._ready[key]

    def opens(self, step: Step) -> Minute:
        """When the surfaces a step works on open again."""
        if step.id not in self._opens:
            self._opens[step.id] = self._opened(step)
        return self._opens[step.id]

    def _opened(self, step: Step) -> Minute:
        closing = step.closing
        if closing is None:
            return self.end(step)
        if closing.until_done is not None:
            return self.end(next(s for s in self.family(step) if s.name == closing.until_done))
        return self.ready(step, closing.purpose)

    def shut(self, step: Step) -> Span:
        """From the first minute of a step's work until its surfaces are open again."""
        return self.start(step), self.opens(step)

    def let_in(self, closer: Step, other: Step) -> bool:
        """True if a closing is there for the other step: it is what the closing step waits for, or what ends it."""
        if closer.closing is None or not kin(closer, other):
            return False
        if closer.wait_for(other.name) is not None:
            return True
        done = closer.closing.until_done
        if done is None:
            return False
        last = next(s for s in self.family(closer) if s.name == done)
        return other == last or (self._leads_to(closer, other) and self._leads_to(other, last))

    def _leads_to(self, first: Step, then: Step) -> bool:
        """True if links lead from one step of a recipe to a later one."""
        named = [step for step in self.family(first) if any(link.id == step.id for link in then.links)]
        return first in named or any(self._leads_to(first, step) for step in named)

    def way_in(self, room: str) -> set[str]:
        """The rooms a room is reached through."""
        way: set[str] = set()
        through = self.job.room(room).reached_through
        while through is not None and through not in way:
            way.add(through)
            through = self.job.room(through).reached_through
        return way

    @cached_property
    def _damp_rooms(self) -> dict[str, DampRoom]:
        """The rooms of known size with layers that give off water."""
        found = {}
        for room in self.job.rooms:
            sized, wet = wet_room(room), list(self._wet_layers(room.name))
            if sized is not None and wet:
                found[room.name] = DampRoom(sized, wet)
        return found

    def _wet_layers(self, room: str) -> Iterator[Wet]:
        for step in self.in_room(room):
            layer, dries = layer_of(step), step.wait_for(step.dries_for or "")
            if layer is not None and dries is not None:
                yield Wet(step.id, layer, self._plain_air(step), Going(dries, self.end(step)))

    @cached_property
    def _told_begun(self) -> frozenset[str]:
        """Ids of the steps told to have begun, or to be over; not an inspection that has to come once more."""
        ended = {fact.about for fact in self.job.facts if fact.kind in ("done", "passed", "failed")}
        began = {fact.about: fact.happened for fact in self.job.facts if fact.kind == "began"}
        open_holds = {step.id for step in self.job.steps if step.kind == "hold" and step.id not in ended}
        asked_again = {id for id in open_holds & {*began} if self.start(self.job.step(id)) != began[id]}
        return frozenset(ended | {*began} - asked_again)


def overlap(one: Span, other: Span) -> bool:
    """True if two spans share a minute, or one that takes no time lies inside the other."""
    return one[0] < other[1] and other[0] < one[1]


def meet(one: Step, other: Step) -> bool:
    """True if two steps of a room work on the same material; a step about no surface meets every other."""
    if not one.surfaces or not other.surfaces:
        return True
    return any(a.touches(b) for a in one.surfaces for b in other.surfaces)
