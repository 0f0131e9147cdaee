"""Figures of the recipe library, by hand: `python tests/benchmarks/hall_bath.py`.

Recipes, steps, waits, numbers by how they are known; reading and checking all of it; a hall bath played forward by one
and by two people, 200 draws each; plan of each demo.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from datetime import date
from pathlib import Path
from statistics import median

ROOT = Path(__file__).parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from hall_bath import all_hours, own_hours, share, working_days  # noqa: E402

from sequencer.answers.remarks import remarks  # noqa: E402
from sequencer.files import read_job, read_recipe_library  # noqa: E402
from sequencer.files.shelf import demo_folder  # noqa: E402
from sequencer.planning import plan_of  # noqa: E402
from sequencer.terms.job import Job  # noqa: E402

DRAWS = 200
DEMOS = {"demo": date(2027, 1, 25), "demo-2": date(2026, 9, 7), "demo-3": date(2027, 10, 4)}
KNOWN = {"from memory": "from memory", "(seen, secondary)": "seen, secondary", "(seen": "seen"}


def main() -> None:
    _library()
    print(f"hall bath: {own_hours():.0f} h of one's own, {all_hours():.0f} h of all trades")
    for people in (2, 1):
        half, most = share(people, 0.5, DRAWS), share(people, 0.8, DRAWS)
        print(f"{people} at work: {working_days(people)} working days, P50 {half}, P80 {most}, of {DRAWS} draws")
    for name, day in DEMOS.items():
        _demo(name, read_job(demo_folder(name), day))


def _library() -> None:
    times = []
    for _ in range(7):
        started = time.process_time()
        library = read_recipe_library()
        times.append(time.process_time() - started)
    first, middle = 1000 * times[0], 1000 * median(times)
    print(f"library read and checked: {first:.0f} ms of processor time the first time, {middle:.0f} ms in the middle")
    steps = [step for recipe in library.values() for step in recipe.steps]
    waits = [wait for step in steps for wait in step.waits]
    numbers = [*(step.hours for step in steps), *waits, *(limit for step in steps for limit in step.air)]
    numbers += [step.water for step in steps if step.water]
    known = Counter(_known(number.source) for number in numbers)
    ways = sum(len(recipe.ways) for recipe in library.values())
    print(f"{len(library)} recipes, {len(steps)} steps, {len(waits)} waits, {ways} other ways; numbers: {dict(known)}")
    print(f"remarks: {len(remarks(library.values(), library.values()))}")


def _known(source: str) -> str:
    return next((words for sign, words in KNOWN.items() if sign in source), "no source")


def _demo(name: str, job: Job) -> None:
    started = time.process_time()
    plan = plan_of(job)
    spent = time.process_time() - started
    days = sum(1 for start, end in job.working_days if start < plan.finish and end > plan.start)
    proven = all(goal.value == goal.bound for goal in plan.goals)
    kept = plan.promise is not None and plan.finish <= plan.promise
    print(f"{name}: {len(job.steps)} steps, {spent:.1f} s of processor time, {days} working days, {kept=}, {proven=}")


if __name__ == "__main__":
    main()
