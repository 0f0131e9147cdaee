"""What a step is called on site."""

from __future__ import annotations

from sequencer.plan import Plan, PlannedStep
from sequencer.terms.words import in_words
from sequencer.views.clock import Clock, usual

HAND_OVER_TITLE = "Hand-over"


def plan_of_start_day(plan: Plan) -> list[str]:
    """One sentence where nothing is recorded since the job began: the plan is not what has happened."""
    day = usual(Clock(plan.zone).day(plan.start))
    return [f"PLAN OF THE START DAY, {day}: nothing is recorded since."] if plan.unrecorded else []


def title_of(plan: Plan, step: PlannedStep) -> str:
    """A step's title in the job's form of words, with the part it is about where the title does not tell it."""
    parts = dict.fromkeys(surface.split(", ", 1)[1] for surface in step.surfaces if ", " in surface)
    title = in_words(step.title, plan.words)
    untold = [part for part in parts if not title.endswith(f", {part}")]
    return f"{title} ({', '.join(untold)})" if untold else title


def title_of_id(plan: Plan, id: str) -> str:
    """The title of the step of an id; hand-over, which is no step of a recipe, by its own name."""
    try:
        return title_of(plan, plan.step(id))
    except KeyError:
        return HAND_OVER_TITLE
