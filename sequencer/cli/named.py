"""The step that words name."""

from __future__ import annotations

from sequencer.cli.near import called, write_one_of
from sequencer.cli.planned import Refused
from sequencer.plan import Plan
from sequencer.terms.words import in_words


def one_step(plan: Plan, word: str) -> str:
    """The id of the one step a word names; without a word, of hand-over. Refused if it names none, or several."""
    from sequencer.network.model import HAND_OVER
    from sequencer.views.when import steps_named

    if word.replace("-", " ") in ("", HAND_OVER):
        return HAND_OVER
    found = called((step.id for step in plan.steps), word) or [step.id for step in steps_named(plan, word)]
    if not found:
        raise Refused(unknown(plan, word))
    if len(found) > 1:
        raise Refused(f'"{word}" names several steps; write one of: {", ".join(found)}')
    return found[0]


def unknown(plan: Plan, word: str) -> str:
    """What is said of a word that names no step."""
    near = {step.id: in_words(step.title, plan.words) for step in plan.steps}
    return f'nothing here is called "{word}"; {write_one_of(word, near)}'
