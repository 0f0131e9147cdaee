"""What a calendar of the whole plan holds: work by the day, waits, days to call and to order; and what follows what."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sequencer.plan import After, Plan, PlannedStep
from sequencer.terms.minute import Minute, Span
from sequencer.terms.words import MARKS, OWN_TRADE, say_ready
from sequencer.views.clock import Clock
from sequencer.views.columns import rooms_of
from sequencer.views.held import Held, base, held_in
from sequencer.views.lines import sentence
from sequencer.views.sentences import otherwise_words, ready_words, slip_words, why_not_sooner
from sequencer.views.titles import title_of, title_of_id

FOLLOWS, DEPENDS, PART = "FINISHTOSTART", "DEPENDS-ON", "PARENT"


@dataclass(frozen=True)
class Relation:
    """A tie to another entry of the same file. `gap` [min] between this one's end and that one's start."""

    kind: str
    key: str
    gap: int = 0


@dataclass(frozen=True)
class Entry:
    """One event. `key` lasts as long as the step it comes from. `busy`: it takes somebody's time."""

    key: str
    start: Minute
    end: Minute
    summary: str
    description: tuple[str, ...] = ()
    categories: tuple[str, ...] = ()
    status: str = ""
    busy: bool = False
    all_day: bool = False
    relations: tuple[Relation, ...] = ()


def entries_of(plan: Plan) -> list[Entry]:
    """Every entry, by start, then key."""
    maker = _Maker(plan)
    found = [entry for step in plan.steps for entry in maker.work(step)]
    found += [entry for room in rooms_of(plan) for entry in maker.waits(room)]
    found += [*maker.still_to_come(), *maker.reminders()]
    return sorted(found, key=lambda entry: (entry.start, entry.key))


