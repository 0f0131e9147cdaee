"""Jobs beside each other in words: hand-overs together, who is short, what each job coming first would bring."""

from __future__ import annotations

from collections.abc import Iterable

from sequencer.answers.beside import OtherJob
from sequencer.answers.choice import Choice
from sequencer.plan import Plan, Plans
from sequencer.terms.minute import DAY, Minute
from sequencer.terms.words import OWN_TRADE
from sequencer.views.as_json import Time
from sequencer.views.clock import Clock, usual, whole_days
from sequencer.views.lines import Section
from sequencer.views.promises import handed_over, promise_words
from sequencer.views.weighed import weighed_together


def sections_of(plans: Plans, choice: Choice | None) -> list[Section]:
    """What stands under the plans of several jobs."""
    found = [Section("all jobs together", tuple(_together(plans)))]
    if told := weighed_together(plans):
        found.append(Section("then weighed, in this order", tuple(told)))
    if choice is not None:
        found.append(Section("who is short", tuple(_short(choice))))
        found.append(Section("the choice", tuple(_ways(choice))))
    return found


def _together(plans: Plans) -> Iterable[str]:
    yield from (handed_over(plan) for plan in plans.plans)
    late = f"{plans.days_late} day{'s' * (plans.days_late != 1)} late against promises"
    if plans.proven:
        yield f"{late}, the fewest possible; and then the earliest hand-overs, taken together."
    else:
        yield f"{late}; that other plans are better, taken together, is not ruled out."


def _short(choice: Choice) -> Iterable[str]:
    for name in choice.later:
        plan = choice.plans.of(name)
        assert plan.alone is not None
        day = usual(Clock(plan.zone).day(plan.alone))
        yield f"{plan.title}: by itself it might be handed over {day}, beside the others {_day(plan, plan.finish)}."
        for held in choice.held:
            if held.job == name:
                who = held.trade if held.trade == OWN_TRADE else f"the {held.trade}"
                yield f"It waits {_stretch(held.minutes)} in all for {who}, who {_is(held.trade)} at another job then."


def _ways(choice: Choice) -> Iterable[str]:
    for way in choice.ways:
        first = way.of(way.first or "")
        others = "; ".join(_said(plan) for plan in way.plans if plan is not first)
        yield f"{first.title} first: {_said(first)}; {others}{_as_planned(way, choice.plans)}"
    if choice.plans.first is None:
        yield "Planned here: fewest days late, then the earliest hand-overs together. To choose: plan --first NAME."
    else:
        yield f"Planned here: {choice.plans.of(choice.plans.first).title} first, as you chose."


def _said(plan: Plan) -> str:
    return f"{plan.title} {_day(plan, plan.finish)}{promise_words(plan) if plan.days_late else ''}"


def _as_planned(way: Plans, plans: Plans) -> str:
    same = all(_day(plan, plan.finish) == _day(plan, plans.of(plan.job).finish) for plan in way.plans)
    return " (as planned here)" if same else ""


def _day(plan: Plan, moment: Minute) -> str:
    return Clock(plan.zone).at(moment)


def _stretch(minutes: int) -> str:
    return whole_days(round(minutes / DAY) * DAY) if minutes >= DAY else whole_days(minutes)


def _is(trade: str) -> str:
    return "are" if trade == OWN_TRADE else "is"


def others_words(others: Iterable[OtherJob]) -> list[str]:
    """What a change does to the other jobs: hand-over old and new, then who comes when instead."""
    said = []
    for other in others:
        clock = Clock(other.now.zone)
        if not other.changed:
            said.append(f"{other.now.title}: nothing moves")
            continue
        if other.was == other.now.finish:
            said.append(f"{handed_over(other.now)}; it stays")
        else:
            said.append(f"{handed_over(other.now)}; before {clock.at(other.was)}")
        said += [f"{one.trade}, {one.step}: {clock.at(one.was)} -> {clock.at(one.starts)}" for one in other.moved]
    return said


def others_as_json(others: Iterable[OtherJob]) -> list[dict[str, object]]:
    """The same as JSON."""
    return [_as_json(one, Clock(one.now.zone).iso) for one in others]


def _as_json(one: OtherJob, time: Time) -> dict[str, object]:
    return {
        "job": one.now.job,
        "was": time(one.was),
        "finish": time(one.now.finish),
        "days_late": one.now.days_late,
        "moves": [
            {"trade": each.trade, "step": each.step, "was": time(each.was), "is": time(each.starts)}
            for each in one.moved
        ],
    }
