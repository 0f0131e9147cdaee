"""What each of several jobs comes to by the goals behind hand-over that decided for all of them together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sequencer.network.across import own_id
from sequencer.solve.answer import GoalReached
from sequencer.solve.goals import SlotCounted, SlotMoved, SlotReached
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed
from sequencer.terms.goal import SOONEST_GOAL


def of_each(
    problem: Problem, within: Trimmed, places: Sequence[int], together: Sequence[GoalReached]
) -> Mapping[str, tuple[GoalReached, ...]]:
    """By job, in the order they decided. `together`: how far the goals of all jobs are met; what is proven of them
    counts as proven of each beside the others. `within`: the starts left when hand-overs are kept."""
    jobs = [own_id(id)[0] for id in problem.ids]
    found: dict[str, list[GoalReached]] = {jobs[end.task]: [] for end in problem.ends}
    counted = {goal.name: goal.costs for goal in problem.goals}
    for all_jobs in together:
        for name, goals in found.items():
            if all_jobs.name == SOONEST_GOAL:
                value, least = _starts(problem, jobs, name, places), _starts(problem, jobs, name, within.first)
            else:
                costs = [cost for cost in counted[all_jobs.name] if jobs[_task(cost)] == name]
                if not costs:
                    continue
                value, least = sum(cost.value(places) for cost in costs), sum(cost.least(within) for cost in costs)
            proven = all_jobs.value <= all_jobs.bound
            goals.append(GoalReached(all_jobs.name, value, value if proven else min(value, least)))
    return {name: tuple(goals) for name, goals in found.items()}


def _starts(problem: Problem, jobs: Sequence[str], name: str, places: Sequence[int]) -> int:
    """The weighted slots of the starts of a job's tasks."""
    tasks = (task for task, job in enumerate(jobs) if job == name)
    return sum(problem.weights[task] * int(problem.starts[task][places[task]]) for task in tasks)


def _task(cost: SlotCounted) -> int:
    """One of its tasks: all are of one job."""
    if isinstance(cost, SlotMoved):
        return cost.places[0][0]
    return (cost.values if isinstance(cost, SlotReached) else cost.days)[0][0]
