"""What facts change in the plan, in words."""

from __future__ import annotations

from collections.abc import Iterable

from sequencer.answers.moves import Move, Moves
from sequencer.terms.fact import Fact
from sequencer.terms.words import in_words
from sequencer.views.as_json import document
from sequencer.views.clock import Clock
from sequencer.views.fact_json import fact_as_json
from sequencer.views.lines import wrapped
from sequencer.views.titles import HAND_OVER_TITLE, title_of

WIDTH = 80


def moves_text(found: Moves, width: int = WIDTH) -> str:
    """Hand-over old and new, then every step that moves."""
    clock, plan = Clock(found.plan.zone), found.plan
    told = " (as people were told)" if found.told else ""
    if found.was == plan.finish:
        lines = wrapped(f"{HAND_OVER_TITLE} stays{told}: {clock.at(plan.finish)}", width)
    else:
        lines = wrapped(f"{HAND_OVER_TITLE}: {clock.at(found.was)}{told} -> {clock.at(plan.finish)}", width)
    count = len(found.moved)
    moved = f"{count} step{'s move' if count > 1 else ' moves'}, {found.stay} to come stay:"
    lines.append(moved if count else "nothing moves")
    for one in found.moved:
        lines += wrapped(_told(found, clock, one), width, "  ", "    ")
    for text in found.said:
        lines += wrapped(in_words(text, plan.words), width, "", "  ")
    for text in plan.against_recipes:
        lines += wrapped(f"against the recipe: {in_words(text, plan.words)}", width, "", "  ")
    return "\n".join(lines) + "\n"


def moves_document(found: Moves, facts: Iterable[Fact]) -> str:
    """The same as JSON, with the facts that were written."""
    time = Clock(found.plan.zone).iso

    def maybe(moment: int | None) -> str | None:
        return None if moment is None else time(moment)

    return document(
        "moves",
        job=found.job.name,
        facts=[fact_as_json(fact, time) for fact in facts],
        as_told=found.told,
        finish={"was": time(found.was), "is": time(found.plan.finish)},
        moves=[{"id": one.id, "was": maybe(one.was), "is": maybe(one.starts)} for one in found.moved],
        stay=found.stay,
        said=list(found.said),
        against_recipes=list(found.plan.against_recipes),
    )


def _told(found: Moves, clock: Clock, one: Move) -> str:
    if one.starts is None:
        return f"{one.id}: no longer to be done"
    step = found.plan.step(one.id)
    moves = f"new, {clock.at(one.starts)}" if one.was is None else f"{clock.at(one.was)} -> {clock.at(one.starts)}"
    return f"{title_of(found.plan, step)} [{step.id}], {step.trade}: {moves}"
