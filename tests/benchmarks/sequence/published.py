"""A published scheduling instance, whatever its format: activities, capacities, lags from start to start."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Activity:
    """Length in units of working time, and how much of each resource it takes."""

    length: int
    needs: tuple[int, ...]


@dataclass(frozen=True)
class Lag:
    """`after` starts at least `units` after the start of `before`; a negative number is a maximal lag backwards."""

    before: int
    after: int
    units: int


@dataclass(frozen=True)
class Project:
    """Activity 0 starts at 0 and takes no time; the last one takes no time either and its start is the makespan.

    `open_units`: the clock units in which work goes on, in order (None: all of them). With them every lag is the length
    of its first activity, and work pauses over closed units only.
    """

    name: str
    activities: tuple[Activity, ...]
    capacities: tuple[int, ...]
    lags: tuple[Lag, ...]
    open_units: tuple[int, ...] | None = None

    @property
    def sink(self) -> int:
        """The number of the last activity."""
        return len(self.activities) - 1

    @property
    def longest(self) -> int:
        """No feasible instance needs a longer makespan than this [units of working time]: one thing after the other,
        each with its longest lag (a bound in common use for maximal lags too).
        """
        reach = [activity.length for activity in self.activities]
        for lag in self.lags:
            reach[lag.before] = max(reach[lag.before], lag.units)
        return sum(reach)

    def clock(self, worked: int) -> int:
        """The clock unit by whose beginning so many units of work have been done."""
        if self.open_units is None or worked == 0:
            return worked
        return self.open_units[worked - 1] + 1
