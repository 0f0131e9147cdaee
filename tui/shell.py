"""A command of the shell, done for the screen: a process of its own, its text told as it is."""

from __future__ import annotations

import asyncio
import os
import sys
from datetime import date

from tui.ask import HOME


async def shell(words: list[str], today: date | None) -> str:
    """What a command says, its talk behind its text. Cancelled, it ends the process it started."""
    day = ["--today", today.isoformat()] if today else []
    path = os.pathsep.join(filter(None, (str(HOME), os.environ.get("PYTHONPATH"))))
    process = await asyncio.create_subprocess_exec(
        *(sys.executable, "-m", "sequencer", *words, *day),
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
    texts = (told.decode("utf-8", "replace").rstrip(), talk.decode("utf-8", "replace").rstrip())
    return "\n\n".join(text for text in texts if text)
