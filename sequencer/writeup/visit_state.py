"""How far a visit is arranged: pencilled, asked, firm, done; released is one given back and not asked for again.

Pencilled: it stands in the plan alone. Asked: the trade knows. Firm: the day and hour are agreed, every plan keeps it.
"""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.terms.job import Job


def visit_state(job: Job, steps: Sequence[str]) -> str:
    """The state of the visit that does these steps, by the files and the site book."""
    past = job.past or {}
    if steps and all(id in past and past[id].state in ("done", "failed") for id in steps):
        return "done"
    if any(booking.step in steps for booking in job.bookings):
        return "firm"
    if any(id in job.asked for id in steps):
        return "asked"
    given_back = any(fact.kind == "released" and fact.about in steps for fact in job.facts)
    return "released" if given_back else "pencilled"
