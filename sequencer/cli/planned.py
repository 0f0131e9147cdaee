"""What commands share that print something of a plan."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from textwrap import wrap
from time import monotonic

from sequencer.cli import DONE, INTERRUPTED, NO_ORDER_FITS, UNPROVEN, WRONG, say
from sequencer.cli.give import give
from sequencer.plan import Plan
from sequencer.terms.job import Job

WIDTH = 80

BEGAN, QUIET = monotonic(), 1.0
"""When the command began, and how long it goes on before it tells of its progress [s]."""


class Refused(Exception):
    """A plan is there, but not what was asked of it."""


def with_plan(arguments: argparse.Namespace, view: Callable[[Plan], str | bytes], job: Job | None = None) -> int:
    """Plans (a job already read, if there is one), gives what a view makes of the plan, says how sure the plan is."""
    from sequencer.planning import NoOrderFits, plan_for, plan_of

    def planned(effort: float) -> Plan:
        return plan_of(job, effort, tell) if job else plan_for(Path(arguments.job), arguments.today, effort, tell)

    code = DONE
    try:
        plan = planned(arguments.effort)
    except KeyboardInterrupt:
        say("interrupted; this is the first plan that fits")
        plan, code = planned(0.0), INTERRUPTED
    except NoOrderFits as none:
        return no_order_fits(none.sentences, arguments)
    if plan.interrupted:
        say("interrupted; this is the best plan so far")
        code = INTERRUPTED
    try:
        give(view(plan), arguments)
    except Refused as refused:
        return refuse(refused)
    if not plan.proven and code == DONE:
        say("stopped before proof: a shorter plan is not ruled out")
        code = UNPROVEN
    return code


def no_order_fits(sentences: Sequence[str], arguments: argparse.Namespace) -> int:
    """Tells why no order of work fits; gives the exit code."""
    from sequencer.views.as_json import document

    if getattr(arguments, "json", False):
        give(document("no order fits", sentences=list(sentences)), arguments)
    for sentence in sentences:
        say(sentence)
    return NO_ORDER_FITS


def refuse(refused: Refused) -> int:
    """Tells why something is refused, within the width of a screen; gives the exit code."""
    text = f"sequencer: {refused}"
    lines = wrap(text, WIDTH, subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)
    say("\n".join(lines).removeprefix("sequencer: "))
    return WRONG


def is_dumb() -> bool:
    """True for a terminal that cannot draw."""
    return os.environ.get("TERM") == "dumb"


def tell(text: str) -> None:
    """Progress, on stderr where somebody looks on and has waited a while."""
    if sys.stderr.isatty() and monotonic() - BEGAN >= QUIET:
        say(text)
