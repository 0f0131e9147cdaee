"""A program of ours as a process of its own, which ends when nobody wants its answer any more."""

from __future__ import annotations

import asyncio
import os
import sys
from dataclasses import dataclass
from pathlib import Path

HOME = Path(__file__).resolve().parent.parent


@dataclass(frozen=True)
class Output:
    """What a process wrote, what it said beside it, and its exit code."""

    text: bytes
    talk: str
    exit: int


async def own_process(module: str, *words: str) -> Output:
    """What a module says, run with these words. Cancelled, it ends the process it started."""
    path = os.pathsep.join(filter(None, (str(HOME), os.environ.get("PYTHONPATH"))))
    process = await asyncio.create_subprocess_exec(
        *(sys.executable, "-m", module, *words),
        stdin=asyncio.subprocess.DEVNULL,
        stdout=asyncio.subprocess.PIPE,
        stderr=asyncio.subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": path},
    )
    try:
        text, talk = await process.communicate()
    finally:
        if process.returncode is None:
            process.kill()
            await process.wait()
    assert process.returncode is not None
    return Output(text, talk.decode("utf-8", "replace"), process.returncode)
