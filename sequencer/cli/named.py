"""The step that words name."""

from __future__ import annotations

from sequencer.cli.planned import Refused
from sequencer.plan import Plan


def one_step(plan: Plan, word: str) -> str:
    """The id of the one step a word names; without a word, of hand-over. Refused if it names none, or several."""
    from sequencer.network.model import HAND_OVER
    from sequencer.views.when import steps_named, words_known

    if word.replace("-", " ") in ("", HAND_OVER):
        return HAND_OVER

    def spoken(id: str) -> str:
        return id.replace("-", " ").replace("/", " ")

    exact = [step for step in plan.steps if spoken(word) in (spoken(step.id), spoken(step.id.partition("/")[2]))]
    steps = exact or steps_named(plan, word)
    if not steps:
        raise Refused(f'nothing here is called "{word}"; write one of: {", ".join(words_known(plan))}')
    if len(steps) > 1:
        raise Refused(f'"{word}" names several steps; write one of: {", ".join(step.id for step in steps)}')
    return steps[0].id
