"""Compares plans of tiny random jobs with a brute force, by hand: `python tests/benchmarks/brute_force.py 300 [seed]`.

Prints every job whose plan hands over in another half-day than trying every start finds; ends with 1 if there is any.
With `--goals`: whose plan comes to more than the best that hands over as early, or is not the only one to come to that.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from best_plans import compare_goals
from brute_force import TooLarge, compare

from sequencer.planning import BrokenPlan
from sequencer.terms.place import Faulty

SLOW = 20.0
"""A job that takes longer than this is named [s]."""


def main() -> int:
    numbers = [int(word) for word in sys.argv[1:] if word != "--goals"]
    outcome_of = _of_goals if "--goals" in sys.argv else _outcome
    count, first = (*numbers, 0)[:2]
    found = Counter[str]()
    for seed in range(first, first + count):
        started = time.perf_counter()
        with tempfile.TemporaryDirectory() as folder:
            outcome = outcome_of(seed, Path(folder))
        found[outcome.partition(":")[0]] += 1
        if outcome.startswith("mismatch") or time.perf_counter() - started > SLOW:
            print(f"seed {seed}: {outcome}, {time.perf_counter() - started:.1f} s", flush=True)
    print(", ".join(f"{count} {outcome}" for outcome, count in sorted(found.items())))
    return 1 if found["mismatch"] else 0


def _outcome(seed: int, folder: Path) -> str:
    try:
        compared = compare(seed, folder)
    except Faulty:
        return "with faulty files"
    except TooLarge:
        return "too large to try"
    except (AssertionError, BrokenPlan) as broken:
        return f"mismatch: {broken!r}"
    if not compared.agree:
        return f"mismatch: {compared}"
    return "agree, no order fits" if compared.planned is None else "agree"


def _of_goals(seed: int, folder: Path) -> str:
    try:
        compared = compare_goals(seed, folder)
    except Faulty:
        return "with faulty files"
    except TooLarge:
        return "too large to try"
    except (AssertionError, BrokenPlan) as broken:
        return f"mismatch: {broken!r}"
    if compared is None:
        return "no order fits, or visits are given up"
    return "agree" if compared.agree else f"mismatch: {compared}"


if __name__ == "__main__":
    sys.exit(main())
