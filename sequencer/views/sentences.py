"""What several views say of a step in the same words: why not sooner, ready when, room for a slip."""

from __future__ import annotations

from sequencer.plan import Plan, PlannedStep, Ready, UnderWay, WaitedFor
from sequencer.terms.words import READY_FOR, in_words, say_ready
from sequencer.views.clock import Clock, whole_days
from sequencer.views.titles import title_of_id


def why_not_sooner(plan: Plan, waited: WaitedFor | None) -> str:
    """The sentence that says what something waited for, and where that is written; empty if nothing held it up."""
    if waited is None:
        return ""
    where = f" ({waited.where})" if waited.where else ""
    return f"{in_words(waited.text, plan.words)}{where}"


def ready_words(plan: Plan, clock: Clock, ready: Ready) -> str:
    """When a layer is ready for a purpose, the latest start if there is one, and how the wait was worked out."""
    latest = f", no later than {clock.at(ready.latest)}" if ready.latest is not None else ""
    working = f" ({ready.working})" if ready.working else ""
    return f"ready {purpose_words(plan, ready)} {clock.at(ready.at)}{latest}{working}"


def purpose_words(plan: Plan, ready: Ready) -> str:
    """What a layer is ready for: a word of the table, or the step that listens."""
    if ready.purpose in READY_FOR or not ready.listeners:
        return say_ready(ready.purpose, plan.words)
    return f"for {title_of_id(plan, ready.listeners[0])}"


def otherwise_words(plan: Plan, step: PlannedStep) -> list[str]:
    """What has to be done again if what follows comes too late, or if an inspection fails."""
    too_late = [f"if too late: {in_words(step.if_too_late, plan.words)}"] if step.if_too_late else []
    again = ", ".join(title_of_id(plan, id) for id in step.if_failed)
    return too_late + ([f"if it fails, again: {again}"] if again else [])


def under_way_words(plan: Plan, clock: Clock, one: UnderWay) -> str:
    """How far a wait is by now, when it is expected to be over, and what the readings of its air changed."""
    ready = next(ready for ready in plan.step(one.step).ready if ready.purpose == one.purpose)
    expected = f"ready {purpose_words(plan, ready)} {clock.at(one.ready)} as expected today"
    said = f"{int(100 * one.share)} % of the way, {expected}"
    if one.read:
        said += f"; {one.read} of its {max(round(one.so_far), one.read)} h so far by a meter"
    if one.ready_as_said is not None:
        said += f", {_later(one.ready - one.ready_as_said)} than by the air as it was said"
    if one.ready_as_told is not None:
        said += f"; {_later(one.ready - one.ready_as_told)} than in the plan people were told"
    return said


def _later(minutes: int) -> str:
    return f"{whole_days(abs(minutes))} {'later' if minutes > 0 else 'sooner'}"


def slip_words(step: PlannedStep) -> str:
    """How far a step may slip before hand-over moves."""
    slip = step.room_for_a_slip
    return "" if slip is None else f"room for a slip: {whole_days(slip) if slip > 0 else 'none'}"
