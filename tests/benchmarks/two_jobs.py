"""Compares plans of two jobs with all there are, by hand: `python tests/benchmarks/two_jobs.py 300 [seed]`.

Prints every pair of tiny random jobs whose plans are later against promises, or later together, than the best of all;
ends with 1 if there is any.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from two_jobs import compare


def main() -> int:
    count = int(sys.argv[1])
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    found = Counter[str]()
    for seed in range(first, first + count):
        planned, tried = compare(seed)
        kind = "no order fits" if tried is None else "late" if tried[0] else "in time"
        found[kind if planned == tried else "mismatch"] += 1
        if planned != tried:
            print(f"seed {seed}: planned {planned}, tried {tried}", flush=True)
    print(", ".join(f"{count} {outcome}" for outcome, count in sorted(found.items())))
    return 1 if found["mismatch"] else 0


if __name__ == "__main__":
    sys.exit(main())
