"""What each command does."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from sequencer.cli import DONE, INTERRUPTED, NO_ORDER_FITS, UNPROVEN, WRONG, say
from sequencer.cli.arguments import parsed
from sequencer.cli.give import give
from sequencer.plan import Plan
from sequencer.terms.job import Job
from sequencer.terms.place import Faulty
from sequencer.terms.recipe import Recipe


class Refused(Exception):
    """A plan is there, but not what was asked of it."""


def _check(arguments: argparse.Namespace) -> int:
    from sequencer.files import read_job
    from sequencer.views.checked import check_as_json, checked, faults_as_text

    try:
        job = read_job(Path(arguments.job), arguments.today)
    except Faulty as faulty:
        give(check_as_json(None, faulty.faults) if arguments.json else faults_as_text(faulty.faults), arguments)
        return WRONG
    give(check_as_json(job, ()) if arguments.json else checked(job), arguments)
    return DONE


def _plan(arguments: argparse.Namespace) -> int:
    def text(plan: Plan) -> str:
        if arguments.json:
            from sequencer.views.as_json import plan_as_json

            return plan_as_json(plan)
        if arguments.plain or _is_dumb():
            from sequencer.views.plain import plain_diary

            return plain_diary(plan)
        if arguments.wide:
            from sequencer.views.wide import wide_diary

            return wide_diary(plan)
        from sequencer.views.diary import diary

        return diary(plan)

    return _with_plan(arguments, text)


def _when(arguments: argparse.Namespace) -> int:
    from sequencer.views.when import steps_named, when, when_as_json, words_known

    word = " ".join(arguments.word)

    def text(plan: Plan) -> str:
        steps = steps_named(plan, word)
        if not steps:
            raise Refused(f'nothing here is called "{word}"; write one of: {", ".join(words_known(plan))}')
        return when_as_json(plan, steps) if arguments.json else when(plan, steps)

    return _with_plan(arguments, text)


def _why(arguments: argparse.Namespace) -> int:
    from sequencer.answers.why import why
    from sequencer.files import read_job
    from sequencer.views.why import why_as_json, why_page, why_plain

    job = read_job(Path(arguments.job), arguments.today)

    def text(plan: Plan) -> str:
        answer = why(job, plan, _one_step(plan, " ".join(arguments.word)), arguments.effort, told=_tell)
        if arguments.json:
            return why_as_json(plan, answer)
        return why_plain(plan, answer) if arguments.plain or _is_dumb() else why_page(plan, answer)

    return _with_plan(arguments, text, job)


def _one_step(plan: Plan, word: str) -> str:
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


def _recipes(arguments: argparse.Namespace) -> int:
    from sequencer.files import read_recipe_library
    from sequencer.views.recipe_sheet import list_as_json, recipe_as_json, recipe_list, recipe_sheet

    folder = Path(arguments.job)
    recipes = read_recipe_library(folder if folder.is_dir() else folder.parent)
    if arguments.what == "list":
        give(list_as_json(recipes) if arguments.json else recipe_list(recipes), arguments)
        return DONE
    recipe = recipes.get(arguments.name or "")
    if recipe is None:
        said = f'there is no recipe "{arguments.name}"' if arguments.name else "show which recipe?"
        say(f"{said}; write one of: {', '.join(sorted(recipes))}")
        return WRONG
    if arguments.air or arguments.start or arguments.table or arguments.curve:
        return _recipe_in_air(recipe, arguments)
    give(recipe_as_json(recipe) if arguments.json else recipe_sheet(recipe), arguments)
    return DONE


def _recipe_in_air(recipe: Recipe, arguments: argparse.Namespace) -> int:
    from datetime import date

    from sequencer.answers.in_air import in_air
    from sequencer.files.moment import air_said, parse_moment
    from sequencer.files.wrong import Wrong
    from sequencer.views.recipe_air import recipe_in_air, recipe_in_air_as_json

    today = arguments.today or date.today()
    air = arguments.air or "18 C 60 %"
    try:
        start = parse_moment(arguments.start or "16:00", today)
        said = air_said(air, today)
    except Wrong as wrong:
        say(str(wrong))
        return WRONG
    told = air if arguments.air else f"{air} (assumed)"
    steps = in_air(recipe, said, start)
    if arguments.json:
        give(recipe_in_air_as_json(recipe, told, start, steps), arguments)
    else:
        give(recipe_in_air(recipe, told, start, steps, arguments.table, arguments.curve), arguments)
    return DONE


def _calendar(arguments: argparse.Namespace) -> int:
    def octets(plan: Plan) -> bytes:
        from sequencer.views.calendar import calendar

        return calendar(plan)

    return _with_plan(arguments, octets)


def _screen(arguments: argparse.Namespace) -> int:
    """The terminal's own program, in this process but never imported by this one."""
    if _is_dumb() or not (sys.stdin.isatty() and sys.stdout.isatty()):
        return _plan(parsed(["plan", "--plain", *_again(arguments)]))
    import runpy

    sys.argv = ["sequencer", *_again(arguments)]
    try:
        runpy.run_module("tui", run_name="__main__", alter_sys=True)
    except SystemExit as left:
        return left.code if isinstance(left.code, int) else DONE
    return DONE


def _again(arguments: argparse.Namespace) -> list[str]:
    return [arguments.job, *(["--today", arguments.today.isoformat()] if arguments.today else [])]


COMMANDS: dict[str, Callable[[argparse.Namespace], int]] = {
    "check": _check,
    "plan": _plan,
    "when": _when,
    "why": _why,
    "recipes": _recipes,
    "calendar": _calendar,
    "screen": _screen,
}


def _no_order_fits(sentences: Sequence[str], arguments: argparse.Namespace) -> int:
    from sequencer.views.as_json import document

    if getattr(arguments, "json", False):
        give(document("no order fits", sentences=list(sentences)), arguments)
    for sentence in sentences:
        say(sentence)
    return NO_ORDER_FITS


def _with_plan(
    arguments: argparse.Namespace, view: Callable[[Plan], str | bytes], job: Job | None = None
) -> int:
    """Plans (a job already read, if there is one), gives what a view makes of the plan, says how sure the plan is."""
    from sequencer.planning import NoOrderFits, plan_for, plan_of

    def planned(effort: float) -> Plan:
        return plan_of(job, effort, _tell) if job else plan_for(Path(arguments.job), arguments.today, effort, _tell)

    code = DONE
    try:
        plan = planned(arguments.effort)
    except KeyboardInterrupt:
        say("interrupted; this is the first plan that fits")
        plan, code = planned(0.0), INTERRUPTED
    except NoOrderFits as none:
        return _no_order_fits(none.sentences, arguments)
    if plan.interrupted:
        say("interrupted; this is the best plan so far")
        code = INTERRUPTED
    try:
        give(view(plan), arguments)
    except Refused as refused:
        say(str(refused))
        return WRONG
    if not plan.proven and code == DONE:
        say("stopped before proof: a shorter plan is not ruled out")
        code = UNPROVEN
    return code


def _is_dumb() -> bool:
    return os.environ.get("TERM") == "dumb"


def _tell(text: str) -> None:
    if sys.stderr.isatty():
        say(text)
