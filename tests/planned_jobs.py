"""Whole plans of tiny jobs, for what looks at a finished plan and at the job it was made of."""

from __future__ import annotations

from dataclasses import replace

from tiny_jobs import HERE, moment

from sequencer.plan import Plan
from sequencer.planning import plan_of
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, Span
from sequencer.terms.recipe import Recipe


def whole(of: Job) -> Job:
    """A tiny job with a recipe for each of its uses."""
    names = dict.fromkeys(step.recipe for step in of.steps)
    return replace(of, recipes={name: Recipe(name, name, HERE, ()) for name in names})


def planned(of: Job) -> tuple[Job, Plan]:
    """The job, and its plan."""
    job = whole(of)
    return job, plan_of(job, 0.2)


def day(words: str) -> Span:
    """From midnight to midnight of `Mon`, `Tue2`."""
    return moment(f"{words} 0"), moment(f"{words} 0") + DAY
