"""Figures of the demo, by hand: `python tests/benchmarks/demo.py`. Medians of five runs of whole processes.

plan: the shell command on the demo, start to end, and its peak memory. first plan: list pass and audit after the files
are read. --help against a bare interpreter. Steps; lines per module. All processes find the program compiled, as it is
once installed.
"""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sequencer.terms.job import Job

ROOT = Path(__file__).parent.parent.parent
DEMO = ROOT / "docs" / "demo"
TODAY = date(2027, 1, 25)
RUNS = 5


def main() -> None:
    print(f"cores: {os.cpu_count()}")
    with tempfile.TemporaryDirectory() as compiled:
        _processes({**os.environ, "PYTHONPYCACHEPREFIX": compiled, "PYTHONDONTWRITEBYTECODE": ""})
    _first_plan()
    modules = [path for folder in ("sequencer", "tui") for path in (ROOT / folder).rglob("*.py")]
    lines = sorted(len(path.read_text("utf-8").splitlines()) for path in modules)
    print(f"modules: {len(lines)}, lines: median {lines[len(lines) // 2]}, most {lines[-1]}, all {sum(lines)}")


def _processes(environment: dict[str, str]) -> None:
    def _run(*arguments: str) -> None:
        quiet = subprocess.DEVNULL
        subprocess.run([sys.executable, *arguments], check=True, stdout=quiet, stderr=quiet, env=environment)

    bare = _median(lambda: _run("-c", "pass"))
    print(f"bare interpreter: {1000 * bare:.0f} ms")
    helped = _median(lambda: _run("-c", "import sys; from sequencer.cli import main; sys.exit(main(['--help']))"))
    print(f"--help: {1000 * helped:.0f} ms, {helped / bare:.1f} times a bare interpreter")
    plan = ("-m", "sequencer", "plan", str(DEMO), "--today", TODAY.isoformat())
    _run(*plan)
    print(f"plan: {_median(lambda: _run(*plan)):.2f} s")
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    print(f"peak memory of any of these processes: {peak:.0f} MB")


def _first_plan() -> None:
    from sequencer.files import read_job
    from sequencer.planning import plan_of

    started = time.perf_counter()
    job = read_job(DEMO, TODAY)
    print(f"files read: {1000 * (time.perf_counter() - started):.0f} ms, steps: {len(job.steps)}")
    plan_of(job, effort=0)
    print(f"first audited plan after that: {1000 * _median(lambda: _audited(job)):.0f} ms", end="")
    print(f"; written up whole: {1000 * _median(lambda: plan_of(job, effort=0)):.0f} ms")
    plan = plan_of(job)
    for goal in plan.goals:
        print(f"goal {goal.name}: {goal.value}, bound {goal.bound}, proven {goal.proven}")


def _audited(job: Job) -> None:
    from sequencer.audit import audit
    from sequencer.network.build import build
    from sequencer.network.case import Case
    from sequencer.planning import airs
    from sequencer.solve import first_answer
    from sequencer.writeup import times_of

    case = Case(job, airs(job))
    network = build(case)
    assert audit(job, case.airs, times_of(network, first_answer(network))) == ()


def _median(work: Callable[[], object]) -> float:
    times = []
    for _ in range(RUNS):
        started = time.perf_counter()
        work()
        times.append(time.perf_counter() - started)
    return statistics.median(times)


if __name__ == "__main__":
    main()
