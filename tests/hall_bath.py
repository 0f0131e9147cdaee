"""A hall bath of the usual size, played forward as its recipes stand: how many working days it takes one man or two."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from random import Random

from sequencer.files import read_job
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.model import HAND_OVER
from sequencer.planning import airs
from sequencer.solve import first_answer
from sequencer.terms.job import Job, Step
from sequencer.terms.wait import Wait
from sequencer.terms.words import OWN_TRADE

FOLDER = Path(__file__).parent / "data" / "hall-bath"
LONGEST_DAY = 450
"""What is done in one go stays within a day [min]."""


@cache
def hall_bath() -> Job:
    return read_job(FOLDER, date(2027, 3, 29))


def own_hours() -> float:
    return sum(step.minutes for step in hall_bath().steps if step.trade == OWN_TRADE) / 60


def all_hours() -> float:
    return sum(step.minutes for step in hall_bath().steps) / 60


@cache
def working_days(people: int, seed: int | None = None) -> int:
    """Working days of a plain forward pass, nothing searched: at the middle figures, or drawn within their ranges.

    Two people halve the hours of their own steps; everybody else comes when called.
    """
    job = hall_bath()
    draw = Random(seed) if seed is not None else None
    played = replace(job, steps=tuple(_drawn(step, people, draw) for step in job.steps))
    finish = first_answer(build(Case(played, airs(played)))).starts[HAND_OVER]
    return sum(1 for start, end in job.working_days if start < finish and end > job.start)


def share(people: int, part: float, draws: int) -> int:
    """The working days that this part of the draws keeps to."""
    return sorted(working_days(people, seed) for seed in range(draws))[int(part * draws)]


def _drawn(step: Step, people: int, draw: Random | None) -> Step:
    minutes = step.minutes * (draw.triangular(step.hours.low, step.hours.high, 1) if draw else 1)
    minutes /= people if step.trade == OWN_TRADE else 1
    if step.one_go:
        minutes = min(minutes, LONGEST_DAY)
    return replace(step, minutes=max(1, round(minutes)), waits=tuple(_wait(wait, draw) for wait in step.waits))


def _wait(wait: Wait, draw: Random | None) -> Wait:
    """A wait drawn within its range; a window moves out where the layer would else be ready too late for it."""
    hours = wait.hours * (draw.triangular(wait.low, wait.high, 1) if draw and wait.low < wait.high else 1)
    within = wait.within_minutes
    if within is not None and not wait.within_of_ready:
        within = max(within, round(60 * hours) + 15)
    return replace(wait, hours=hours, within_minutes=within)
