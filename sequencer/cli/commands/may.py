"""`may`: may this be done now. It answers and ends with 0, whichever the answer is; `--json` says it in a word."""

from __future__ import annotations

import argparse
from datetime import date, datetime

from sequencer.cli.named import unknown
from sequencer.cli.near import called
from sequencer.cli.on_site import with_day
from sequencer.cli.planned import Refused
from sequencer.plan import Plan, PlannedStep
from sequencer.terms.job import Job
from sequencer.terms.minute import HOUR, Minute

TYPE_CHECKING = False
if TYPE_CHECKING:
    from sequencer.views.on_site.days import Day

FROZEN = 8 * HOUR
"""The hour of a day that was named without one [min after midnight]."""


def run(arguments: argparse.Namespace) -> int:
    from sequencer.answers.on_site.may import may_start, may_use
    from sequencer.answers.on_site.site import on_site
    from sequencer.terms.verbs import SMALL_WORDS, VERBS
    from sequencer.terms.words import SURFACES
    from sequencer.views.on_site.days import Day
    from sequencer.views.on_site.may import may, may_as_json
    from sequencer.views.titles import title_of

    words = [word for word in arguments.word if word.casefold() not in SMALL_WORDS]
    what = " ".join(words).casefold()

    def text(job: Job, plan: Plan, on: date) -> str:
        day = Day(plan, on)
        at = _moment(arguments, day)
        verb, _, surface = what.partition(" ")
        if verb in VERBS and (surface in SURFACES or not surface):
            answer = may_use(plan, VERBS[verb], (surface,) if surface else SURFACES, at)
            return may_as_json(plan, what, None, answer) if arguments.json else may(plan, what, answer)
        step = _meant(plan, what)
        answer = may_start(on_site(job, plan), plan, step.id, at, (day.start, day.end))
        return may_as_json(plan, what, step.id, answer) if arguments.json else may(plan, title_of(plan, step), answer)

    return with_day(arguments, text)


def _moment(arguments: argparse.Namespace, day: Day) -> Minute:
    """The hour asked about, else now; on a day that was named, 08:00."""
    from sequencer.files.clock import parse_hour
    from sequencer.files.wrong import Wrong

    if arguments.at is not None:
        try:
            return day.start + parse_hour(arguments.at)
        except Wrong as wrong:
            raise Refused(str(wrong)) from None
    if arguments.today is not None:
        return day.start + FROZEN
    now = datetime.now(day.clock.zone)
    return day.start + HOUR * now.hour + now.minute


def _meant(plan: Plan, what: str) -> PlannedStep:
    """The step that words name; of several, the next that is not done. Refused if there is none."""
    from sequencer.views.when import steps_named

    exact = called((step.id for step in plan.steps), what)
    steps = [step for step in plan.steps if step.id in exact] or steps_named(plan, what)
    if not steps:
        raise Refused(unknown(plan, what))
    return next((step for step in steps if step.state not in ("done", "under way")), steps[-1])
