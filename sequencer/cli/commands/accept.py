"""`accept`: the plan becomes the one people were told; of one job, or of the jobs of a folder together."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from sequencer.cli import DONE, INTERRUPTED, UNDECIDED, UNPROVEN, WRONG, say
from sequencer.cli.ask import ask, somebody_there
from sequencer.cli.give import give
from sequencer.cli.planned import no_order_fits, tell
from sequencer.cli.planned_several import holds_jobs
from sequencer.plan import Plan
from sequencer.terms.job import Job

TYPE_CHECKING = False
if TYPE_CHECKING:
    from sequencer.files.told import Kept

MEANWHILE = "another plan was accepted meanwhile; nothing is written, accept again"


@dataclass(frozen=True)
class _One:
    """A job to accept the plan of, the folder it is kept in, and what people were told of it."""

    job: Job
    folder: Path
    kept: Kept | None

    @property
    def overtaken(self) -> bool:
        """True if another plan was accepted since the job was read."""
        return (self.kept.told.number if self.kept else 0) != (self.job.told.number if self.job.told else 0)


def run(arguments: argparse.Namespace) -> int:
    from sequencer.planning import NoOrderFits

    several = holds_jobs(arguments)
    if several and arguments.new_recipes:
        say("--new-recipes is about what people were told of one job; name its folder")
        return WRONG
    ones = _jobs(arguments) if several else [_job(arguments)]
    if any(one.overtaken for one in ones):
        say(MEANWHILE)
        return WRONG
    try:
        plans = _plans(arguments, ones, several)
    except NoOrderFits as none:
        return no_order_fits(none.sentences, arguments)
    if any(plan.interrupted for plan in plans):
        say("interrupted; nothing is accepted")
        return INTERRUPTED
    give(_said_of_all(arguments, plans) if several else _said_of_one(arguments, ones[0].job, plans[0]), arguments)
    return _accepted(arguments, ones, plans)


def _job(arguments: argparse.Namespace) -> _One:
    from sequencer.files import read_job
    from sequencer.files.told import read_told
    from sequencer.files.written import folder_of

    path = Path(arguments.job)
    job = read_job(path, arguments.today, new_recipes=arguments.new_recipes)
    return _One(job, folder_of(path), read_told(folder_of(path), job.name))


def _jobs(arguments: argparse.Namespace) -> list[_One]:
    from sequencer.files import job_folders, read_jobs
    from sequencer.files.told import read_told

    folder = Path(arguments.job)
    jobs = zip(read_jobs(folder, arguments.today), job_folders(folder), strict=True)
    return [_One(job, home, read_told(home, job.name)) for job, home in jobs]


def _plans(arguments: argparse.Namespace, ones: list[_One], several: bool) -> list[Plan]:
    from sequencer.planning import plan_of, plans_of

    if not several:
        return [plan_of(ones[0].job, arguments.effort, tell)]
    plans = plans_of([one.job for one in ones], arguments.effort, tell)
    return [plans.of(one.job.name) for one in ones]


def _said_of_one(arguments: argparse.Namespace, job: Job, plan: Plan) -> str:
    """What is told, and what it does to the jobs beside it."""
    from sequencer.answers.beside import others_told
    from sequencer.views.against_told import accepted_as_json, said_of
    from sequencer.views.beside import others_words

    others = others_told(job, plan)
    if arguments.json:
        return accepted_as_json(plan, others)
    told = {other.now.job for other in others}
    untold = (f"{one.title}: nobody was told a plan of it" for one in plan.beside if one.job not in told)
    return _lines((*said_of(plan), *others_words(others), *untold))


def _said_of_all(arguments: argparse.Namespace, plans: list[Plan]) -> str:
    from sequencer.views.against_told import all_accepted_as_json, said_of

    if arguments.json:
        return all_accepted_as_json(plans)
    return _lines(f"{plan.title}: {text}" for plan in plans for text in said_of(plan))


def _lines(texts: Iterable[str]) -> str:
    return "".join(f"{text}\n" for text in texts)


def _accepted(arguments: argparse.Namespace, ones: list[_One], plans: list[Plan]) -> int:
    """Accepts the plans, one after the other, where nobody was told otherwise or somebody says so."""
    from sequencer.views.against_told import moves_told

    named = len(ones) > 1
    if arguments.dry_run:
        say(f"would make {'these the plans' if named else 'this the plan'} people were told")
        return _proven(plans)
    if any(moves_told(plan) for plan in plans) and not arguments.yes and not agreed():
        say("nothing is accepted; people were told otherwise: look at plan, then accept --yes")
        return UNDECIDED
    from sequencer.desk.accepted import ToldMeanwhile, accept
    from sequencer.files.told import texts_of

    code = _proven(plans)
    for one, plan in zip(ones, plans, strict=True):
        title = f"{plan.title}: " if named else ""
        try:
            texts = texts_of(one.folder, one.job, None if arguments.new_recipes else one.kept)
            fresh = accept(one.folder, plan, one.kept, texts)
        except ToldMeanwhile:
            say(f"{title}{MEANWHILE}")
            code = WRONG
            continue
        say(f"{title}{'this is the plan people were told' if fresh else 'people were told just this already'}")
    return code


def agreed() -> bool:
    """What a person at the terminal says; nobody is taken to have said yes."""
    return somebody_there() and ask("tell people this instead", "no", "they were told otherwise", _yes_or_no) == "yes"


def _yes_or_no(answer: str) -> list[str]:
    return [] if answer in ("yes", "no") else ["write yes or no"]


def _proven(plans: list[Plan]) -> int:
    if all(plan.proven for plan in plans):
        return DONE
    say("stopped before proof: a shorter plan is not ruled out")
    return UNPROVEN
