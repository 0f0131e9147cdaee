"""Working hours as functions of time: when a step may start, and when it then ends."""

from __future__ import annotations

from collections.abc import Hashable

import numpy as np
from numpy.typing import NDArray

from sequencer.terms.job import Workday
from sequencer.terms.minute import Minute, Span


class Openings:
    """A trade's open spans laid end to end, shared by all its steps.

    `opens`, `closes` [Minute], `before` (open minutes before it) and `day` (its day's number): one entry a span.
    """

    def __init__(self, days: tuple[Workday, ...]) -> None:
        spans = [(start, end, number) for number, day in enumerate(days) for start, end in day.spans]
        table = np.array(spans, dtype=np.int64).reshape(-1, 3)
        self.opens, self.closes, self.day = table[:, 0], table[:, 1], table[:, 2]
        self.before = np.concatenate([[0], np.cumsum(self.closes - self.opens)]).astype(np.int64)

    def span_at(self, moments: NDArray[np.int64]) -> NDArray[np.int64]:
        """Number of the span that holds or last preceded each moment; -1 before the first."""
        after: NDArray[np.int64] = np.searchsorted(self.opens, moments, side="right").astype(np.int64)
        return np.asarray(after - 1)

    def worked(self, moments: NDArray[np.int64]) -> NDArray[np.int64]:
        """Open minutes before each moment, counted from the first opening [min]."""
        span = np.maximum(self.span_at(moments), 0)
        inside = np.clip(moments - self.opens[span], 0, self.closes[span] - self.opens[span])
        return np.asarray(self.before[span] + inside)

    def advance(self, moments: NDArray[np.int64], minutes: int) -> NDArray[np.int64]:
        """The moment at which so many open minutes [min] have gone by since each moment."""
        done = np.minimum(self.worked(moments) + minutes, self.before[-1])
        last = np.clip(np.searchsorted(self.before, done, side="left") - 1, 0, len(self.opens) - 1)
        return np.asarray(np.maximum(moments, self.opens[last] + done - self.before[last]))

    def left_today(self, moments: NDArray[np.int64]) -> NDArray[np.int64]:
        """Open minutes from each moment to the end of its day [min]."""
        span = np.maximum(self.span_at(moments), 0)
        last = np.searchsorted(self.day, self.day[span], side="right")
        return np.asarray(self.before[last] - self.worked(moments))

    def done_today(self, moments: NDArray[np.int64]) -> NDArray[np.int64]:
        """Open minutes from the start of its day to each moment [min]."""
        span = np.maximum(self.span_at(moments - 1), 0)
        first = np.searchsorted(self.day, self.day[span], side="left")
        return np.asarray(self.worked(moments) - self.before[first])

    def shared_with(self, spans: tuple[Span, ...]) -> Openings:
        """The openings that lie in other spans too."""
        days: dict[int, list[Span]] = {}
        theirs = iter(sorted(spans))
        other = next(theirs, None)
        for opens, closes, day in zip(self.opens.tolist(), self.closes.tolist(), self.day.tolist(), strict=True):
            while other is not None and other[1] <= opens:
                other = next(theirs, None)
            while other is not None and other[0] < closes:
                days.setdefault(day, []).append((max(opens, other[0]), min(closes, other[1])))
                if other[1] > closes:
                    break
                other = next(theirs, None)
        return Openings(tuple(Workday(tuple(shared)) for shared in days.values()))


class WorkClock:
    """Starts and ends of one step: `minutes` [min] of work in the openings of its trade.

    `one_go`: it lies within one day. `whole_window`: it takes the window of a day whole, from its opening to its close.
    """

    def __init__(self, openings: Openings, minutes: int, one_go: bool = False, whole_window: bool = False) -> None:
        self.openings = openings
        self.minutes = minutes
        self.one_go = one_go
        self.whole_window = whole_window

    @property
    def alike(self) -> tuple[Hashable, ...]:
        """Equal for clocks that allow the same starts and give them the same ends."""
        return self.openings, self.minutes, self.one_go, self.whole_window

    def allowed(self, starts: NDArray[np.int64]) -> NDArray[np.bool_]:
        """True where the step may start: the trade is there, the work ends within the calendar (and day, in one go).

        What takes no time may also fall on the close of a span.
        """
        o = self.openings
        if len(o.opens) == 0:
            return np.zeros(len(starts), dtype=np.bool_)
        span = o.span_at(starts)
        at = np.maximum(span, 0)
        if self.whole_window:
            first = (at == 0) | (o.day[at] != o.day[at - 1])
            return np.asarray((span >= 0) & first & (starts == o.opens[at]))
        ok = (span >= 0) & (starts < o.closes[at] + (self.minutes == 0))
        done = o.before[at] + starts - o.opens[at] + self.minutes
        ok &= done <= o.before[-1]
        if self.one_go:
            last = np.searchsorted(o.before, done, side="left") - 1
            ok &= o.day[np.clip(last, 0, len(o.day) - 1)] == o.day[at]
        return np.asarray(ok)

    def ends(self, starts: NDArray[np.int64]) -> NDArray[np.int64]:
        """End of work for allowed starts; elsewhere the end of a start at the next opening (never falls)."""
        o = self.openings
        if len(o.opens) == 0:
            return starts + self.minutes
        span = np.maximum(o.span_at(starts), 0)
        if self.whole_window:
            return np.asarray(o.closes[np.searchsorted(o.day, o.day[span], side="right") - 1])
        inside = np.clip(starts - o.opens[span], 0, o.closes[span] - o.opens[span])
        done = np.minimum(o.before[span] + inside + self.minutes, o.before[-1])
        if self.minutes == 0:
            return np.maximum(starts, o.opens[span])
        last = np.clip(np.searchsorted(o.before, done, side="left") - 1, 0, len(o.opens) - 1)
        return np.asarray(o.opens[last] + done - o.before[last])

    def pieces(self, start: Minute) -> tuple[Span, ...]:
        """The spans of work of one allowed start, breaks within a day and pauses over nights left out."""
        end = int(self.ends(np.array([start], dtype=np.int64))[0])
        first = int(np.searchsorted(self.openings.closes, start, side="right"))
        last = int(np.searchsorted(self.openings.opens, end, side="left"))
        spans = zip(self.openings.opens[first:last].tolist(), self.openings.closes[first:last].tolist(), strict=True)
        return tuple((max(opens, start), min(closes, end)) for opens, closes in spans) or ((start, end),)

    def next_start(self, moment: Minute) -> Minute | None:
        """The first allowed start at or after a moment by working hours alone, to the minute; None if there is none."""
        o = self.openings
        candidates = np.concatenate([[moment], o.opens[o.opens > moment]]).astype(np.int64)
        good = candidates[self.allowed(candidates)]
        return int(good[0]) if len(good) else None
