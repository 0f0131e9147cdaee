"""Asking for a plan without waiting for it: a process of its own, which ends when nobody wants its answer any more."""

from __future__ import annotations

import asyncio
import os
import pickle
import sys
from datetime import date
from pathlib import Path

from tui.outcome import Outcome

HOME = Path(__file__).resolve().parent.parent


async def ask(job: Path, today: date | None) -> Outcome:
    """The outcome of planning a job. Cancelled, it ends the process it started."""
    day = [today.isoformat()] if today else []
    path = os.pathsep.join(filter(None, (str(HOME), os.environ.get("PYTHONPATH"))))
    process = await asyncio.create_subprocess_exec(
        *(sys.executable, "-m", "tui.planner", str(job), *day),
        stdin=asyncio.subprocess.DEVNULL,
        stdout=asyncio.subprocess.PIPE,
        stderr=asyncio.subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": path},
    )
    try:
        told, talk = await process.communicate()
    finally:
        if process.returncode is None:
            process.kill()
            await process.wait()
    if process.returncode != 0:
        return Outcome(None, "the planner stopped", tuple(talk.decode("utf-8", "replace").splitlines()[-5:]))
    answer = pickle.loads(told)
    assert isinstance(answer, Outcome)
    return answer
