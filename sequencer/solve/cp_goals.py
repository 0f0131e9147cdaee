"""The goals between hand-over and "everything as early as it can be" as sums in a CP-SAT model."""

from __future__ import annotations

import numpy as np
from ortools.sat.python import cp_model

from sequencer.solve.cp_model import Model
from sequencer.solve.encode import push_up
from sequencer.solve.goals import SlotCounted, SlotGoal, SlotMoved, SlotReached, SlotRuns
from sequencer.solve.problem import Slots


def count_of(model: Model, goal: SlotGoal) -> cp_model.LinearExprT:
    """A sum that is what a plan counts for a goal when it is pushed down, and never below it."""
    return sum((_count(model, cost) for cost in goal.costs), start=0)


def _count(model: Model, cost: SlotCounted) -> cp_model.LinearExprT:
    least = cost.least(model.trimmed)
    if isinstance(cost, SlotMoved):
        return least or _moved(model, cost)
    if isinstance(cost, SlotReached):
        return _reached(model, cost, least)
    groups = cost.apart(model.trimmed)
    alone = sum(len(group) == 1 for group in groups)
    return sum((_runs(model, SlotRuns(tuple(group))) for group in groups if len(group) > 1), start=alone)


def _moved(model: Model, cost: SlotMoved) -> cp_model.LinearExprT:
    moved = model.cp.new_bool_var("")
    for task, place in cost.places:
        start = model.start[task]
        model.cp.add(start.count == int(start.counts[place - model.trimmed.first[task]])).only_enforce_if(~moved)
    return moved


def _reached(model: Model, cost: SlotReached, least: int) -> cp_model.LinearExprT:
    kept = {task: model.kept(task, values) for task, values in cost.values}
    reached = model.cp.new_int_var(least, max(int(values[-1]) for values in kept.values()), "")
    for task, values in kept.items():
        push_up(model.start[task], reached, values)
    return reached


def _runs(model: Model, cost: SlotRuns) -> cp_model.LinearExprT:
    """A run begins on every day with work that has no work on the day before it."""
    kept = [(task, model.kept(task, first), model.kept(task, last)) for task, first, last in cost.days]
    days = range(min(int(first[0]) for _, first, _ in kept), max(int(last[-1]) for _, _, last in kept) + 1)
    begins: list[cp_model.IntVar] = []
    before: cp_model.IntVar | None = None
    for day in days:
        busy = [_there(model, task, first, last, day) for task, first, last in kept]
        there = model.cp.new_bool_var("")
        model.cp.add_max_equality(there, [one for one in busy if one is not None] or [0])
        begins.append(model.cp.new_bool_var(""))
        model.cp.add_bool_or([~there, begins[-1], *([before] if before is not None else [])])
        before = there
    model.cp.add_at_least_one(begins)
    return sum(begins)


def _there(model: Model, task: int, first: Slots, last: Slots, day: int) -> cp_model.LiteralT | None:
    """A literal that holds exactly if a task is worked on on a day; None if it never is."""
    begun = int(np.searchsorted(first, day, side="right"))
    over = int(np.searchsorted(last, day, side="left"))
    if begun == 0 or over == len(last) or over >= begun:
        return None
    start = model.start[task]
    ties: list[cp_model.LiteralT] = [start.at_or_after(over)] if over else []
    ties += [~start.at_or_after(begun)] if begun < len(first) else []
    if len(ties) < 2:
        return ties[0] if ties else model.cp.new_constant(1)
    both = model.cp.new_bool_var("")
    model.cp.add_bool_and(ties).only_enforce_if(both)
    model.cp.add_bool_or([*(~tie for tie in ties), both])
    return both
