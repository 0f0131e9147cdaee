"""Published instances through the project's own network, beside a plain cumulative model and pyjobshop:
`python tests/benchmarks/sequence/run.py FOLDER --set j30 --limit 5 --every 12`.

FOLDER holds the instances and best_known.csv (columns file, lb, ub, status). One solver at a time, all of them on one
instance before the next; plans are checked. Ctrl-c, or a `timeout` around it, ends a run with the table of what all
have done by then.
decided: proven best or proven impossible. Gap to known: mean of (plan - best known) / best known; own gap: mean of
(plan - own bound) / plan; both over instances with a plan. cpu: mean processor time of all workers, which tells more
than the clock where others use the machine too. Ours has a limit that counts work: `--work` says how much of it the
machine does in a second, so that its own processor time comes to the limit.
"""

from __future__ import annotations

import argparse
import os
import signal
import time
from collections.abc import Sequence
from pathlib import Path

from checker import faults
from readers import READERS, read
from solvers import WORK_A_SECOND, Solver, available
from table import HEAD, UNKNOWN, Known, Row, best_known, contradictions, line

FOLDERS = {
    "j30": "psplib/j30", "j60": "psplib/j60", "j120": "psplib/j120", "max30": "rcpspmax/j30",
    "ubo20": "rcpspmax/ubo20", "ubo50": "rcpspmax/ubo50", "mplib": "mplib1", "ca": "ca-rcpsp",
}  # fmt: skip


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--set", choices=FOLDERS, action="append", dest="sets", help="may be given several times")
    parser.add_argument("--limit", type=float, default=10.0, help="seconds an instance")
    parser.add_argument("--sample", type=int, default=0, help="so many of each set, evenly spread (0: all)")
    parser.add_argument("--every", type=int, default=1, metavar="K", help="each K-th of each set")
    parser.add_argument("--files", default="", help="these alone: names without ending, with commas")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1, help="of the others; ours takes one")
    parser.add_argument("--work", type=float, default=WORK_A_SECOND, help="of ours in a second (default: %(default)s)")
    parser.add_argument("--solvers", default="", help="names with commas (default: all that are there)")
    parser.add_argument("--each", action="store_true", help="a line for every instance too")
    told = parser.parse_args()
    known = best_known(told.folder / "best_known.csv")
    solvers = available(told.work)
    wanted = told.solvers.split(",") if told.solvers else list(solvers)
    print(f"limit {told.limit:g} s, {told.workers} workers, {os.cpu_count()} cores")
    print(HEAD)
    odd: list[str] = []
    ended = False
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    for name in told.sets or FOLDERS:
        there = sorted(path for path in (told.folder / FOLDERS[name]).iterdir() if path.suffix in READERS)
        rows: dict[str, list[Row]] = {label: [] for label in wanted}
        try:
            for path in chosen(there, told.sample, told.every, told.files):
                for label, row in {one: _one(path, one, solvers[one], told, known, odd) for one in wanted}.items():
                    rows[label].append(row)
        except KeyboardInterrupt:
            ended = True
        for label, them in rows.items():
            if them:
                print(line(name, label, them), flush=True)
        if ended:
            print("ended before all was done")
            break
    print("\n".join(odd) if odd else "every plan is sound, and no value contradicts the best known")


def chosen(files: Sequence[Path], sample: int, every: int, names: str) -> Sequence[Path]:
    """Of the files those named (all for none), of them each so-manieth, of them a sample."""
    named = [path for path in files if not names or path.stem in names.split(",")]
    return spread(named[::every], sample)


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
        print(
            f"  {label} {path.name}: {outcome.makespan} >= {outcome.bound}, infeasible {outcome.infeasible}, "
            f"known {best.lb}..{best.ub}, {outcome.seconds:.2f} s, cpu {cpu:.2f} s",
            flush=True,
        )
    return Row(outcome, best, cpu)


if __name__ == "__main__":
    main()
