"""The last start of a step in words: "start by 11:30, done by 14:15, or it is Monday"."""

from __future__ import annotations

from sequencer.answers.on_site.last_start import LastStart, Otherwise
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan
from sequencer.terms.minute import Minute
from sequencer.terms.words import in_words
from sequencer.views.clock import Clock, usual
from sequencer.views.titles import title_of_id

TOLD_TO = 5
"""Hours are told in steps of so many minutes, never later than they are [min]."""


def last_start_words(plan: Plan, one: LastStart) -> str:
    """The whole sentence, with the step's title in front."""
    clock = Clock(plan.zone)
    if one.last is None:
        otherwise = otherwise_words(plan, clock, one.otherwise, one.step, "it goes on")
        then = "; hand-over moves with it" if one.moves_hand_over and one.otherwise.id != HAND_OVER else ""
        return f"{title_of_id(plan, one.step)}: done by {clock.hour(_early(one.done_by, one.start))}, {otherwise}{then}"
    by = _early(one.last, one.start)
    same_day = clock.day(one.done_by - 1) == clock.day(one.last)
    done = f", done by {clock.hour(_early(one.done_by, one.done_by - one.last + by))}" if same_day else ""
    waits = one.otherwise.id != one.step and not one.otherwise.too_late
    cold = f" (down to {round(one.coldest):g} C counted)" if waits and one.coldest is not None else ""
    moves = one.moves_hand_over and one.otherwise.id != HAND_OVER
    then = "; hand-over moves with it" if moves else ""
    otherwise = otherwise_words(plan, clock, one.otherwise, one.step)
    return f"{title_of_id(plan, one.step)}: start by {clock.hour(by)}{done}, {otherwise}{then}{cold}"


def otherwise_words(plan: Plan, clock: Clock, one: Otherwise, step: str, itself: str = "it is") -> str:
    """What being later costs, to follow "start by 11:30,". `itself`: what the step then does on another day."""
    title = title_of_id(plan, one.id)
    if one.too_late:
        again = plan.step(one.by).if_too_late if one.by and one.by != HAND_OVER else None
        said = f": {in_words(again, plan.words)}" if again else ""
        return f"or {title_of_id(plan, one.by or one.id)} is not followed in time{said}"
    if one.at is None:
        return f"or {title} finds no day in the next four weeks"
    if clock.day(one.at) == clock.day(one.planned):
        return f"or {title} cannot begin at {clock.hour(one.planned)} any more"
    day = usual(clock.day(one.at))
    return f"or {itself} {day}" if one.id == step else f"or {title} is {day} instead of {usual(clock.day(one.planned))}"


def _early(moment: Minute, not_before: Minute) -> Minute:
    return max(moment - moment % TOLD_TO, not_before)
