"""A command of the shell, done for the screen: its text told as it is."""

from __future__ import annotations

from datetime import date

from tui.own_process import own_process


async def shell(words: list[str], today: date | None) -> str:
    """What a command says, its talk behind its text. Cancelled, it ends the process it started."""
    told = await own_process("sequencer", *words, *(["--today", today.isoformat()] if today else []))
    texts = (told.text.decode("utf-8", "replace").rstrip(), told.talk.rstrip())
    return "\n\n".join(text for text in texts if text)
