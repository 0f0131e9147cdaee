"""May this be done now: yes or no first, then until when, and why."""

from __future__ import annotations

from sequencer.answers.on_site.may import May, Reason
from sequencer.plan import Plan
from sequencer.terms.words import in_words
from sequencer.views.as_json import document
from sequencer.views.clock import Clock
from sequencer.views.lines import wrapped
from sequencer.views.titles import title_of_id

WIDTH = 80


def may(plan: Plan, what: str, answer: May, width: int = WIDTH) -> str:
    """`Yes, grout floor, until ...` or `No, ...`, and a line a reason."""
    clock = Clock(plan.zone)
    lines = wrapped(f"{_verdict(plan, clock, what, answer)}.", width)
    for reason in answer.reasons:
        lines += wrapped(_reason(plan, clock, reason), width, "  ", "    ")
    return "\n".join(lines) + "\n"


def may_as_json(plan: Plan, what: str, of: str | None, answer: May) -> str:
    """The answer as JSON. `of`: the step's id, None for a use of a surface."""
    time = Clock(plan.zone).iso
    return document(
        "may",
        job=plan.job,
        what=what,
        step=of,
        at=time(answer.at),
        may=answer.yes,
        until=None if answer.until is None else time(answer.until),
        again=None if answer.again is None else time(answer.again),
        moves=answer.moves,
        reasons=[
            {
                "text": reason.text,
                "until": None if reason.until is None else time(reason.until),
                "by": reason.by,
                "where": None if reason.where is None else str(reason.where),
            }
            for reason in answer.reasons
        ],
    )


def _verdict(plan: Plan, clock: Clock, what: str, answer: May) -> str:
    at = clock.at(answer.at)
    if answer.yes:
        until = "" if answer.until is None else f", no later than {clock.at(answer.until)}"
        moves = f"; but {title_of_id(plan, answer.moves)} then loses its day" if answer.moves else ""
        return f"Yes: {what}, {at}{until}{moves}"
    again = f"; from {clock.at(answer.again)}" if answer.again is not None else ""
    return f"No: {what}, {at}{again}"


def _reason(plan: Plan, clock: Clock, reason: Reason) -> str:
    until = f", until {clock.at(reason.until)}" if reason.until is not None else ""
    where = f" ({reason.where})" if reason.where else ""
    return f"{in_words(reason.text, plan.words)}{until}{where}"
