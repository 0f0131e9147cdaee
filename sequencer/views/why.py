"""Why not sooner, as a page: the chain from hand-over back to today, what each link is, and what it would save."""

from __future__ import annotations

from dataclasses import asdict

from sequencer.answers.chain import Link
from sequencer.answers.why import WhyNot
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan
from sequencer.terms.minute import Minute
from sequencer.terms.words import REASONS, in_words
from sequencer.views.as_json import document
from sequencer.views.clock import Clock
from sequencer.views.lines import wrapped
from sequencer.views.why_words import amount, explained, half_day, held_by, is_a_night, name_of, saved_words, starting

WIDTH = 80
WHEN, KIND, SAVED = 17, 10, 10
"""Characters of the columns beside the words."""


def why_page(plan: Plan, answer: WhyNot, width: int = WIDTH) -> str:
    """The chain as a table of `width` characters, the largest saving explained under it."""
    clock, words = Clock(plan.zone), width - WHEN - KIND - SAVED - 5
    lines = [*wrapped(_asked(plan, answer), width), "-" * width]
    lines.append(_row("when", " ", "what had to wait", "kind", "saved", words))
    lines.append(_row(clock.at_brief(_moment(plan, answer)), "o", _end(plan, answer), "", "", words))
    for link in answer.links:
        if not is_a_night(link):
            first, *rest = wrapped(held_by(plan, link), words)
            lines.append(_row(clock.at_brief(link.since), "|", first, link.kind, saved_words(answer, link), words))
            lines += [_row("", "|", text, "", "", words) for text in rest]
    lines += [_row("", "V", starting(plan), "", "", words), "-" * width]
    for text in explained(plan, answer):
        lines += wrapped(text, width, " ", "   ")
    return "\n".join(lines) + "\n"


def why_plain(plan: Plan, answer: WhyNot, width: int = WIDTH) -> str:
    """The chain in sentences, one a link, for ears and pipes."""
    clock = Clock(plan.zone)
    lines = wrapped(_asked(plan, answer), width)
    for link in answer.links:
        if is_a_night(link):
            continue
        held = f"{clock.at(link.since)} to {clock.at(link.until)}, {REASONS[link.kind]}: {held_by(plan, link)}"
        where = f" ({link.where})" if link.where else ""
        lines += wrapped(f"{held}{where}. {_without(plan, answer, link)}".rstrip(), width, "", "  ")
    lines += wrapped(f"{starting(plan)[:1].upper()}{starting(plan)[1:]}.", width)
    for text in explained(plan, answer):
        lines += wrapped(text, width, "", "  ")
    return "\n".join(lines) + "\n"


def why_as_json(plan: Plan, answer: WhyNot) -> str:
    """The whole chain as JSON, nights included; `saved_minutes` null where nothing was taken away."""
    clock = Clock(plan.zone)
    return document(
        "why",
        job=plan.job,
        zone=plan.zone,
        as_of=clock.iso(plan.as_of),
        of=answer.of,
        at=clock.iso(_moment(plan, answer)),
        finish=clock.iso(plan.finish),
        links=[_link(plan, answer, link) for link in answer.links],
        untried=answer.untried,
    )


def _link(plan: Plan, answer: WhyNot, link: Link) -> dict[str, object]:
    clock, saving = Clock(plan.zone), answer.saving(link)
    return {
        "step": link.step,
        "by": link.by,
        "kind": link.kind,
        "text": in_words(link.text, plan.words),
        "from": clock.iso(link.since),
        "until": clock.iso(link.until),
        "where": None if link.where is None else str(link.where),
        "cause": None if link.cause is None else asdict(link.cause),
        "saved_minutes": None if saving is None else saving.minutes,
        "saved_half_days": None if saving is None else saving.half_days,
        "finish": None if saving is None else clock.iso(saving.finish),
        "sure": None if saving is None else saving.sure,
    }


def _row(when: str, mark: str, what: str, kind: str, saved: str, words: int) -> str:
    return f" {when:{WHEN}}{mark} {what:{words}} {kind:{KIND}} {saved:>{SAVED}}".rstrip()


def _asked(plan: Plan, answer: WhyNot) -> str:
    moment = Clock(plan.zone).at(_moment(plan, answer))
    what = "" if answer.of == HAND_OVER else f" {_end(plan, answer)}"
    return f"{plan.title}. Why{what} not sooner than {moment}?"


def _end(plan: Plan, answer: WhyNot) -> str:
    return "hand over" if answer.of == HAND_OVER else name_of(plan, answer.of)


def _moment(plan: Plan, answer: WhyNot) -> Minute:
    return plan.finish if answer.of == HAND_OVER else plan.step(answer.of).start


def _without(plan: Plan, answer: WhyNot, link: Link) -> str:
    saving = answer.saving(link)
    if saving is None:
        return ""
    if not saving.minutes:
        return "Without it alone hand-over stays." if saving.sure else "What it would save is not known."
    then = half_day(Clock(plan.zone), saving.finish)
    return f"Without it alone hand-over is {amount(saving)} earlier, {then}."
