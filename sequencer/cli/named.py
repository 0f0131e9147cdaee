"""The step that words name."""

from __future__ import annotations

from sequencer.cli.near import called, spoken, write_one_of
from sequencer.cli.planned import Refused
from sequencer.plan import Plan, PlannedStep
from sequencer.terms.words import in_words


def one_step(plan: Plan, word: str) -> str:
    """The id of the one step a word names; without a word, of hand-over. Refused if it names none, or several."""
    from sequencer.network.model import HAND_OVER

    if word.replace("-", " ") in ("", HAND_OVER):
        return HAND_OVER
    found = [step.id for step in steps_meant(plan, word)[0]]
    if not found:
        raise Refused(unknown(plan, word))
    if len(found) > 1:
        raise Refused(f'"{word}" names several steps; write one of: {", ".join(found)}')
    return found[0]


def steps_meant(plan: Plan, word: str) -> tuple[list[PlannedStep], list[PlannedStep]]:
    """The steps a word means, by start, and those that hold it too: whose name it is comes before whose name has all of
    its words, and that before any whose title or surfaces hold it somewhere."""
    from sequencer.views.when import steps_named

    held = steps_named(plan, word)
    exact = set(called((step.id for step in plan.steps), word)) if word else set()
    words = set(spoken(word).split())
    own = [step for step in held if words and words <= {*spoken(step.id).split(), *_as_told(plan, step)}]
    meant = [step for step in plan.steps if step.id in exact] or own or held
    meant.sort(key=lambda step: (step.start, step.id))
    return meant, [step for step in held if step not in meant]


def _as_told(plan: Plan, step: PlannedStep) -> list[str]:
    return spoken(in_words(step.id, plan.words)).split()


def unknown(plan: Plan, word: str) -> str:
    """What is said of a word that names no step."""
    near = {step.id: in_words(step.title, plan.words) for step in plan.steps}
    return f'nothing here is called "{word}"; {write_one_of(word, near)}'
