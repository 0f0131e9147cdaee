"""What a check of the files found."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.terms.job import Job
from sequencer.terms.place import Fault
from sequencer.terms.recipe import Recipe
from sequencer.views.as_json import document, fault_as_json

MORE = "More may show once these are mended.\n"
"""What is said under faults beside which others could not be looked for."""


def checked(job: Job, remarks: Sequence[Fault] = ()) -> str:
    """What the files of a job without faults hold, in one sentence, the assumptions, and remarks on its recipes."""
    counted = ", ".join(
        _count(number, word)
        for number, word in (
            (len(job.rooms), "room"),
            (len({step.recipe for step in job.steps}), "recipe"),
            (len(job.steps), "step"),
            (len({step.trade for step in job.steps}), "trade"),
            (len(job.orders), "order"),
            (len(job.bookings), "booking"),
        )
    )
    lines = [f"{job.title}: no faults. {counted}.", *(f"assumed: {text}" for text in job.assumed)]
    lines += [f"could be better: {remark}" for remark in remarks]
    return "\n".join(lines) + "\n"


def recipes_checked(recipes: Sequence[Recipe], found: Sequence[Fault]) -> str:
    """What could be better in recipes, a line each; else that there is nothing."""
    return faults_as_text(found) or f"{_count(len(recipes), 'recipe')}: nothing to better.\n"


def faults_as_text(faults: Sequence[Fault], more: bool = False) -> str:
    """Every fault on a line of its own, with its place in front. `more`: some could not be looked for beside these."""
    return "".join(f"{fault}\n" for fault in faults) + (MORE if more else "")


def check_as_json(job: Job | None, faults: Sequence[Fault], remarks: Sequence[Fault] = ()) -> str:
    """The result of a check as JSON; `job` None if it could not be read, or if recipes alone were checked."""
    name = job.name if job else None
    told = [[fault_as_json(fault) for fault in some] for some in (faults, remarks)]
    return document("check", job=name, faults=told[0], remarks=told[1])


def checks_as_json(found: Sequence[tuple[Job, Sequence[Fault]]]) -> str:
    """The same for the jobs of a folder, none with a fault; each with the remarks on its recipes."""
    jobs = [{"job": job.name, "remarks": [fault_as_json(remark) for remark in remarks]} for job, remarks in found]
    return document("checks", jobs=jobs, faults=[])


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
