"""What a check of the files found."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.terms.job import Job
from sequencer.terms.place import Fault
from sequencer.views.as_json import document, fault_as_json


def checked(job: Job) -> str:
    """What the files of a job without faults hold, in one sentence and the assumptions."""
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
    return "\n".join(lines) + "\n"


def faults_as_text(faults: Sequence[Fault]) -> str:
    """Every fault on a line of its own, with its place in front."""
    return "".join(f"{fault}\n" for fault in faults)


def check_as_json(job: Job | None, faults: Sequence[Fault]) -> str:
    """The result of a check as JSON; `job` None if it could not be read."""
    return document("check", job=job.name if job else None, faults=[fault_as_json(fault) for fault in faults])


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
