"""The plan as JSON: a contract that only grows. Times are ISO 8601, local with their offset; no clock is read."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from typing import Any

from sequencer.plan import Goal, Plan, PlannedStep, Ready, WaitedFor
from sequencer.terms.minute import Minute
from sequencer.terms.place import Fault
from sequencer.views.clock import Clock

VERSION = 1
Time = Callable[[Minute], str]


def plan_as_json(plan: Plan) -> str:
    """The whole plan as one JSON document; lists are sorted by start, then id."""
    time = Clock(plan.zone).iso
    steps = sorted(plan.steps, key=lambda one: (one.start, one.id))
    return document(
        "plan",
        job=plan.job,
        zone=plan.zone,
        as_of=time(plan.as_of),
        promise=None if plan.promise is None else time(plan.promise),
        finish=time(plan.finish),
        milestones={name: time(at) for name, at in sorted(plan.milestones.items())},
        proven=plan.proven,
        goals=goals_as_json(plan.goals),
        assumed=list(plan.assumed),
        faults=[],
        steps=[step_as_json(step, time) for step in steps],
        closed=_closed(plan, time),
        visits=_visits(plan, time),
        orders=_orders(plan, time),
        decisions=_decisions(plan, time),
        still_to_come=[
            {"step": one.step, "for": one.purpose, "at": time(one.at)}
            for one in sorted(plan.still_to_come, key=lambda one: (one.at, one.step, one.purpose))
        ],
        cautions=[{"step": step, "text": text} for step, text in plan.cautions],
        warnings=list(plan.warnings),
        against_recipes=list(plan.against_recipes),
        told=_told(plan, time),
        under_way=[
            {
                "step": one.step,
                "for": one.purpose,
                "share": round(one.share, 3),
                "ready": time(one.ready),
                "hours_so_far": round(one.so_far, 2),
                "hours_read": one.read,
                "ready_as_said": None if one.ready_as_said is None else time(one.ready_as_said),
                "ready_as_told": None if one.ready_as_told is None else time(one.ready_as_told),
            }
            for one in plan.under_way
        ],
        **({"cushions_used": list(plan.cushions_used)} if plan.cushions_used else {}),
        **_beside(plan),
    )


def _beside(plan: Plan) -> dict[str, object]:
    """The jobs that share people with this one; nothing where there are none."""
    if not plan.beside:
        return {}
    times = {one.job: Clock(one.zone).iso for one in plan.beside}
    found = [{"job": one.job, "finish": times[one.job](one.finish), "days_late": one.days_late} for one in plan.beside]
    return {"days_late": plan.days_late, "beside": found}


def goals_as_json(goals: Iterable[Goal]) -> list[dict[str, object]]:
    """Goals in the order they decide."""
    return [{"name": goal.name, "value": goal.value, "bound": goal.bound, "proven": goal.proven} for goal in goals]


def faults_as_json(faults: Iterable[Fault]) -> str:
    """What is wrong in the files, where a plan was asked for as JSON."""
    return document("faults", faults=[fault_as_json(fault) for fault in faults])


def fault_as_json(fault: Fault) -> dict[str, object]:
    """One fault, with its place taken apart."""
    place = fault.place
    return {"file": place.file, "line": place.line, "column": place.column, "what": fault.what, "write": fault.write}


def document(kind: str, **content: Any) -> str:
    """A JSON document of a kind, keys in the order given, ASCII only."""
    return json.dumps({"version": VERSION, "kind": kind, **content}, indent=1) + "\n"


def step_as_json(step: PlannedStep, time: Time) -> dict[str, object]:
    """One step of the contract."""
    return {
        "id": step.id,
        "title": step.title,
        "kind": step.kind,
        "room": step.room,
        "recipe": step.recipe,
        "step": step.step,
        "trade": step.trade,
        "surfaces": list(step.surfaces),
        "start": time(step.start),
        "end": time(step.end),
        "pieces": [[time(start), time(end)] for start, end in step.pieces],
        "work_minutes": step.work_minutes,
        "state": step.state,
        "ready": [_ready(ready, time) for ready in step.ready],
        "after": [{"id": after.id, "for": after.purpose} for after in step.after],
        "waited_for": _waited_for(step.waited_for),
        "room_for_a_slip_minutes": step.room_for_a_slip,
        "warnings": list(step.warnings),
        "told": None if step.told is None else time(step.told),
    }


def _ready(ready: Ready, time: Time) -> dict[str, object]:
    return {
        "for": ready.purpose,
        "at": time(ready.at),
        "latest": None if ready.latest is None else time(ready.latest),
        "law": ready.law,
        "hours": ready.hours,
        "reference_hours": ready.reference_hours,
        "floor_hours": ready.floor_hours,
        "source": ready.source,
        "listeners": list(ready.listeners),
    }


def _waited_for(waited: WaitedFor | None) -> dict[str, object] | None:
    if waited is None:
        return None
    where = None if waited.where is None else str(waited.where)
    return {"kind": waited.kind, "id": waited.id, "text": waited.text, "where": where}


def _closed(plan: Plan, time: Time) -> list[dict[str, object]]:
    return [
        {
            "room": one.room,
            "surface": one.surface,
            "grade": one.grade,
            "from": time(one.start),
            "until": time(one.end),
            "why": one.why,
            "step": one.step,
        }
        for one in sorted(plan.closed, key=lambda one: (one.start, one.step, one.surface))
    ]


def _visits(plan: Plan, time: Time) -> list[dict[str, object]]:
    return [
        {
            "id": visit.id,
            "trade": visit.trade,
            "from": time(visit.start),
            "until": time(visit.end),
            "steps": list(visit.steps),
            "state": visit.state,
            "call_by": None if visit.call_by is None else time(visit.call_by),
            "told": None if visit.told is None else time(visit.told),
        }
        for visit in sorted(plan.visits, key=lambda visit: (visit.start, visit.id))
    ]


def _told(plan: Plan, time: Time) -> dict[str, object] | None:
    """What is left of the plan people were told."""
    if plan.told_finish is None:
        return None
    return {
        "finish": time(plan.told_finish),
        "called_off": [{"id": one.id, "trade": one.trade, "from": time(one.at)} for one in plan.called_off],
        "recipes_kept": [{"recipe": name, "changed_in": where or None} for name, where in plan.recipes_kept],
    }


def _decisions(plan: Plan, time: Time) -> list[dict[str, object]]:
    return [
        {
            "id": decision.id,
            "by": decision.by,
            "ask_by": None if decision.ask_by is None else time(decision.ask_by),
            "needed": time(decision.needed),
            "for": list(decision.steps),
            "state": "decided" if decision.decided else "to decide",
        }
        for decision in plan.decisions
    ]


def _orders(plan: Plan, time: Time) -> list[dict[str, object]]:
    return [
        {
            "id": order.id,
            "item": order.item,
            "order_by": None if order.order_by is None else time(order.order_by),
            "told_needed": None if order.told is None else time(order.told),
            "told_order_by": None if order.told_order_by is None else time(order.told_order_by),
            "needed": time(order.needed),
            "for": list(order.steps),
            "state": order.state,
        }
        for order in sorted(plan.orders, key=lambda order: (order.needed, order.id))
    ]
