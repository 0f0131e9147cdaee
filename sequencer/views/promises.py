"""When each of several jobs is handed over, and whether that keeps its promise."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.plan import Beside, Plan
from sequencer.views.clock import Clock, days_between, usual
from sequencer.views.lines import wrapped


def promise_lines(plans: Sequence[Plan], width: int) -> list[str]:
    """A line for each job, wrapped."""
    return [line for plan in plans for line in wrapped(handed_over(plan), width, "", "  ")]


def handed_over(one: Plan | Beside) -> str:
    """Orchard Row: hand over Thu 2 April 15:00, promised for Fri 10 April: kept, with 8 days to spare"""
    return f"{one.title}: hand over {Clock(one.zone).at(one.finish)}{promise_words(one)}"


def promise_words(one: Plan | Beside) -> str:
    """, promised for Fri 10 April: kept, with 8 days to spare; nothing where nothing is promised"""
    if one.promise is None:
        return ""
    clock = Clock(one.zone)
    promised, finish = clock.last_day(one.promise), clock.day(one.finish)
    if one.days_late:
        kept = f"missed by {one.days_late} day{'s' * (one.days_late > 1)}"
    else:
        kept = "kept, on the day" if finish == promised else f"kept, with {days_between(finish, promised)} to spare"
    return f", promised for {usual(promised)}: {kept}"
