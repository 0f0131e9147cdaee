"""What is known of published instances, what solvers found, and the table of both."""

from __future__ import annotations

import csv
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from solvers import Outcome


@dataclass(frozen=True)
class Row:
    """One instance: what a solver found, what is known, and processor time [s]."""

    outcome: Outcome
    known: Known
    cpu: float


@dataclass(frozen=True)
class Known:
    """The best values known elsewhere; None where none is."""

    lb: int | None
    ub: int | None
    infeasible: bool


UNKNOWN = Known(None, None, False)


def best_known(table: Path) -> dict[str, Known]:
    """The rows of best_known.csv by the name of the file."""
    with table.open(encoding="utf-8", newline="") as rows:
        return {
            Path(row["file"]).name: Known(_number(row["lb"]), _number(row["ub"]), row["status"] == "infeasible")
            for row in csv.DictReader(rows)
        }


def _number(text: str) -> int | None:
    return int(text) if text else None


def contradictions(outcome: Outcome, best: Known) -> list[str]:
    """What an outcome and the best known values cannot both say."""
    found = []
    plan = outcome.makespan
    if plan is not None and best.infeasible:
        found.append(f"has a plan of {plan}, known to be infeasible")
    if plan is not None and best.lb is not None and plan < best.lb:
        found.append(f"plan {plan} below the known bound {best.lb}")
    if best.ub is not None and outcome.infeasible:
        found.append(f"said to be infeasible, known plan {best.ub}")
    if best.ub is not None and plan is not None and outcome.bound > best.ub:
        found.append(f"bound {outcome.bound} above the known plan {best.ub}")
    return found


HEAD = (
    f"{'set':8}{'solver':11}{'n':>4}{'decided %':>11}{'infeasible':>12}{'no plan':>9}"
    f"{'gap to known %':>16}{'own gap %':>11}{'median s':>10}{'most s':>8}{'cpu s':>7}"
)


def line(name: str, label: str, rows: Sequence[Row]) -> str:
    """A row of the table."""
    outcomes = [row.outcome for row in rows]
    open_ones = sum(outcome.starts is None and not outcome.infeasible for outcome in outcomes)
    plans = [(row.outcome.starts[-1], row.known.ub) for row in rows if row.outcome.starts is not None]
    to_known = [(plan - best) / best for plan, best in plans if best]
    own = [(o.starts[-1] - o.bound) / o.starts[-1] for o in outcomes if o.starts is not None and o.starts[-1]]
    seconds = [outcome.seconds for outcome in outcomes]
    return (
        f"{name:8}{label:11}{len(rows):4}{100 * sum(o.decided for o in outcomes) / len(rows):11.1f}"
        f"{sum(o.infeasible for o in outcomes):12}{open_ones:9}{_percent(to_known):>16}{_percent(own):>11}"
        f"{statistics.median(seconds):10.2f}{max(seconds):8.1f}{statistics.mean(row.cpu for row in rows):7.1f}"
    )


def _percent(shares: Sequence[float]) -> str:
    return f"{100 * statistics.mean(shares):.2f}" if shares else "-"
