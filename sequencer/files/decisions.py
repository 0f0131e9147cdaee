"""Decisions, what hangs on them, and the orders that must be on site before a recipe begins."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from sequencer.files.calendar_days import ONE, Calendar
from sequencer.files.job_model import DecisionModel
from sequencer.files.refs import Ref
from sequencer.files.uses import Use, find
from sequencer.files.wrong import nearest
from sequencer.terms.arranged import Decision, Order
from sequencer.terms.place import Fault, Place
from sequencer.terms.recipe import Named
from sequencer.terms.words import CLIENT, OWN_TRADE


def decision_of(
    name: str,
    model: DecisionModel,
    place: Place,
    uses: list[Use],
    people: Iterable[str],
    calendar: Calendar,
    today: date,
    faults: list[Fault],
) -> Decision:
    """A decision; it stands when the day it was made, or the last of the days it takes from today, is over."""
    who = model.by or Named(CLIENT, place)
    known = [CLIENT, OWN_TRADE, *people]
    if who.word not in known:
        faults.append(Fault(who.place, f'nobody here is called "{who.word}"', nearest(who.word, known)))
    for ref in model.before:
        if ref.purpose is not None:
            faults.append(Fault(ref.place, "a decision waits for no layer", f'write "{ref.who}"'))
    targets = [target for ref in model.before for target in find(ref.who, ref.place, uses, None, faults)]
    ids = tuple(dict.fromkeys(id for target in targets for id in target.ids))
    day = model.decided or calendar.working_after(today, model.ask_by or 0)
    stands = calendar.midnight(day + ONE if model.decided or model.ask_by else today)
    return Decision(name, who.word, ids, place, model.ask_by or 0, stands, model.decided is not None)


def hanging(
    order: Order, named: Named, decisions: dict[str, Decision | None], calendar: Calendar, faults: list[Fault]
) -> Order:
    """An order that is placed once something is decided: on site a lead after that. None: what cannot be read."""
    if named.word not in decisions:
        what = f'"{named.word}" is no decision of this job'
        faults.append(Fault(named.place, what, nearest(named.word, decisions)))
    decision = decisions.get(named.word)
    if decision is None:
        return order
    if order.ordered is not None:
        if not decision.decided:
            what = f'"{order.name}" is ordered, and "{decision.name}" is not decided yet'
            faults.append(Fault(named.place, what, "add decided: and the day to the decision, or leave out ordered:"))
        return replace(order, decision=decision.name)
    last = calendar.working_after(calendar.day(decision.stands - 1), order.lead_days)
    return replace(order, decision=decision.name, arrives=calendar.midnight(last + ONE))


def with_must_haves(
    orders: dict[str, Order | None], wanted: dict[Ref, tuple[Named, ...]], uses: list[Use], faults: list[Fault]
) -> list[Order]:
    """The orders, those that must be on site before a recipe begins needed by it too. None: what cannot be read."""
    by_name = dict(orders)
    for ref, names in wanted.items():
        ids = [id for target in find(ref.who, ref.place, uses, None, faults) for id in target.ids]
        for named in names:
            order = by_name.get(named.word)
            if named.word not in by_name:
                what = f'"{named.word}" is no order of this job'
                faults.append(Fault(named.place, what, nearest(named.word, by_name)))
            elif order is not None and order.made_after in ids:
                what = f'"{named.word}" is made after a step of "{ref.who}", which would wait for it'
                faults.append(Fault(named.place, what, "leave it out here"))
            elif order is not None:
                by_name[named.word] = replace(order, for_steps=tuple(dict.fromkeys((*order.for_steps, *ids))))
    return [order for order in by_name.values() if order is not None]
