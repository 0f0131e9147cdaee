"""Generated jobs, by hand. `rooms.py 50`: so many like bathrooms that share people. `rooms.py --single 100`: so many
single rooms of random size, air and people.

first: the first audited plan, from the job read. plan: the plan, from the job read. Peak memory: this process.
"""

from __future__ import annotations

import argparse
import os
import resource
import statistics
import tempfile
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from room_files import many_rooms, one_room

from sequencer.plan import Plan
from sequencer.planning import NoOrderFits, plan_of
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY

SETTLED = "hand-over is settled"
"""How the solver tells that it turns from the first goal to the next."""


@dataclass(frozen=True)
class Timed:
    """A plan, and seconds from its job to it: the first plan, hand-over settled (None: never told), all of it."""

    plan: Plan
    first: float
    settled: float | None
    whole: float


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("count", type=int, nargs="?", help="rooms in one job")
    parser.add_argument("--crews", default="", help="hands, as you=4,plumber=2 (default: by the load)")
    parser.add_argument("--single", type=int, metavar="COUNT", help="jobs of one room")
    parser.add_argument("--seed", type=int, default=1, help="of the first single room")
    parser.add_argument("--effort", type=float, default=1.0)
    told = parser.parse_args()
    print(f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}, effort {told.effort:g}")
    with tempfile.TemporaryDirectory() as folder:
        if told.count:
            crews = dict(pair.split("=") for pair in told.crews.split(",") if pair)
            many(Path(folder), told.count, {name: int(hands) for name, hands in crews.items()}, told.effort)
        if told.single:
            single(Path(folder), range(told.seed, told.seed + told.single), told.effort)
    print(f"peak memory: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


def many(folder: Path, count: int, crews: Mapping[str, int], effort: float) -> None:
    """One job of many rooms."""
    began = time.perf_counter()
    job = many_rooms(folder, count, crews)
    print(f"{count} rooms, {len(job.steps)} steps, written and read in {time.perf_counter() - began:.2f} s")
    print("hands: " + ", ".join(f"{trade.name} {trade.hands}" for trade in job.trades.values()))
    began = time.perf_counter()
    first = plan_of(job, effort=0)
    print(f"first: {time.perf_counter() - began:.2f} s, {_hand_over(job, first)}", flush=True)
    began = time.perf_counter()
    plan = plan_of(job, effort)
    print(f"plan: {time.perf_counter() - began:.2f} s, {_hand_over(job, plan)}")


def _hand_over(job: Job, plan: Plan) -> str:
    whole, best = plan.finish - job.start, plan.at_best - job.start
    gap = (whole - best) / whole
    return f"hand-over after {whole / DAY:.1f} d, not before {best / DAY:.1f} d, gap {100 * gap:.1f} %"


def single(folder: Path, seeds: Sequence[int], effort: float) -> None:
    """One job after the other; what share is proven, and how long it took."""
    found: list[Timed] = []
    for seed in seeds:
        job = one_room(folder / str(seed), seed)
        try:
            found.append(timed(job, effort))
        except NoOrderFits as none:
            print(f"room {seed}: {none}")
            continue
        print(f"room {seed}: {len(job.steps)} steps, {_told(found[-1])}", flush=True)
    proven = [each for each in found if each.plan.goals[0].proven]
    whole = [each for each in found if all(goal.proven for goal in each.plan.goals)]
    print(f"{len(seeds)} rooms: {len(found)} with a plan, hand-over proven in {len(proven)}, all goals in {len(whole)}")
    print(f"first: {_spread([each.first for each in found])}")
    print(f"until hand-over is settled: {_spread([each.settled for each in found if each.settled is not None])}")
    print(f"plan: {_spread([each.whole for each in found])}")


def _told(each: Timed) -> str:
    ends = ("proven" if goal.proven else f"{goal.value}, not below {goal.bound}" for goal in each.plan.goals)
    goals = [f"{goal.name} {end}" for goal, end in zip(each.plan.goals, ends, strict=True)]
    return f"first {each.first:.2f} s, plan {each.whole:.2f} s; {'; '.join(goals)}"


def timed(job: Job, effort: float) -> Timed:
    """Plans a job twice: at first without the solver, then whole."""
    began = time.perf_counter()
    plan_of(job, effort=0)
    first = time.perf_counter() - began
    settled: list[float] = []
    began = time.perf_counter()

    def told(sentence: str) -> None:
        if sentence.startswith(SETTLED):
            settled.append(time.perf_counter() - began)

    plan = plan_of(job, effort, told)
    return Timed(plan, first, settled[0] if settled else None, time.perf_counter() - began)


def _spread(seconds: Sequence[float]) -> str:
    if not seconds:
        return "-"
    ordered = sorted(seconds)
    ninth = ordered[min(len(ordered) - 1, -(-9 * len(ordered) // 10) - 1)]
    return f"median {statistics.median(ordered):.2f} s, 90th percentile {ninth:.2f} s, most {ordered[-1]:.2f} s"


if __name__ == "__main__":
    main()
