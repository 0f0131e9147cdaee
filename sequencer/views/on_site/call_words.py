"""Calls in words: whom, by when, about what, and what keeps the day from being sure."""

from __future__ import annotations

from sequencer.answers.on_site.calls import Call
from sequencer.plan import Plan
from sequencer.terms.minute import Minute
from sequencer.views.clock import Clock
from sequencer.views.titles import title_of_id


def call_words(plan: Plan, call: Call, now: Minute) -> str:
    """plumber, by Thu 4 March: ask for Thu 18 March 10:00 (Toilet set); not sure yet: ..."""
    clock = Clock(plan.zone)
    day = clock.at(call.visit.start)
    work = "; ".join(title_of_id(plan, id) for id in call.visit.steps)
    by = f"by {clock.by(call.by)}" if call.by > now else "today"
    about = {"ask": f"ask for {day}", "settle": f"settle {day}", "remind": f"remind of {day}"}[call.about]
    if call.unsure and call.about == "settle":
        about = f"{day} is not sure enough to be settled; ask to keep it free"
    notice = ""
    if call.notice:
        notice = ", their notice leaves no later call" if call.by > now else ", though it is late for their notice"
    return f"{call.visit.trade}, {by}{notice}: {about} ({work}){unsure_words(plan, call)}"


def unsure_words(plan: Plan, call: Call) -> str:
    """; not sure yet: floor tile not ordered yet"""
    if not call.unsure or call.about == "ask":
        return ""
    known = {order.id: order.item for order in plan.orders}
    said = (f"{known.get(one.id) or title_of_id(plan, one.id)}: {one.why}" for one in call.unsure)
    return f"; not sure yet: {', '.join(said)}"
