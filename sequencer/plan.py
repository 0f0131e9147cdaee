"""The finished plan: frozen, complete, everything a view may say. Times are UTC minutes."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from sequencer.terms.minute import Minute, Span
from sequencer.terms.place import Place
from sequencer.terms.recipe import Grade, Kind


@dataclass(frozen=True)
class Ready:
    """When a step's layer is ready for a purpose.

    `hours` [h]: this wait in this air. `reference_hours` [h]: in the recipe's reference air. `latest`: the last moment
    a listener may start, None if it does not matter. `working`: how the wait comes to its length, as one sentence.
    `listeners`: ids of the steps that wait for it.
    """

    purpose: str
    at: Minute
    latest: Minute | None
    law: str
    hours: float
    reference_hours: float
    floor_hours: float | None
    source: str
    working: str
    place: Place
    listeners: tuple[str, ...] = ()


@dataclass(frozen=True)
class After:
    """A step this one follows, and the purpose it had to be ready for (None: its end of work)."""

    id: str
    purpose: str | None


@dataclass(frozen=True)
class WaitedFor:
    """Why the step does not start sooner. `kind`: material, people, hours, inspection, delivery, house, start."""

    kind: str
    id: str | None
    text: str
    where: Place | None


@dataclass(frozen=True)
class PlannedStep:
    """A step with its times. `pieces`: the spans of work, pauses over nights and days away left out.

    `if_too_late`: what has to be done again if it is not followed in time; `if_failed`: ids a failed hold repeats.
    `room_for_a_slip` [min]: how much later it may start, the order of work kept, before hand-over moves. `warnings`:
    those of the plan that are about it.
    """

    id: str
    title: str
    kind: Kind
    room: str
    recipe: str
    step: str
    trade: str
    surfaces: tuple[str, ...]
    start: Minute
    end: Minute
    pieces: tuple[Span, ...]
    work_minutes: int
    place: Place
    state: str = "planned"
    ready: tuple[Ready, ...] = ()
    after: tuple[After, ...] = ()
    waited_for: WaitedFor | None = None
    room_for_a_slip: int | None = None
    cautions: tuple[str, ...] = ()
    record: tuple[str, ...] = ()
    if_too_late: str | None = None
    if_failed: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True)
class Closed:
    """A surface closed by a layer, from the end of work: `grade` keep off or leave; `how`: sets, dries or water on."""

    room: str
    surface: str
    grade: Grade
    start: Minute
    end: Minute
    why: str
    step: str
    how: str = "sets"


@dataclass(frozen=True)
class Visit:
    """One run of a trade's own working days in this job. `state`: pencilled, asked, firm, done or released."""

    id: str
    trade: str
    start: Minute
    end: Minute
    steps: tuple[str, ...]
    state: str
    call_by: Minute | None


@dataclass(frozen=True)
class PlannedOrder:
    """An order: when to place it (None: it is placed), arrival, first need. `state`: ordered, to order."""

    id: str
    item: str
    order_by: Minute | None
    arrives: Minute
    needed: Minute
    steps: tuple[str, ...]
    state: str


@dataclass(frozen=True)
class GivenUp:
    """A firm visit that no plan could keep: whose it was, for which step, at which moment, and where it is written."""

    trade: str
    step: str
    at: Minute
    where: Place


@dataclass(frozen=True)
class Elsewhere:
    """Somebody at a step of another job. `job`, `step`: their titles; `place`: where, if not on that job's site."""

    trade: str
    job: str
    step: str
    start: Minute
    end: Minute
    hands: int = 1
    place: str | None = None


@dataclass(frozen=True)
class Beside:
    """Another job that shares people: its hand-over, and how many days late that is against its promise."""

    job: str
    title: str
    zone: str
    promise: Minute | None
    finish: Minute
    days_late: int


@dataclass(frozen=True)
class StillToCome:
    """A wait that runs on past hand-over."""

    step: str
    purpose: str
    at: Minute


