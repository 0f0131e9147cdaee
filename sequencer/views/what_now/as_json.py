"""What now, as JSON."""

from __future__ import annotations

from sequencer.answers.what_now.answer import WhatNow
from sequencer.answers.what_now.visits import VisitMove
from sequencer.terms.minute import Minute
from sequencer.views.as_json import document
from sequencer.views.beside import others_as_json
from sequencer.views.clock import Clock
from sequencer.views.fact_json import fact_as_json
from sequencer.views.what_now.messages import message


def what_now_as_json(found: WhatNow) -> str:
    """The answer as one document; times are local with their offset."""
    iso = Clock(found.plan.zone).iso

    def time(moment: Minute | None) -> str | None:
        return None if moment is None else iso(moment)

    def visit(one: VisitMove) -> dict[str, object]:
        return {
            "trade": one.trade,
            "steps": list(one.steps),
            "was": time(one.was),
            "from": time(one.starts),
            "state": one.state,
            "call_by": time(one.call_by),
        }

    return document(
        "what now",
        job=found.plan.job,
        zone=found.plan.zone,
        as_of=iso(found.plan.as_of),
        facts=[fact_as_json(fact, iso) for fact in found.facts],
        told=found.told,
        was=time(found.before.finish),
        finish=time(found.plan.finish),
        promise=time(found.plan.promise),
        proven=found.plan.proven,
        moved=[{"id": one.id, "was": time(one.was), "start": time(one.starts)} for one in found.moves.moved],
        stay=found.moves.stay,
        said=list(found.moves.said),
        against_recipes=list(found.plan.against_recipes),
        visits=[visit(one) for one in found.visits if one.moves],
        sooner=list(found.pulled),
        gap=[
            {
                "from": time(hour.start),
                "until": time(hour.end),
                "could": [{"step": one.step, "whole": one.whole} for one in hour.fillers],
            }
            for hour in found.gap
        ],
        calls=[
            {
                "who": call.who,
                "about": call.about,
                "by": time(call.by),
                "visits": [visit(one) for one in call.visits],
                "words": message(found, call),
            }
            for call in found.calls
        ],
        orders=[
            {
                "id": one.order.id,
                "was": time(one.was),
                "needed": time(one.order.needed),
                "order_by": time(one.order.order_by),
                "order_by_was": time(one.order_by),
            }
            for one in found.orders
        ],
        elsewhere=[
            {"job": one.job, "step": one.step, "from": time(one.start), "until": time(one.end)}
            for one in found.elsewhere
        ],
        beside=others_as_json(found.beside),
    )
