"""Opens the screen of a job: `python -m tui [JOB] [--today DAY]`; the shell starts it where no command is given."""

from __future__ import annotations

import argparse
import os
import shutil
import sys
from datetime import date
from pathlib import Path

LEAST_WIDTH, LEAST_HEIGHT = 60, 16
"""Below this the screen would say less than sentences do [characters]."""


def main() -> int:
    """Opens the screen, or on too small a terminal prints the diary in sentences; gives the exit code."""
    parser = argparse.ArgumentParser(prog="sequencer")
    parser.add_argument("job", nargs="?", default=".")
    parser.add_argument("--today", type=date.fromisoformat)
    arguments = parser.parse_args()
    size = shutil.get_terminal_size()
    if size.columns < LEAST_WIDTH or size.lines < LEAST_HEIGHT:
        return _sentences(arguments.job, arguments.today, size.columns)
    colors = not os.environ.get("NO_COLOR")
    if colors:
        os.environ.pop("NO_COLOR", None)
    from tui.app import DiaryApp

    app = DiaryApp(Path(arguments.job), arguments.today, colors)
    app.run()
    return app.return_code or 0


def _sentences(job: str, today: date | None, width: int) -> int:
    from sequencer.views.plain import plain_diary
    from tui.planner import outcome

    told = outcome(Path(job), today)
    if told.plan is None:
        sys.stderr.write("".join(f"{line}\n" for line in (told.title, *told.texts)))
        return 2
    print(plain_diary(told.plan, max(30, width)), end="")
    print(f"This terminal is smaller than {LEAST_WIDTH} by {LEAST_HEIGHT}: here is the diary in sentences.")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