@dataclass(frozen=True)
class UnderWay:
    """A wait that runs today: `share` [0..1] of it over, expected `ready`.

    `so_far` [h] since the end of work, `read` [h] of them in air a meter read. `ready_as_said`: by what was said of the
    air alone; None where no reading changes it.
    """

    step: str
    purpose: str
    share: float
    ready: Minute
    so_far: float
    read: int
    ready_as_said: Minute | None


@dataclass(frozen=True)
class Goal:
    """A goal of the plan: its value and the best value any plan could have. Proven if they are equal."""

    name: str
    value: int
    bound: int

    @property
    def proven(self) -> bool:
        return self.value <= self.bound


@dataclass(frozen=True)
class Plan:
    """A job with times for every step, audited; `steps` by start, then id.

    `at_best`: the first hand-over not ruled out. `finish_waited_for`: what hand-over itself waits for. `air_words`: the
    air of each room while the job lasts. `closed_days`: days nobody works, by their midnight. `warnings`: rooms that
    their own layers make too damp, starts that warmth takes away. `under_way`: waits that run today, if all went to
    plan. `days_late` against the promise. `beside`: the other jobs that share people; `elsewhere`: these people there.
    """

    job: str
    title: str
    zone: str
    words: str
    as_of: Minute
    start: Minute
    promise: Minute | None
    finish: Minute
    at_best: Minute
    goals: tuple[Goal, ...]
    steps: tuple[PlannedStep, ...]
    closed: tuple[Closed, ...] = ()
    visits: tuple[Visit, ...] = ()
    orders: tuple[PlannedOrder, ...] = ()
    still_to_come: tuple[StillToCome, ...] = ()
    milestones: dict[str, Minute] = field(default_factory=dict)
    assumed: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    under_way: tuple[UnderWay, ...] = ()
    cautions: tuple[tuple[str | None, str], ...] = ()
    room_titles: dict[str, str] = field(default_factory=dict)
    room_surfaces: dict[str, tuple[str, ...]] = field(default_factory=dict)
    air_words: dict[str, str] = field(default_factory=dict)
    closed_days: dict[Minute, str] = field(default_factory=dict)
    released: tuple[GivenUp, ...] = ()
    interrupted: bool = False
    finish_waited_for: WaitedFor | None = None
    days_late: int = 0
    beside: tuple[Beside, ...] = ()
    elsewhere: tuple[Elsewhere, ...] = ()

    @property
    def proven(self) -> bool:
        """True if no plan can hand over earlier."""
        return self.goals[0].proven

    @property
    def pieces(self) -> dict[str, tuple[Span, ...]]:
        """The spans of work of every step by its id."""
        return {step.id: step.pieces for step in self.steps}

    def step(self, id: str) -> PlannedStep:
        """The planned step of this id. KeyError if there is none."""
        return self._by_id[id]

    @cached_property
    def _by_id(self) -> dict[str, PlannedStep]:
        return {step.id: step for step in self.steps}


@dataclass(frozen=True)
class Plans:
    """The plans of jobs that share people, by the jobs' names. `goals`: days late, then half-days of all hand-overs.

    `alone`: for each job the first hand-over not ruled out if it had its people to itself. `first`: the job that came
    before the others, None if none did.
    """

    plans: tuple[Plan, ...]
    goals: tuple[Goal, ...]
    alone: dict[str, Minute] = field(default_factory=dict)
    first: str | None = None

    @property
    def proven(self) -> bool:
        """True if no plans have fewer days late, or as many and an earlier sum of hand-overs."""
        return all(goal.proven for goal in self.goals)

    @property
    def interrupted(self) -> bool:
        """True if somebody stopped the search."""
        return any(plan.interrupted for plan in self.plans)

    @property
    def days_late(self) -> int:
        """Days late against promises, of all jobs together."""
        return sum(plan.days_late for plan in self.plans)

    def of(self, job: str) -> Plan:
        """The plan of a job. StopIteration if there is none."""
        return next(plan for plan in self.plans if plan.job == job)
