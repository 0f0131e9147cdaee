"""What a job must mean."""

from __future__ import annotations

from sequencer.files.job_model import JobModel
from sequencer.files.library import Library
from sequencer.files.uses import Use
from sequencer.terms.job import Job
from sequencer.terms.place import Fault, Place


def job_faults(job: Job, uses: list[Use], library: Library, model: JobModel, place: Place) -> list[Fault]:
    """Everything in the job that cannot be."""
    return []