class _Maker:
    """Makes the entries of one plan."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.clock = Clock(plan.zone)
        self.firm = {id for visit in plan.visits if visit.state == "firm" for id in visit.steps}
        self.days = {step.id: self._by_day(step) for step in plan.steps}
        self.followers: dict[str, list[tuple[PlannedStep, After]]] = {}
        for step in plan.steps:
            for after in step.after:
                self.followers.setdefault(after.id, []).append((step, after))
        self.rooms = plan.room_titles if len(rooms_of(plan)) > 1 else {}
        self.made = f"Plan as of {self.clock.at(plan.as_of)}"

    def _by_day(self, step: PlannedStep) -> list[Span]:
        """The work of a step, one span a local day."""
        days: list[Span] = []
        for start, end in step.pieces:
            if days and self.clock.day(days[-1][0]) == self.clock.day(start):
                days[-1] = (days[-1][0], end)
            else:
                days.append((start, end))
        return days

    def _first(self, id: str) -> str:
        return id

    def _last(self, id: str) -> str:
        return self._day_key(id, len(self.days[id]))

    def _day_key(self, id: str, number: int) -> str:
        return id if number == 1 else f"{id}, day {number}"

    def _status(self, step: PlannedStep) -> str:
        settled = step.id in self.firm or step.state in ("done", "under way")
        return "CONFIRMED" if settled else "TENTATIVE"

    def _named(self, step: PlannedStep) -> str:
        room = self.rooms.get(step.room)
        return f"{room}: {title_of(self.plan, step)}" if room else title_of(self.plan, step)

    def work(self, step: PlannedStep) -> list[Entry]:
        """A step as one entry a day of work."""
        days = self.days[step.id]
        entries = [
            Entry(
                key=self._day_key(step.id, number),
                start=start,
                end=end,
                summary=f"{self._named(step)} ({step.trade}{f', day {number} of {len(days)}' * (len(days) > 1)})",
                description=self._told(step),
                categories=("Inspection" if step.kind == "hold" else "Work", step.trade),
                status=self._status(step),
                busy=True,
            )
            for number, (start, end) in enumerate(days, 1)
        ]
        entries[-1] = replace(entries[-1], relations=self._followed_by(step))
        entries[0] = replace(entries[0], relations=(*entries[0].relations, *self._depends_on(step)))
        return entries

    def _told(self, step: PlannedStep) -> tuple[str, ...]:
        surfaces = ", ".join(dict.fromkeys(map(base, step.surfaces)))
        why = why_not_sooner(self.plan, step.waited_for)
        return tuple(
            filter(
                None,
                (
                    f"On: {surfaces}" if surfaces else "",
                    *(sentence(ready_words(self.plan, self.clock, ready)) for ready in step.ready),
                    *(sentence(text) for text in otherwise_words(self.plan, step)),
                    f"Why not sooner: {why}" if why else "",
                    sentence(slip_words(step)),
                    f"Write down: {', '.join(step.record)}" if step.record else "",
                    *(f"Take care: {text}" for text in step.cautions),
                    self.made,
                ),
            )
        )

    def _followed_by(self, step: PlannedStep) -> tuple[Relation, ...]:
        """Steps that follow this one, the one with the least time to spare in front."""
        followers = self.followers.get(step.id, ())
        gaps: dict[str, int] = {}
        for later, after in followers:
            gap = self._gap(step, after.purpose)
            gaps[later.id] = max(gaps.get(later.id, gap), gap)
        starts = {later.id: later.start for later, _ in followers}
        found = [(starts[id] - step.end - gap, starts[id], id, gap) for id, gap in gaps.items()]
        return tuple(Relation(FOLLOWS, self._first(id), gap) for _, _, id, gap in sorted(found))

    def _gap(self, step: PlannedStep, purpose: str | None) -> int:
        return next((ready.at - step.end for ready in step.ready if ready.purpose == purpose), 0)

    def _depends_on(self, step: PlannedStep) -> tuple[Relation, ...]:
        before = sorted({after.id for after in step.after if after.id in self.days})
        return tuple(Relation(DEPENDS, self._last(id)) for id in before)

    def waits(self, room: str) -> list[Entry]:
        """What holds a room's surfaces, surfaces held alike as one entry."""
        alike: dict[tuple[str, str, Minute, Minute], list[Held]] = {}
        for one in held_in(self.plan, room):
            alike.setdefault((one.step, one.key, one.start, one.end), []).append(one)
        return [self._wait(same[0], ", ".join(one.surface for one in same)) for same in alike.values()]

    def _wait(self, one: Held, surfaces: str) -> Entry:
        step = self.plan.step(one.step)
        asks = "Wait" if one.key == "dries" else sentence(MARKS[one.key].asks)
        return Entry(
            key=f"{one.step}, {one.key}, {surfaces}",
            start=one.start,
            end=one.end,
            summary=f"{asks}: {surfaces}; {self._named(step)} ({one.how})",
            description=tuple(filter(None, (sentence(one.working), self.made))),
            categories=("Wait", step.trade),
            status=self._status(step),
            relations=(Relation(PART, self._last(one.step)),),
        )

    def still_to_come(self) -> list[Entry]:
        """Waits that run on past hand-over."""
        found = []
        for one in self.plan.still_to_come:
            step = self.plan.step(one.step)
            summary = f"Not yet {say_ready(one.purpose, self.plan.words)}: {self._named(step)}"
            key = f"{one.step}, ready for {one.purpose}"
            part = (Relation(PART, self._last(step.id)),)
            found.append(Entry(key, step.end, one.at, summary, (self.made,), ("Wait", step.trade), relations=part))
        return found

    def reminders(self) -> list[Entry]:
        """Days by which to call and to order, milestones, and the day promised; as whole days."""
        found = [
            self._reminder(f"milestone {name}", at + 1, f"{sentence(name)} {self.clock.hour(at)}", self._why(at))
            for name, at in sorted(self.plan.milestones.items())
        ]
        for visit in self.plan.visits:
            if visit.call_by is not None and visit.trade != OWN_TRADE:
                work = ", ".join(title_of_id(self.plan, id) for id in visit.steps)
                text = f"Call by {self.clock.by(visit.call_by)} for {self.clock.at(visit.start)}: {work}"
                found.append(self._reminder(f"call {visit.id}", visit.call_by, f"Call the {visit.trade}", text))
        for order in self.plan.orders:
            if order.order_by is not None:
                text = f"Order by {self.clock.by(order.order_by)}; needed {self.clock.at(order.needed)}"
                found.append(self._reminder(f"order {order.id}", order.order_by, f"Order: {order.item}", text))
        if self.plan.promise is not None:
            text = f"The plan hands over {self.clock.at(self.plan.finish)}"
            found.append(self._reminder("promise", self.plan.promise, "Promised to the client", text))
        return found

    def _why(self, at: Minute) -> str:
        waited = self.plan.finish_waited_for if at == self.plan.finish else None
        why = why_not_sooner(self.plan, waited)
        return f"Why not sooner: {why}" if why else ""

    def _reminder(self, key: str, at: Minute, summary: str, text: str) -> Entry:
        day = self.clock.midnight(self.clock.last_day(at))
        return Entry(key, day, day, summary, tuple(filter(None, (text, self.made))), ("Reminder",), all_day=True)
