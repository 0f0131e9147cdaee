"""A plan against the one people were told: hand-over, visits that move, new ones, visits not needed any more."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sequencer.answers.beside import OtherJob
from sequencer.plan import Plan, Visit
from sequencer.terms.minute import Minute
from sequencer.views.as_json import document
from sequencer.views.beside import others_as_json
from sequencer.views.clock import Clock, days_between, length
from sequencer.views.titles import title_of_id


def against_told(plan: Plan) -> list[str]:
    """Sentences, hand-over first; none where people were told nothing."""
    if plan.told_finish is None:
        return []
    clock = Clock(plan.zone)
    said = [*_hand_over(plan, clock), *(text for visit in plan.visits for text in _visit(plan, visit, clock))]
    said += [
        f"{order.item}: told as needed {clock.at(order.told)}, now {clock.at(order.needed)}"
        f"{order_by_words(clock, order.order_by, order.told_order_by)}"
        for order in plan.orders
        if order.told not in (None, order.needed) and order.told is not None and order.needed > plan.as_of
    ]
    said += [f"{visit.trade}: told {clock.at(visit.at)}; not needed any more" for visit in plan.called_off]
    return said or ["nothing moves"]


def accepted_as_json(plan: Plan, others: Iterable[OtherJob] = ()) -> str:
    """The same as JSON, with the plan's visits and what moves of each; `others`: jobs that share people."""
    return document("accept", **_accepted(plan), beside=others_as_json(others))


def all_accepted_as_json(plans: Iterable[Plan]) -> str:
    """The same for jobs that share people."""
    return document("accept all", jobs=[_accepted(plan) for plan in plans])


def _accepted(plan: Plan) -> dict[str, object]:
    time = Clock(plan.zone).iso
    visits = [
        {
            "id": visit.id,
            "trade": visit.trade,
            "from": time(visit.start),
            "told": None if visit.told is None else time(visit.told),
            "moved": moved(plan, visit),
        }
        for visit in plan.visits
    ]
    finish = None if plan.told_finish is None else time(plan.told_finish)
    return {
        "job": plan.job,
        "finish": time(plan.finish),
        "told_finish": finish,
        "visits": visits,
        "called_off": [one.id for one in plan.called_off],
        "recipes_kept": [name for name, _ in plan.recipes_kept],
        "given_up": [one.step for one in plan.released],
        "sentences": [*against_told(plan), *given_up(plan), *kept_recipes(plan)],
    }


def said_of(plan: Plan) -> list[str]:
    """All that is told of a plan before people are told it."""
    return [*(against_told(plan) or ["nobody was told anything so far"]), *given_up(plan), *kept_recipes(plan)]


def moves_told(plan: Plan) -> bool:
    """True if somebody would have to be told anew: a firm visit given up, another day of hand-over, a told visit moved
    or called off."""
    if plan.released or plan.told_finish is None:
        return bool(plan.released)
    clock = Clock(plan.zone)
    later = clock.day(plan.finish) != clock.day(plan.told_finish)
    return later or bool(plan.called_off) or any(moved(plan, visit) for visit in plan.visits)


def order_by_words(clock: Clock, order_by: Minute | None, told: Minute | None) -> str:
    """; order by Wed 4 March instead of Mon 2 March"""
    if order_by is None:
        return ""
    instead = f" instead of {clock.by(told)}" if told not in (None, order_by) and told is not None else ""
    return f"; order by {clock.by(order_by)}{instead}"


def moved(plan: Plan, visit: Visit) -> list[str]:
    """Ids of the steps of a visit, still to be done, that start at another moment than its trade was told."""
    steps = (plan.step(id) for id in visit.steps)
    return [step.id for step in steps if step.state == "planned" and step.told not in (None, step.start)]


def given_up(plan: Plan) -> list[str]:
    """Firm visits that no plan could keep."""
    clock = Clock(plan.zone)
    return [
        f"{one.trade}, {title_of_id(plan, one.step)}: booked for {clock.at(one.at)}, cannot be kept, "
        f"now {clock.at(plan.step(one.step).start)}"
        for one in plan.released
    ]


def kept_recipes(plan: Plan) -> list[str]:
    """Recipes that were changed since people were told a plan, and how the new text is taken."""
    said = []
    for name, where in plan.recipes_kept:
        changed = f"changed since ({where})" if where else "gone since"
        said.append(f"{name}: {changed}; planned with the text people were told a plan of")
    return [*said, "accept --new-recipes takes the new texts, plan --new-recipes shows that plan"] if said else []


def _hand_over(plan: Plan, clock: Clock) -> Iterator[str]:
    told = plan.told_finish
    if told is None or told == plan.finish:
        return
    first, last = sorted((told, plan.finish))
    apart = days_between(clock.day(first), clock.day(last))
    if clock.day(first) == clock.day(last):
        apart = length(last - first)
    way = "later" if plan.finish > told else "sooner"
    yield f"hand over: told {clock.at(told)}, now {clock.at(plan.finish)}, {apart} {way}"


def _visit(plan: Plan, visit: Visit, clock: Clock) -> Iterator[str]:
    steps = moved(plan, visit)
    now = clock.at(visit.start)
    if visit.told is None and not any(plan.step(id).told is not None for id in visit.steps):
        yield f"{visit.trade}: new, {now}"
    elif visit.told not in (None, visit.start) and steps:
        yield f"{visit.trade}: told {clock.at(visit.told or 0)}, now {now}"
    else:
        for id in steps:
            step = plan.step(id)
            yield f"{visit.trade}, {title_of_id(plan, id)}: told {clock.at(step.told or 0)}, now {clock.at(step.start)}"
