"""Asking for a plan without waiting for it: the planner is a process of its own."""

from __future__ import annotations

import pickle
from datetime import date
from pathlib import Path

from tui.outcome import Outcome
from tui.own_process import own_process


async def ask(job: Path, today: date | None) -> Outcome:
    """The outcome of planning a job. Cancelled, it ends the process it started."""
    told = await own_process("tui.planner", str(job), *([today.isoformat()] if today else []))
    if told.exit != 0:
        return Outcome(None, "the planner stopped", tuple(told.talk.splitlines()[-5:]))
    answer = pickle.loads(told.text)
    assert isinstance(answer, Outcome)
    return answer
