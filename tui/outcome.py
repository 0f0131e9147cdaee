"""What a planner gives: a plan, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.plan import Plan


@dataclass(frozen=True)
class Outcome:
    """A plan; or else `title` says what is wrong and `texts` tell it line by line."""

    plan: Plan | None
    title: str = ""
    texts: tuple[str, ...] = ()
