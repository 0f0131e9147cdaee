"""What a change in one job does to the jobs beside it: their hand-overs, and the visits of the people they share."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.plan import Beside, Elsewhere, Plan
from sequencer.terms.minute import Minute


@dataclass(frozen=True)
class StepMoved:
    """A step of somebody shared, at another job: its start before and now."""

    trade: str
    step: str
    was: Minute
    starts: Minute


@dataclass(frozen=True)
class OtherJob:
    """Another job before and now, and what of the people it shares moves there, by its new start."""

    was: Beside
    now: Beside
    moved: tuple[StepMoved, ...]

    @property
    def changed(self) -> bool:
        """True if its hand-over or anybody's step there moves."""
        return bool(self.moved) or self.was.finish != self.now.finish


def others_moved(before: Plan, after: Plan) -> tuple[OtherJob, ...]:
    """Every other job of two plans of the same job, made beside the same others."""
    were = {one.job: one for one in before.beside}
    return tuple(
        OtherJob(were[now.job], now, _moved(before, after, now)) for now in after.beside if now.job in were
    )


def _moved(before: Plan, after: Plan, job: Beside) -> tuple[StepMoved, ...]:
    were = {_key(one): one.start for one in before.elsewhere if one.job == job.title}
    here = [one for one in after.elsewhere if one.job == job.title and _key(one) in were]
    return tuple(
        StepMoved(one.trade, one.step, were[_key(one)], one.start) for one in here if were[_key(one)] != one.start
    )


def _key(one: Elsewhere) -> tuple[str, str]:
    return one.trade, one.id
