"""Published instances through the project's own network, beside a plain cumulative model and pyjobshop:
`python tests/benchmarks/sequence/run.py FOLDER --set j30 --limit 5 --sample 20`.

FOLDER holds the instances and best_known.csv (columns file, lb, ub, status). One solver at a time; plans are checked.
decided: proven best or proven impossible. Gap to known: mean of (plan - best known) / best known; own gap: mean of
(plan - own bound) / plan; both over instances with a plan. cpu: mean processor time of all workers, which tells more
than the clock where others use the machine too; ours has a limit that counts work, and stretches with the load.
"""

from __future__ import annotations

import argparse
import csv
import os
import statistics
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from checker import faults
from readers import READERS, read
from solvers import Outcome, Solver, available

FOLDERS = {
    "j30": "psplib/j30", "j60": "psplib/j60", "j120": "psplib/j120", "max30": "rcpspmax/j30",
    "ubo20": "rcpspmax/ubo20", "ubo50": "rcpspmax/ubo50", "mplib": "mplib1", "ca": "ca-rcpsp",
}  # fmt: skip


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


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--set", choices=FOLDERS, action="append", dest="sets", help="may be given several times")
    parser.add_argument("--limit", type=float, default=10.0, help="seconds an instance")
    parser.add_argument("--sample", type=int, default=0, help="so many of each set, evenly spread (0: all)")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1, help="of the others; ours takes one")
    parser.add_argument("--solvers", default="", help="names with commas (default: all that are there)")
    parser.add_argument("--each", action="store_true", help="a line for every instance too")
    told = parser.parse_args()
    known = best_known(told.folder / "best_known.csv")
    solvers = available()
    wanted = told.solvers.split(",") if told.solvers else list(solvers)
    print(f"limit {told.limit:g} s, {told.workers} workers, {os.cpu_count()} cores")
    print(HEAD)
    odd: list[str] = []
    for name in told.sets or FOLDERS:
        there = (path for path in (told.folder / FOLDERS[name]).iterdir() if path.suffix in READERS)
        files = spread(sorted(there), told.sample)
        for label in wanted:
            rows = [_one(path, label, solvers[label], told, known, odd) for path in files]
            print(line(name, label, rows), flush=True)
    print("\n".join(odd) if odd else "every plan is sound, and no value contradicts the best known")


def best_known(table: Path) -> dict[str, Known]:
    """The rows of best_known.csv by the name of the file."""
    with table.open(encoding="utf-8", newline="") as rows:
        return {
            Path(row["file"]).name: Known(_number(row["lb"]), _number(row["ub"]), row["status"] == "infeasible")
            for row in csv.DictReader(rows)
        }


def _number(text: str) -> int | None:
    return int(text) if text else None


def spread(files: Sequence[Path], sample: int) -> Sequence[Path]:
    """So many of the files, evenly spread; all for 0."""
    if not sample or sample >= len(files):
        return files
    return [files[number * len(files) // sample] for number in range(sample)]


def _one(
    path: Path, label: str, solver: Solver, told: argparse.Namespace, known: dict[str, Known], odd: list[str]
) -> Row:
    project = read(path)
    began = time.process_time()
    outcome = solver(project, told.limit, told.workers)
    cpu = time.process_time() - began
    best = known.get(path.name, UNKNOWN)
    wrong = [] if outcome.starts is None else faults(project, outcome.starts)
    odd += [f"{label} {path.name}: {what}" for what in [*wrong, *contradictions(outcome, best)]]
    if told.each:
        print(f"  {label} {path.name}: {outcome.makespan} >= {outcome.bound}, infeasible {outcome.infeasible}, "
              f"known {best.lb}..{best.ub}, {outcome.seconds:.2f} s, cpu {cpu:.2f} s", flush=True)
    return Row(outcome, best, cpu)


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


if __name__ == "__main__":
    main()
