"""What must not be left alone is looked after, and the only toilet is not away for too many nights."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sequencer.audit.following import heard
from sequencer.audit.site import Site, overlap
from sequencer.terms.minute import Minute, Span


def broken(site: Site) -> Iterator[str]:
    """Layers left alone for too long, nights without a toilet."""
    looked_after = [(step, step.look_in.minutes) for step in site.job.steps if step.look_in is not None]
    there = _there(site) if looked_after else []
    for step, most in looked_after:
        for other in site.family(step):
            follows = any(giver == step for giver, _ in heard(site, other))
            since = max(site.end(step), site.job.now) if site.behind(step) else site.end(step)
            if follows and _longest_alone(there, since, site.start(other)) > most:
                yield f"{step.id} is left alone for too long before {other.id}"
    for absence in site.job.house.absences:
        off, back = site.job.step(absence.off), site.job.step(absence.back)
        away = (max(site.end(off), site.job.now) if site.behind(off) else site.end(off), site.end(back))
        nights = sum(overlap(night, away) for night in site.job.house.nights)
        if nights > absence.nights:
            yield f"{absence.off} takes the toilet away for {nights} nights"


def _there(site: Site) -> list[Span]:
    """When somebody could look in, by start."""
    job = site.job
    there = [span for day in job.trades[job.hand_over_trade].days for span in day.spans]
    if job.house.lived_in:
        nights = job.house.nights
        there += [(one[1], other[0]) for one, other in zip(nights, nights[1:], strict=False)]
    return sorted(there)


def _longest_alone(there: Sequence[Span], start: Minute, end: Minute) -> int:
    """The longest stretch between two moments in which nobody could look in [min]."""
    longest, since = 0, start
    for opens, closes in there:
        if opens >= end:
            break
        if closes >= since:
            longest, since = max(longest, opens - since), max(since, closes)
    return max(longest, end - since)
