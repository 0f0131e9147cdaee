"""The plans of several jobs as text: all of them together first, then each as its own site diary."""

from __future__ import annotations

import json

from sequencer.answers.choice import Choice
from sequencer.plan import Plans
from sequencer.views.as_json import document, goals_as_json, plan_as_json
from sequencer.views.beside import sections_of
from sequencer.views.clock import Clock
from sequencer.views.diary import diary
from sequencer.views.lines import laid_out
from sequencer.views.plain import plain_diary
from sequencer.views.rooms_table import rooms_page, rooms_plain
from sequencer.views.wide import wide_diary

WIDTH, WIDE = 80, 120


def plans_page(plans: Plans, choice: Choice | None, wide: bool = False) -> str:
    """All together, then the diaries."""
    each = (wide_diary(plan) if wide else diary(plan) for plan in plans.plans)
    return "\n".join([_head(plans, choice, WIDE if wide else WIDTH), *each])


def plans_plain(plans: Plans, choice: Choice | None) -> str:
    """The same in sentences."""
    return "\n".join([_head(plans, choice, WIDTH), *(plain_diary(plan) for plan in plans.plans)])


def plans_rooms(plans: Plans, choice: Choice | None, plain: bool = False) -> str:
    """The rooms of all jobs day by day, then all together."""
    rooms = rooms_plain(plans.plans) if plain else rooms_page(plans.plans)
    return f"{rooms}\n{_head(plans, choice, WIDTH)}"


def _head(plans: Plans, choice: Choice | None, width: int) -> str:
    return "\n".join([*laid_out(sections_of(plans, choice), width), ""])


def plans_as_json(plans: Plans, choice: Choice | None) -> str:
    """One document: each plan as by itself, the goals of all together, and the choice where people are short."""
    return document(
        "plans",
        proven=plans.proven,
        goals=goals_as_json(plans.goals),
        then_weighed=goals_as_json(plans.behind),
        days_late=plans.days_late,
        first=plans.first,
        hand_overs=_hand_overs(plans),
        short=None if choice is None else _short(choice),
        plans=[json.loads(plan_as_json(plan)) for plan in plans.plans],
    )


def _hand_overs(plans: Plans) -> list[dict[str, object]]:
    found: list[dict[str, object]] = []
    for plan in plans.plans:
        time = Clock(plan.zone).iso
        found.append({
            "job": plan.job,
            "finish": time(plan.finish),
            "promise": None if plan.promise is None else time(plan.promise),
            "days_late": plan.days_late,
            "by_itself": None if plan.alone is None else time(plan.alone),
        })  # fmt: skip
    return found


def _short(choice: Choice) -> dict[str, object]:
    ways = [{"first": w.first, "days_late": w.days_late, "hand_overs": _hand_overs(w)} for w in choice.ways]
    return {
        "later": list(choice.later),
        "waits": [{"job": one.job, "trade": one.trade, "minutes": one.minutes} for one in choice.held],
        "must_decide": choice.must_decide,
        "ways": ways,
    }
