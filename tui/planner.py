"""A process that plans once: `python -m tui.planner JOB [DAY]`. Its outcome goes to stdout, for the screen alone."""

from __future__ import annotations

import pickle
import sys
from datetime import date
from pathlib import Path

from sequencer.planning import NoOrderFits, plan_for
from sequencer.terms.place import Faulty
from tui.outcome import Outcome


def outcome(job: Path, today: date | None) -> Outcome:
    """The plan of a job, or what stands against one."""
    try:
        return Outcome(plan_for(job, today))
    except Faulty as faulty:
        count = len(faulty.faults)
        title = "1 fault in the files" if count == 1 else f"{count} faults in the files"
        return Outcome(None, title, tuple(map(str, faulty.faults)))
    except NoOrderFits as none:
        return Outcome(None, "no plan", none.sentences)
    except OSError as error:
        return Outcome(None, "the files cannot be read", (f"{error.filename}: {error.strerror}",))


def main(arguments: list[str]) -> None:
    """Writes the outcome for the job and day given."""
    day = date.fromisoformat(arguments[1]) if len(arguments) > 1 else None
    told = pickle.dumps(outcome(Path(arguments[0]), day))
    sys.stdout.buffer.write(told)
    sys.stdout.buffer.flush()


if __name__ == "__main__":
    main(sys.argv[1:])
