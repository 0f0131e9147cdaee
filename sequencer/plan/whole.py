"""The plan as a whole, and the plans of several jobs."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from sequencer.plan.site import Closed, PlannedDecision, PlannedOrder, StillToCome, UnderWay
from sequencer.plan.steps import PlannedStep, WaitedFor
from sequencer.plan.visits import Beside, CalledOff, Elsewhere, GivenUp, Visit
from sequencer.terms.minute import Minute, Span


@dataclass(frozen=True)
class Goal:
    """A goal of the plan: its value and the best value any plan could have. Proven if they are equal."""

    name: str
    value: int
    bound: int

    @property
    def proven(self) -> bool:
        return self.value <= self.bound


DRIER_AIR, AIR_AT_ONCE = OTHER_AIR = ("drier air", "new air at once")
"""Air that a plan is proven the best in, though it is not its own: without the water that layers give off to others;
with the air that a step brings there from the start."""


@dataclass(frozen=True)
class Plan:
    """A job with times for every step, audited; `steps` by start, then id.

    `at_best`: the first hand-over not ruled out; `at_best_in`: in which other air than its own, where more effort could
    not rule it out: one of OTHER_AIR, or empty. `finish_waited_for`: what hand-over itself waits for. `air_words`: the
    air of each room while the job lasts. `closed_days`: days nobody works, by their midnight. `warnings`: rooms that
    their own layers make too damp, starts that warmth takes away. `under_way`: waits that run today, if all went to
    plan. `days_late` against the promise. `beside`: the other jobs that share people; `elsewhere`: these people there.
    `told_finish`: the hand-over people were told, None if they were told none. `called_off`: visits they were told of
    that are not needed any more. `against_recipes`: what was done, or can only be done, against them. `recipes_kept`:
    recipes that were changed since, with the file of the text not used. `fewest_released`: it is proven that no fewer
    firm visits than `released` would have to be given up. `cushions_used`: steps whose firm visit stands though work in
    front ends within its cushion. `unrecorded`: the job has begun and nothing of it is
    recorded, so it is the plan of the start day.
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
    decisions: tuple[PlannedDecision, ...] = ()
    still_to_come: tuple[StillToCome, ...] = ()
    milestones: dict[str, Minute] = field(default_factory=dict)
    assumed: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    against_recipes: tuple[str, ...] = ()
    under_way: tuple[UnderWay, ...] = ()
    cautions: tuple[tuple[str | None, str], ...] = ()
    room_titles: dict[str, str] = field(default_factory=dict)
    room_surfaces: dict[str, tuple[str, ...]] = field(default_factory=dict)
    air_words: dict[str, str] = field(default_factory=dict)
    closed_days: dict[Minute, str] = field(default_factory=dict)
    released: tuple[GivenUp, ...] = ()
    cushions_used: tuple[str, ...] = ()
    fewest_released: bool = True
    told_finish: Minute | None = None
    called_off: tuple[CalledOff, ...] = ()
    recipes_kept: tuple[tuple[str, str], ...] = ()
    interrupted: bool = False
    finish_waited_for: WaitedFor | None = None
    days_late: int = 0
    beside: tuple[Beside, ...] = ()
    elsewhere: tuple[Elsewhere, ...] = ()
    alone: Minute | None = None
    at_best_in: str = ""
    unrecorded: bool = False

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

    `first`: the job that came before the others, None if none did. `behind`: what decided between plans alike in these,
    counted for all jobs together.
    """

    plans: tuple[Plan, ...]
    goals: tuple[Goal, ...]
    first: str | None = None
    behind: tuple[Goal, ...] = ()

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
