"""`new`: a job from a few answers, that plans at once; then what costs most days in it."""

from __future__ import annotations

import argparse
import sys
from functools import partial
from pathlib import Path

from sequencer.cli import DONE, UNPROVEN, WRONG, say
from sequencer.cli.arguments import DEMOS, SWITCHES
from sequencer.cli.ask import ask, somebody_there
from sequencer.cli.new_wishes import NoAnswer, wishes_of
from sequencer.cli.planned import no_order_fits, tell

TYPE_CHECKING = False
if TYPE_CHECKING:
    from sequencer.answers.new_job.switches import Saving
    from sequencer.answers.new_job.wishes import Wishes
    from sequencer.plan import Plan


SAVINGS_EFFORT = 0.25
"""How hard each change is planned, against a plan itself: its hand-over alone counts."""


class _Draft:
    """The job as far as it is answered, in the folder it will stand in."""

    def __init__(self, arguments: argparse.Namespace, folder: Path) -> None:
        from sequencer.files import read_recipe_library
        from sequencer.files.written import people_at_hand

        self.arguments, self.folder = arguments, folder
        self.library = read_recipe_library(folder)
        self.at_hand = people_at_hand(folder)

    def wishes(self) -> Wishes:
        """What flags and answers say. NoAnswer where a flag cannot be read."""
        from datetime import date

        from tzlocal import get_localzone_name

        from sequencer.answers.new_job.questions import questions
        from sequencer.answers.new_job.switches import switches
        from sequencer.answers.new_job.text import trades_needed

        given = self.arguments
        known = questions(self.folder.resolve().name, given.today or date.today(), get_localzone_name() or "UTC")
        wishes = wishes_of(given, known, somebody_there() and not given.yes, self.faults)
        needed = trades_needed(wishes, self.library)
        if unknown := [name for name in wishes.people if name not in needed]:
            raise NoAnswer(f'--person "{unknown[0]}" does no step of this job; write one of: {", ".join(needed)}')
        for flag in [name for name in SWITCHES if getattr(given, name.replace("-", "_"))]:
            wishes = next((one.wishes for one in switches(wishes, self.library) if one.name == flag), wishes)
        return wishes

    def text(self, wishes: Wishes) -> str:
        from sequencer.answers.new_job.text import job_text

        return job_text(wishes, self.library, self.at_hand)

    def faults(self, wishes: Wishes) -> list[str]:
        """What is wrong with the job these wishes make, without the places of a file nobody has seen yet."""
        from sequencer.files.job import read_job
        from sequencer.terms.place import Faulty

        try:
            read_job(self.folder, self.arguments.today, self.text(wishes))
        except Faulty as faulty:
            return [f"{fault.what}; {fault.write}" for fault in faulty.faults]
        return []

    def plan(self, wishes: Wishes, effort: float = 1.0) -> Plan:
        """A plan of the job these wishes make. NoOrderFits."""
        from sequencer.files.job import read_job
        from sequencer.planning import plan_of

        job = read_job(self.folder, self.arguments.today, self.text(wishes))
        return plan_of(job, effort * self.arguments.effort)


def run(arguments: argparse.Namespace) -> int:
    """Writes job.yaml into a folder that has none."""
    if arguments.demo:
        return _demo(Path(arguments.demo), DEMOS[arguments.which])
    folder = Path(arguments.folder)
    target = folder / "job.yaml"
    if target.exists():
        say(f"{target} is there already; change it there, or name another folder")
        return WRONG
    draft = _Draft(arguments, folder)
    try:
        wishes = draft.wishes()
    except NoAnswer as none:
        say(str(none))
        return WRONG
    if faults := draft.faults(wishes):
        for fault in faults:
            say(fault)
        return WRONG
    if arguments.dry_run:
        sys.stdout.write(draft.text(wishes))
        return DONE
    from sequencer.desk.write import write_new

    write_new(target, draft.text(wishes).encode())
    say(f"{target} written")
    return _planned(draft, wishes, target)


def _planned(draft: _Draft, wishes: Wishes, target: Path) -> int:
    """Plans, shows what costs most days, and changes what is chosen, as long as something is."""
    from sequencer.answers.new_job.switches import savings
    from sequencer.desk.write import write_whole
    from sequencer.planning import NoOrderFits
    from sequencer.views.new_job import new_job

    while True:
        try:
            plan = draft.plan(wishes)
        except NoOrderFits as none:
            return no_order_fits(none.sentences, draft.arguments)
        tell("looking for what costs most days")
        found = savings(wishes, plan, draft.library, partial(draft.plan, effort=SAVINGS_EFFORT))
        sys.stdout.write(new_job(plan, found))
        chosen = _chosen(found, draft.arguments.yes)
        if chosen is None:
            return DONE if plan.proven else UNPROVEN
        wishes = chosen.switch.wishes
        write_whole(target, draft.text(wishes).encode())
        say(f"{target} written with {chosen.switch.words}")


def _chosen(found: tuple[Saving, ...], settled: bool) -> Saving | None:
    if not found or settled or not somebody_there():
        return None
    numbers = {str(number): saving for number, saving in enumerate(found, 1)}
    wrong = f"write one of {', '.join(numbers)}, or nothing"
    said = ask("Change one", "none", "it stays as it is", lambda s: [] if s in (*numbers, "none") else [wrong])
    return numbers.get(said)


def _demo(folder: Path, name: str) -> int:
    """Writes the files of a demo into a folder that has none of them."""
    from sequencer.desk.write import write_new
    from sequencer.files import demo_folder

    files = sorted(demo_folder(name).iterdir())
    if taken := [file.name for file in files if (folder / file.name).exists()]:
        say(f"{folder / taken[0]} is there already; name another folder")
        return WRONG
    for file in files:
        write_new(folder / file.name, file.read_bytes())
    say(f"{folder} holds the demo; sequencer plan {folder}")
    return DONE
