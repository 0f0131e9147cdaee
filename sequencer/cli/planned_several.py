"""What commands share that print something of the plans of several jobs."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

from sequencer.cli import DONE, INTERRUPTED, UNDECIDED, UNPROVEN, WRONG, say
from sequencer.cli.give import give
from sequencer.cli.planned import no_order_fits, tell

TYPE_CHECKING = False
if TYPE_CHECKING:
    from sequencer.answers.choice import Choice
    from sequencer.plan import Plans

View = Callable[["Plans", "Choice | None"], "str | bytes"]


def holds_jobs(arguments: argparse.Namespace) -> bool:
    """True if what was named is a folder of jobs that share people."""
    from sequencer.files import job_folders

    return bool(job_folders(Path(arguments.job)))


def with_plans(arguments: argparse.Namespace, view: View, first: str | None = None, choose: bool = True) -> int:
    """Plans the jobs of a folder together, gives what a view makes of that, says how sure the plans are.

    Where people are short, the choice is worked out; where a promise hangs on it and nobody has chosen, somebody must.
    """
    from sequencer.answers.choice import choice
    from sequencer.files import read_jobs
    from sequencer.planning import NoOrderFits, plans_of

    jobs = read_jobs(Path(arguments.job), arguments.today)
    if first is not None and first not in {job.name for job in jobs}:
        say(f'there is no job "{first}" here; write one of: {", ".join(job.name for job in jobs)}')
        return WRONG
    code = DONE
    try:
        plans = plans_of(jobs, arguments.effort, tell, first)
        short = choice(jobs, plans, arguments.effort, tell) if choose and not plans.interrupted else None
    except KeyboardInterrupt:
        say("interrupted; these are the first plans that fit")
        plans, short, code = plans_of(jobs, 0.0, tell, first), None, INTERRUPTED
    except NoOrderFits as none:
        return no_order_fits(none.sentences, arguments)
    if plans.interrupted:
        say("interrupted; these are the best plans so far")
        code = INTERRUPTED
    give(view(plans, short), arguments)
    if code == DONE and short is not None and short.must_decide and first is None:
        say("people are short: which promise is kept is yours to choose, with --first")
        return UNDECIDED
    if not plans.proven and code == DONE:
        say("stopped before proof: better plans are not ruled out")
        code = UNPROVEN
    return code
