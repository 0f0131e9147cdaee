"""People at other jobs, in a settled plan: the starts they leave a job, for whoever asks what held it up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.plan import Elsewhere
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job, Step, Trade
from sequencer.terms.minute import Span


def rules(job: Job, elsewhere: Sequence[Elsewhere]) -> Iterator[Rule]:
    """Allowed starts for every step of somebody who is at other jobs too."""
    known: dict[tuple[str, int, str | None], list[Span]] = {}
    for step in job.steps:
        trade = job.trades[step.trade]
        there = [one for one in elsewhere if one.trade == trade.name]
        key = (trade.name, step.hands, step.where)
        if key not in known:
            known[key] = _taken(step, trade, there)
        if known[key] and trade.hour_known:
            jobs = " and ".join(dict.fromkeys(one.job for one in there))
            why = Why("people", f"{trade.name} is at {jobs}", trade.place, None, Cause("elsewhere", trade.name))
            yield AllowedStarts(step.id, _clear_of(known[key]), why)


def _taken(step: Step, trade: Trade, there: Sequence[Elsewhere]) -> list[Span]:
    """When others leave too few hands for a step, or the way to it is too long; in order, none of them meeting."""
    moments = sorted({moment for one in there for moment in (one.start, one.end)})
    found = [
        (start, end)
        for start, end in zip(moments, moments[1:], strict=False)
        if sum(one.hands for one in there if one.start <= start < one.end) + step.hands > trade.hands
    ]
    for one in there if trade.travel else ():
        if one.place is None or one.place != step.where:
            found.append((one.start - trade.travel, one.end + trade.travel))
    return _merged(found)


def _merged(spans: list[Span]) -> list[Span]:
    merged: list[Span] = []
    for start, end in sorted(spans):
        if merged and start <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], end))
        else:
            merged.append((start, end))
    return merged


def _clear_of(taken: list[Span]) -> StartTest:
    begins = np.array([start for start, _ in taken], dtype=np.int64)
    ends_of = np.array([end for _, end in taken], dtype=np.int64)

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        coming = np.searchsorted(ends_of, starts, side="right")
        far = np.append(begins, np.iinfo(np.int64).max)
        return np.asarray(ends <= far[coming])

    return allowed
