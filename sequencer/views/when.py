"""When can a layer go in: for each step that a word names, its start, what it is then ready for, and why not sooner."""

from __future__ import annotations

import re

from sequencer.plan import Plan, PlannedStep
from sequencer.terms.minute import Minute
from sequencer.terms.words import REASONS, in_words
from sequencer.views.as_json import document, step_as_json
from sequencer.views.clock import Clock
from sequencer.views.lines import wrapped
from sequencer.views.sentences import otherwise_words, ready_words, slip_words, under_way_words, why_not_sooner
from sequencer.views.titles import HAND_OVER_TITLE, title_of

WIDTH = 80

NAMED = 6
"""Further steps that hold a word are named up to so many."""


def steps_named(plan: Plan, word: str | None) -> list[PlannedStep]:
    """The steps a word names, by start: those whose id, title or surfaces hold all of its parts; all without a word."""
    parts = (word or "").casefold().split()
    named = [step for step in plan.steps if all(part in _searched(plan, step) for part in parts)]
    return sorted(named, key=lambda step: (step.start, step.id))


def when(plan: Plan, steps: list[PlannedStep], width: int = WIDTH) -> str:
    """The answer as text, a paragraph a step; asked for all of them, hand-over comes last."""
    limits = _limits(plan)
    told = [_paragraph(plan, step, limits.get(step.id, []), width) for step in steps]
    return "\n".join([*told, *([_hand_over(plan, width)] if len(steps) == len(plan.steps) else [])])


def also(word: str, others: list[PlannedStep], width: int = WIDTH) -> str:
    """The names of further steps that hold a word, after those it means; nothing where there are none."""
    if not others:
        return ""
    named = [step.id for step in others[:NAMED]]
    more = f" and {len(others) - NAMED} more" if len(others) > NAMED else ""
    lines = wrapped(f'"{word}" stands also in: {", ".join(named)}{more}', width, "", "  ")
    return "\n" + "\n".join(lines) + "\n"


def when_as_json(plan: Plan, steps: list[PlannedStep]) -> str:
    """The answer as JSON: the same steps as the plan's contract has them."""
    clock = Clock(plan.zone)
    told = [step_as_json(step, clock.iso) for step in steps]
    return document("when", job=plan.job, zone=plan.zone, as_of=clock.iso(plan.as_of), steps=told)


def _searched(plan: Plan, step: PlannedStep) -> str:
    said = " ".join((step.id, title_of(plan, step), in_words(step.id, plan.words), *step.surfaces)).casefold()
    return f"{said} {re.sub('[-/]', ' ', said)}"


def _limits(plan: Plan) -> dict[str, list[tuple[Minute, PlannedStep]]]:
    """The latest starts that layers allow the steps behind them, by those, each with the layer's step."""
    found: dict[str, list[tuple[Minute, PlannedStep]]] = {}
    for before in plan.steps:
        for ready in before.ready:
            if ready.latest is not None:
                for listener in dict.fromkeys(ready.listeners):
                    found.setdefault(listener, []).append((ready.latest, before))
    return found


def _paragraph(plan: Plan, step: PlannedStep, limits: list[tuple[Minute, PlannedStep]], width: int) -> str:
    clock = Clock(plan.zone)
    lines = wrapped(f"{title_of(plan, step)} [{step.id}]", width)
    told = [f"goes in: {clock.span(step.start, step.end)}, {step.trade}"]
    told += [f"no later than: {clock.at(latest)}, because of {title_of(plan, before)}" for latest, before in limits]
    told += [ready_words(plan, clock, ready) for ready in step.ready]
    running = (one for one in plan.under_way if one.step == step.id)
    told += [f"under way: {under_way_words(plan, clock, one)}" for one in running]
    told += [f"air: {in_words(text, plan.words)}" for text in step.warnings]
    told += otherwise_words(plan, step)
    kind = REASONS.get(step.waited_for.kind, step.waited_for.kind) if step.waited_for else ""
    told += [f"why not sooner, {kind}: {why}" for why in [why_not_sooner(plan, step.waited_for)] if why]
    told += [said for said in [slip_words(step)] if said]
    told += [f"take care: {text}" for text in step.cautions]
    for text in told:
        lines += wrapped(text, width, "  ", "    ")
    return "\n".join(lines) + "\n"


def _hand_over(plan: Plan, width: int) -> str:
    lines = wrapped(f"{HAND_OVER_TITLE}: {Clock(plan.zone).at(plan.finish)}", width)
    why = why_not_sooner(plan, plan.finish_waited_for)
    return "\n".join([*lines, *(wrapped(f"why not sooner: {why}", width, "  ", "    ") if why else [])]) + "\n"
