"""A window no usual week meets: what must follow in time would have to follow at night or on a Sunday."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.files.check_recipe import followed
from sequencer.files.people import EIGHT_TO_FOUR, MON_TO_FRI
from sequencer.terms.minute import DAY, HOUR
from sequencer.terms.place import Fault
from sequencer.terms.recipe import Recipe, RecipeStep
from sequencer.terms.wait import Wait

WEEKS = 60
"""Weeks of usual hours that are laid out: longer than any window a recipe may have."""

OPEN = tuple(
    (day * DAY + EIGHT_TO_FOUR[0], day * DAY + EIGHT_TO_FOUR[1]) for day in range(7 * WEEKS) if day % 7 in MON_TO_FRI
)
EVERY = HOUR // 4
"""How close together the ends of work are tried [min]."""


def remarks(recipe: Recipe) -> Iterator[Fault]:
    """Waits by their reference hours after which no step that hears them starts in the usual hours of a week."""
    for at, listener in enumerate(recipe.steps):
        for name, purpose, _ in followed(recipe, at):
            giver = next((step for step in recipe.steps if step.name == name), None)
            wait = next((each for each in giver.waits if each.purpose == purpose), None) if giver else None
            if giver is not None and wait is not None and not _meets(wait):
                yield _remark(giver, listener, wait)


def _remark(giver: RecipeStep, listener: RecipeStep, wait: Wait) -> Fault:
    what = f'"{listener.name}" finds no usual working hour in time after "{giver.name}" (Mon to Fri, 08:00-16:00)'
    return Fault(wait.place, what, "lengthen within, or say in a caution which hours it takes")


def _meets(wait: Wait) -> bool:
    if wait.within_minutes is None:
        return True
    ready = round(HOUR * max(wait.hours, wait.floor_hours or 0.0))
    latest = wait.within_minutes + (ready if wait.within_of_ready else 0)
    ends = (end for opens, closes in OPEN[: len(MON_TO_FRI)] for end in range(opens + EVERY, closes + EVERY, EVERY))
    return any(_open_within(end + ready, end + latest) for end in ends)


def _open_within(first: int, last: int) -> bool:
    return any(opens <= last and first < closes for opens, closes in OPEN)
