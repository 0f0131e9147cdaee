"""What a plan says of what was done against a recipe, and of what can only follow too late now."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.terms.hearing import Hearing
from sequencer.terms.minute import DAY, HOUR, Minute
from sequencer.terms.past import Past
from sequencer.terms.words import say_ready
from sequencer.writeup.timed import Timed


def against_recipes(timed: Timed) -> Iterator[str]:
    """Steps told to be begun, or done, before what they wait for was ready, steps that come too late, in sentences."""
    past = timed.case.job.past or {}
    for hearing in timed.hearings if past else ():
        giver, listener = past.get(hearing.giver.id), past.get(hearing.listener.id)
        if listener is not None and listener.state != "not told":
            yield from _too_soon(timed, hearing, giver)
        elif listener is None and giver is not None:
            yield from _too_late(timed, hearing)


def _too_soon(timed: Timed, hearing: Hearing, giver: Past | None) -> Iterator[str]:
    first, then = hearing.giver, hearing.listener
    if giver is None:
        waits = "has not passed" if first.kind == "hold" else "is not done"
        yield f"{then.title} ({then.id}) was begun, and {first.title} ({first.id}) {waits}"
        return
    ready = timed.end(first.id) if hearing.wait is None else timed.ready(first, hearing.wait)
    began = any(fact.kind == "began" and fact.about == then.id for fact in timed.case.job.facts)
    early = ready - (timed.start(then.id) if began else timed.end(then.id))
    if early > 0:
        what = "done" if hearing.wait is None else f"ready {say_ready(hearing.wait.purpose, timed.case.job.words)}"
        was = "begun" if began else "done"
        yield f"{then.title} ({then.id}) was {was} {_long(early)} before {first.title} ({first.id}) was {what}"


def _too_late(timed: Timed, hearing: Hearing) -> Iterator[str]:
    giver, listener, wait = hearing.giver, hearing.listener, hearing.wait
    if wait is None or wait.within_minutes is None:
        return
    latest = (timed.ready(giver, wait) if wait.within_of_ready else timed.end(giver.id)) + wait.within_minutes
    if timed.start(listener.id) > latest:
        late = _long(timed.start(listener.id) - latest)
        again = f": {giver.if_too_late}" if giver.if_too_late else ""
        text = f"{listener.title} ({listener.id}) comes {late} later than {giver.title} ({giver.id}) can be followed"
        yield f"{text}{again}"


def _long(minutes: Minute) -> str:
    if minutes >= 2 * DAY:
        return f"{minutes // DAY} days"
    hours, rest = divmod(minutes, HOUR)
    return " ".join([f"{hours} h"] * (hours > 0) + [f"{rest} min"] * (rest > 0))
