"""Facts as somebody would tell them who goes by a plan."""

from __future__ import annotations

from typing import Any

from tiny_jobs import MONDAY, WEEK, case_of, ident, moment

from sequencer.audit import Times, audit
from sequencer.network.build import build
from sequencer.plan import Plan
from sequencer.planning import settled
from sequencer.solve import solve
from sequencer.terms.fact import OF_STEPS, Fact
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, HOUR, Minute
from sequencer.terms.place import Place
from sequencer.terms.with_facts import with_facts
from sequencer.writeup import times_of


def fact(number: int, kind: Any, about: str, happened: Minute, words: str = "", **more: Any) -> Fact:
    """A fact of the site book, written when it happened."""
    return Fact(number, kind, about, happened, happened, words, Place("site-book.txt", number + 1), **more)


def agreed(job: Job, at: Minute) -> list[Fact]:
    """Every trade is asked for every step, and every order is placed, before anything begins."""
    found = [fact(n, "asked", step.id, at) for n, step in enumerate(job.steps, 1)]
    booked = {booking.step: booking.at for booking in job.bookings}
    found = [
        fact(one.number, "booked", one.about, at, at=booked[one.about]) if one.about in booked else one
        for one in found
    ]
    orders = [order for order in job.orders if order.ordered is None and order.made_after is None]
    last = len(found)
    return found + [fact(last + n, "ordered", one.name, at, at=one.arrives) for n, one in enumerate(orders, 1)]


def as_planned(job: Job, plan: Plan, now: Minute, first: int, every: bool = True) -> list[Fact]:
    """What the plan has had happen by a moment, told to the minute; not `every`: inspections, and the newest of all."""
    kinds = {step.id: "passed" if step.kind == "hold" else "done" for step in job.steps}
    ended = sorted((step.end, step.id) for step in plan.steps if step.end <= now)
    told = [(at, id) for n, (at, id) in enumerate(ended, 1) if every or kinds[id] == "passed" or n == len(ended)]
    orders = [(order.arrives, order.id) for order in plan.orders if order.arrives <= now]
    facts = [fact(first + n, kinds[id], id, at) for n, (at, id) in enumerate(told)]
    return facts + [fact(first + len(facts) + n, "delivered", id, at) for n, (at, id) in enumerate(orders)]


def planned(of: Job) -> Times:
    """The times of the shortest plan, sound by the audit."""
    case = case_of(of)
    network = build(case)
    found = times_of(network, solve(network, effort=0.2))
    said = audit(of, case.airs, found)
    assert said == (), said
    return found


def planned_on(of: Job, *facts: Fact) -> tuple[Job, Times]:
    """A job planned, then planned again with facts."""
    changed = settled(with_facts(of, facts), made=planned(of).pieces)
    return changed, planned(changed)


def told(words: str, *, at: str, number: int = 1, **more: Any) -> Fact:
    """`told("done a", at="Mon 9")`: a fact about a step of a tiny job; what stands behind a comma is its words."""
    kind, _, rest = words.partition(" ")
    about, _, said = rest.partition(", ")
    by_step = kind in OF_STEPS or (kind == "measured" and "temperature" not in more)
    return fact(number, kind, ident(about) if by_step else about, moment(at), said, **more)


def in_words(found: Times) -> dict[str, str]:
    """When every step of a tiny job starts and ends: `{"a": "Mon 8:00 - Mon 9:00"}`."""
    return {id.removeprefix("bath/u/"): f"{_said(p[0][0])} - {_said(p[-1][1])}" for id, p in found.pieces.items()}


def _said(minute: Minute) -> str:
    day, rest = divmod(minute - MONDAY, DAY)
    week = f"{day // 7 + 1}" if day >= 7 else ""
    return f"{WEEK[day % 7]}{week} {rest // HOUR}:{rest % HOUR:02}"
