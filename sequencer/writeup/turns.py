"""A group of claims as the plan has it: who had its turn by when, and who has it in a stretch."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator, Sequence

from sequencer.network.model import Claim, Why
from sequencer.terms.minute import Minute


class Turns:
    """The claims of a group in the order of their starts and of their ends."""

    def __init__(
        self,
        claims: tuple[Claim, ...],
        why: Why,
        start: Callable[[str], Minute],
        until: Callable[[Claim], Minute],
    ) -> None:
        self.why = why
        self._claims = claims
        self._of: dict[str, list[Claim]] = {}
        for claim in claims:
            self._of.setdefault(claim.task, []).append(claim)
        spans = [(start(claim.task), until(claim)) for claim in claims]
        self._longest = max((end - begin for begin, end in spans), default=0)
        self._starts = sorted((begin, end, number) for number, (begin, end) in enumerate(spans))
        self._ends = sorted((end, -number, begin) for number, (begin, end) in enumerate(spans))

    def of(self, task: str) -> Sequence[Claim]:
        """The claims of one task."""
        return self._of.get(task, ())

    def over_by(self, moment: Minute, task: str) -> Iterator[tuple[Minute, Claim]]:
        """The last two claims of other tasks that are over by a moment, the last one first, each with its end.

        Two, since whoever asks may leave one out.
        """
        left = 2
        for place in range(bisect_right(self._ends, (moment, 1, 0)) - 1, -1, -1):
            end, number, begin = self._ends[place]
            claim = self._claims[-number]
            if claim.task != task and begin < moment:
                yield end, claim
                left -= 1
                if not left:
                    return

    def during(self, start: Minute, until: Minute, task: str) -> Claim | None:
        """The first claim of another task, in the order of the group, that takes some of a stretch."""
        low = bisect_left(self._starts, (start - self._longest, 0, 0))
        high = bisect_left(self._starts, (until, 0, 0))
        there = [number for _, end, number in self._starts[low:high] if end > start]
        return next((claim for number in sorted(there) if (claim := self._claims[number]).task != task), None)
