"""Solves the network of several jobs: fewest days late against promises, then the least sum of hand-overs.

One job may come first: then its own hand-over is the earliest it can be, and the others follow as they can.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sequencer.network.across import in_job, own_id
from sequencer.network.ahead import ahead
from sequencer.network.model import HAND_OVER, Network
from sequencer.solve.answer import Answer, GoalReached
from sequencer.solve.between import Range, unproven
from sequencer.solve.by_itself import Alone, floors
from sequencer.solve.goals_of_jobs import of_each
from sequencer.solve.jobs_in_order import FirstPlan, first_plan
from sequencer.solve.measures import Bounded, first_places, kept_half_days, measures
from sequencer.solve.problem import Problem
from sequencer.solve.slip import slips
from sequencer.solve.solve import HAND_OVER_EFFORT, MOST_TASKS, Tell
from sequencer.terms.goal import HAND_OVER_GOAL

TIDY = 0.4
"""How much of the usual effort goes into the goals behind hand-over: of many jobs it seldom proves them."""


@dataclass(frozen=True)
class AnswerOfAll:
    """An answer for each job by its name, and how far the goals of all of them together are proven.

    `goals`: days late and hand-overs; `behind`: what decided between plans alike in these.
    """

    answers: dict[str, Answer]
    goals: tuple[GoalReached, ...]
    behind: tuple[GoalReached, ...] = ()
    interrupted: bool = False


def solve_several(
    network: Network,
    by_itself: Mapping[str, Alone],
    effort: float = 1.0,
    told: Tell = lambda _: None,
    first: str | None = None,
    tidy: bool = True,
) -> AnswerOfAll:
    """Times for every task of every job. `by_itself`: what each job could have alone, by its name.

    `first`: the job whose hand-over comes before all others. Without `tidy` the goals behind hand-over are left out.
    NoAnswer if no times fit or none were found.
    """
    network = ahead(network)
    begun = first_plan(network, by_itself, effort, told, first)
    problem, places = begun.problem, begun.places
    begin = first_places(problem, floors(by_itself))
    kept: list[Bounded] = []
    goals: list[GoalReached] = []
    interrupted = False
    searched = effort > 0 and len(network.tasks) <= MOST_TASKS
    for measure in measures(problem, in_job(first, HAND_OVER) if first else None):
        value, bound = measure.of(places), measure.least(begin)
        if value > bound and searched and not interrupted:
            from sequencer.solve.search_several import minimise

            told(f"looking for a better order of the jobs: {measure.name}")
            found = minimise(problem, measure, kept, begin, places, HAND_OVER_EFFORT * effort)
            places, value, bound = found.places or places, found.value, found.bound
            interrupted = found.interrupted
        kept.append((measure, value))
        goals.append(GoalReached(measure.name, value, min(value, bound)))
    behind: tuple[GoalReached, ...] = ()
    within = Range(problem, len(problem.starts[problem.hand_over]) - 1, kept_half_days(problem, places))
    if searched and tidy and not interrupted:
        from sequencer.solve.search_goals import settle

        told("hand-overs are settled")
        settled = settle(within, places, TIDY * effort, told)
        places, behind, interrupted = settled.places, settled.goals, settled.interrupted
        goals = [replace(goal, value=measure.of(places)) for goal, (measure, _) in zip(goals, kept, strict=True)]
    elif effort > 0 and tidy and not interrupted:
        behind = unproven(within, places)
    return _answers(problem, places, within, tuple(goals), behind, begin, begun, interrupted)


def _answers(
    problem: Problem,
    places: list[int],
    within: Range,
    goals: tuple[GoalReached, ...],
    behind: tuple[GoalReached, ...],
    begin: Mapping[int, int],
    begun: FirstPlan,
    interrupted: bool,
) -> AnswerOfAll:
    """The answers job by job; where the goals of all jobs are proven, each counts as proven beside the others.

    `within`: the plans in which every job hands over in the half-day it has.
    """
    settled = all(goal.value <= goal.bound for goal in goals)
    slots = problem.slots(places)
    later = slips(problem, places)
    own = of_each(problem, within.trimmed(), places, behind) if behind else {}
    found: dict[str, Answer] = {}
    for end in problem.ends:
        name = own_id(problem.ids[end.task])[0]
        mine = {own_id(id)[1]: task for task, id in enumerate(problem.ids) if own_id(id)[0] == name}
        value = int(end.half_day[places[end.task]])
        bound = value if settled else min(value, int(end.half_day[begin[end.task]]))
        at_best = slots[end.task] if settled else min(slots[end.task], int(problem.starts[end.task][begin[end.task]]))
        found[name] = Answer(
            starts={id: problem.minute(slots[task]) for id, task in mine.items()},
            goals=(GoalReached(HAND_OVER_GOAL, value, bound), *own.get(name, ())),
            hand_over_at_best=problem.minute(at_best),
            slips={id: problem.slot * later[task] for id, task in mine.items()},
            released=tuple(own_id(id)[1] for id in begun.released if own_id(id)[0] == name),
            fewest=begun.fewest,
            interrupted=interrupted,
        )
    return AnswerOfAll(found, goals, behind, interrupted)
