"""How much sooner a job can hand over than a plan does, asked for that alone: what one thing less would save."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from sequencer.air.rooms import airs
from sequencer.audit import Times, audit
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.drying import as_they_dry, moved_by_others
from sequencer.plan import Plan
from sequencer.planning import NoOrderFits, plan_of, timed
from sequencer.settling import ends
from sequencer.solve import NoAnswer, earliest_before
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute
from sequencer.writeup import times_of
from sequencer.writeup.timed import Timed


@dataclass(frozen=True)
class Sooner:
    """A hand-over in an earlier half-day: its moment there in some plan, whether none comes in a half-day before that,
    and the times of that plan."""

    finish: Minute
    proven: bool
    timed: Callable[[], Timed]


class NotSooner(Exception):
    """No order of work hands over in an earlier half-day, or none was found. `certain`: there is none."""

    def __init__(self, certain: bool) -> None:
        super().__init__()
        self.certain = certain


def sooner(job: Job, than: Minute, effort: float = 1.0) -> Sooner:
    """The earliest hand-over in a half-day before that of a moment, firm visits kept. NotSooner.

    It is looked for as if no layer wetted the air of others: what is ruled out then is ruled out in any air. Where the
    times found do not keep every rule in the air they make, or that air depends on more, a whole plan is made instead.
    """
    case = Case(job, airs(job))
    if job.switches or moved_by_others(case):
        return _by_plan(job, than, effort)
    network = build(case)
    try:
        answer = earliest_before(network, than, effort)
    except NoAnswer as none:
        raise NotSooner(none.certain) from none
    times = times_of(network, answer)
    here = as_they_dry(case, ends(times))
    if job.beside or (here.drying and audit(job, here.airs, times)):
        return _by_plan(job, than, effort)
    (goal,) = answer.goals
    return Sooner(times.hand_over, goal.value <= goal.bound, partial(_beside_its_times, here, times))


def _beside_its_times(case: Case, times: Times) -> Timed:
    return Timed(case, build(case), times)


def as_a_plan(job: Job, than: Minute, effort: float, found: Sooner) -> Sooner:
    """The same, to the minute that a whole plan has."""
    return _as_planned(job, than, found.proven, plan_of(job, effort))


def _by_plan(job: Job, than: Minute, effort: float) -> Sooner:
    """As a plan has it that is made for its hand-over alone, or a whole one where that proves nothing."""
    try:
        plan = plan_of(job, effort, tidy=False)
        plan = plan if plan.proven else plan_of(job, effort)
    except NoOrderFits as none:
        raise NotSooner(none.certain) from none
    return _as_planned(job, than, False, plan)


def _as_planned(job: Job, than: Minute, proven: bool, plan: Plan) -> Sooner:
    """The hand-over of a plan that keeps its firm visits. NotSooner."""
    if plan.interrupted:
        raise KeyboardInterrupt
    proven = proven or plan.goals[0].proven
    if plan.released or bisect_right(job.half_days, plan.finish) >= bisect_right(job.half_days, than):
        raise NotSooner(proven)
    return Sooner(plan.finish, proven, partial(timed, job, plan))
