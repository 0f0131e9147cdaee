"""The day a plan breaks, in the middle of the demo: how long until the new plan, and how much of the old one stays.

    python tests/benchmarks/on_site.py [ROUNDS]

The demo is planned and accepted before it starts; everything up to its middle is told in the site book as it was
planned. Then the plumber comes two working days late. Timed are the whole process (start of Python, files, plan, text)
and the answer inside a running program; the share of steps that stay is set against a fresh plan that looks at nobody's
promises.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from statistics import median
from zoneinfo import ZoneInfo

from sequencer.answers.what_now.answer import what_now
from sequencer.answers.what_now.moves import known
from sequencer.cli.change_words import change_words
from sequencer.cli.fact_told import fact_told
from sequencer.desk.accepted import accept
from sequencer.files import demo_folder, read_job
from sequencer.files.book_line import BOOK_FILE, HEAD, line_text
from sequencer.files.told import texts_of
from sequencer.plan import Plan
from sequencer.planning import plan_of, settled
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.with_facts import with_facts
from sequencer.views.clock import Clock

WEEK_BEFORE = timedelta(days=7)
A_MOMENT_BEFORE = HOUR // 4
LATE = ("plumber", "--days", "2")


def mid_job(home: Path) -> date:
    """A copy of the demo in the middle of its work, its plan accepted and its past told; gives the day it is."""
    shutil.copytree(demo_folder(), home)
    clock = Clock(read_job(home).zone)
    before = clock.day(read_job(home).start) - WEEK_BEFORE
    job = read_job(home, before)
    plan = plan_of(job)
    accept(home, plan, None, texts_of(home, job, None))
    today = clock.day(plan.steps[len(plan.steps) // 2].start)
    zone = ZoneInfo(plan.zone)
    told = sorted(_past(plan, clock.midnight(today)))
    lines = (line_text(number, at, at, words, zone) for number, (at, words) in enumerate(told, 1))
    (home / BOOK_FILE).write_text("\n".join((HEAD, *lines, "")), encoding="utf-8")
    return today


def _past(plan: Plan, now: Minute) -> list[tuple[Minute, str]]:
    """Facts in the words of the book: what is ordered, on site, decided, begun and done by a moment."""
    facts = []
    for order in plan.orders:
        if order.order_by is not None and order.order_by <= now:
            facts.append((order.order_by - HOUR, f"ordered {order.id}"))
        if order.needed <= now or order.arrives <= now:
            facts.append((min(order.arrives, order.needed) - A_MOMENT_BEFORE, f"delivered {order.id}"))
    for step in plan.steps:
        if step.end <= now:
            facts.append((step.end, f"{'passed' if step.kind == 'hold' else 'done'} {step.id}"))
        elif step.start <= now:
            facts.append((step.start, f"began {step.id}"))
    return facts


def main(rounds: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder) / "demo"
        today = mid_job(home)
        shell = [sys.executable, "-m", "sequencer", "late", *LATE, "--job", str(home), "--today", today.isoformat()]
        print(f"whole process: {_said(_timed(lambda: _run(shell), rounds))}")

        job = read_job(home, today)
        fact = fact_told(job, "late", _words(home, today), "00:30", today)
        changed = with_facts(job, [fact])
        inside = _timed(lambda: what_now(job, changed, (fact,), known(job)), rounds)
        print(f"inside a running program: {_said(inside)}")
        found = what_now(job, changed, (fact,), known(job))
        coming = [step for step in found.plan.steps if step.state == "planned"]
        plain = plan_of(replace(settled(changed), told=None))
        for name, plan in (("keeping what people were told", found.plan), ("a plain fresh plan", plain)):
            stay = sum(plan.step(step.id).start == found.before.starts.get(step.id) for step in coming)
            told = sum(visit.state != "done" for visit in plan.visits)
            print(f"{name}: {stay} of {len(coming)} steps to come stay; hand-over {Clock(plan.zone).at(plan.finish)}")
            moved = [v for v in found.before.visits if any(_moves(found.before.starts, plan, id) for id in v.steps)]
            print(f"    {len(moved)} of {told} visits to come move")


def _moves(before: dict[str, Minute], plan: Plan, id: str) -> bool:
    return plan.step(id).state == "planned" and plan.step(id).start != before[id]


def _words(home: Path, today: date) -> str:
    """The fact in words: two working days after the plumber was to come next."""
    from argparse import Namespace

    job = read_job(home, today)
    return change_words(job, "late", Namespace(word=[LATE[0]], until=None, days=int(LATE[2])), lambda: known(job).plan)


def _run(shell: list[str]) -> None:
    subprocess.run([*shell, "--at", "00:30", "-n"], check=True, capture_output=True)


def _timed(what: Callable[[], object], rounds: int) -> list[tuple[float, float]]:
    """For each round by the clock, and of the processor, child processes counted in [s]."""
    found = []
    for _ in range(rounds):
        clock, busy = time.perf_counter(), _busy()
        what()
        found.append((time.perf_counter() - clock, _busy() - busy))
    return found


def _busy() -> float:
    times = os.times()
    return times.user + times.system + times.children_user + times.children_system


def _said(rounds: list[tuple[float, float]]) -> str:
    clock, busy = (median(each) for each in zip(*rounds, strict=True))
    return f"{clock:.2f} s by the clock, {busy:.2f} s of the processor (medians of {len(rounds)})"


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
