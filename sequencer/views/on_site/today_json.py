"""A day on site as JSON."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from sequencer.answers.on_site.calls import Call
from sequencer.answers.on_site.last_start import LastStart
from sequencer.plan import Plan
from sequencer.terms.minute import Minute
from sequencer.views.as_json import document
from sequencer.views.columns import rooms_of
from sequencer.views.on_site.days import Day
from sequencer.views.on_site.measure_words import to_measure, unread_air
from sequencer.views.on_site.surfaces import on_surfaces
from sequencer.views.on_site.today import OnTheDay

Time = Callable[[Minute], str]


def today_as_json(plan: Plan, on: date, found: OnTheDay) -> str:
    """The day as one document; times are local with their offset."""
    day, time = Day(plan, on), Day(plan, on).clock.iso
    states = {id: visit.state for visit in plan.visits for id in visit.steps}
    return document(
        "today",
        job=plan.job,
        zone=plan.zone,
        day=on.isoformat(),
        comes=[
            {
                "trade": step.trade,
                "step": step.id,
                "visit": states.get(step.id),
                "pieces": [[time(start), time(end)] for start, end in day.pieces(step)],
            }
            for step in day.working()
        ],
        surfaces=[
            {
                "room": room,
                "surface": one.surface,
                "state": one.state,
                "from": time(max(one.start, day.start)),
                "until": None if one.end is None else time(one.end),
                "step": one.step,
            }
            for room in rooms_of(plan)
            for one in on_surfaces(day, room)
        ],
        last_starts=[_last_start(one, time) for one in found.last],
        waiting_hours=[
            {
                "from": time(hour.start),
                "until": time(hour.end),
                "could": [
                    {"step": one.step, "from": time(one.start), "until": time(one.end), "whole": one.whole}
                    for one in hour.fillers
                ],
            }
            for hour in found.waiting
        ],
        calls=[call_as_json(call, time) for call in found.calls],
        look_ins=[
            {"step": one.step, "every_minutes": one.every, "from": time(one.start), "until": time(one.end)}
            for one in found.look_ins
        ],
        off=[
            {"service": one.service, "step": one.step, "spans": [[time(start), time(end)] for start, end in one.spans]}
            for one in found.off
        ],
        measure=[
            {
                "step": one.step.id,
                "what": list(one.what),
                "ready_for": None if one.ready is None else one.ready.purpose,
                "expected": None if one.ready is None else time(one.ready.at),
                "before": None if one.before is None else one.before.id,
            }
            for one in to_measure(day)
        ],
        unread_air={room: list(steps) for room, steps in unread_air(day).items()},
        records=[{"step": step.id, "record": list(step.record)} for step in day.working() if step.record],
        tomorrow=[{"trade": step.trade, "step": step.id} for step in day.after(1).working()],
    )


def call_as_json(call: Call, time: Time) -> dict[str, Any]:
    """A call of the contract."""
    return {
        "visit": call.visit.id,
        "trade": call.visit.trade,
        "state": call.visit.state,
        "about": call.about,
        "by": time(call.by),
        "notice": call.notice,
        "from": time(call.visit.start),
        "steps": list(call.visit.steps),
        "unsure": [{"id": one.id, "why": one.why} for one in call.unsure],
        "when": {about: time(by) for about, by in call.when.items()},
    }


def _last_start(one: LastStart, time: Time) -> dict[str, Any]:
    otherwise = one.otherwise
    return {
        "step": one.step,
        "start": time(one.start),
        "last": None if one.last is None else time(one.last),
        "done_by": time(one.done_by),
        "otherwise": {
            "id": otherwise.id,
            "planned": time(otherwise.planned),
            "at": None if otherwise.at is None else time(otherwise.at),
            "why": otherwise.why.text,
            "where": None if otherwise.why.where is None else str(otherwise.why.where),
            "too_late": otherwise.too_late,
        },
        "moves_hand_over": one.moves_hand_over,
    }
