"""The steps of the plan: pieces of work, what they follow, what they are then ready for."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from sequencer.plan import After, PlannedStep, Ready
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Wait
from sequencer.waits.progress import NEVER
from sequencer.writeup.reasons import waited_for
from sequencer.writeup.timed import Timed
from sequencer.writeup.warnings import Warned, by_step


def planned_steps(timed: Timed, slips: dict[str, int], told: Sequence[Warned]) -> tuple[PlannedStep, ...]:
    """Every step with its times, by start, then id; `told`: what is warned of."""
    warned = by_step(told)
    steps = (_planned(timed, step, slips.get(step.id), warned.get(step.id, ())) for step in timed.case.job.steps)
    return tuple(sorted(steps, key=lambda step: (step.start, step.id)))


def _planned(timed: Timed, step: Step, slip: int | None, warned: tuple[str, ...]) -> PlannedStep:
    past = (timed.case.job.past or {}).get(step.id)
    after = {(h.giver.id, h.wait.purpose if h.wait else None) for h in timed.heard[step.id]}
    return PlannedStep(
        id=step.id,
        title=step.title,
        kind=step.kind,
        room=step.room,
        recipe=step.recipe,
        step=step.name,
        trade=step.trade,
        surfaces=tuple(str(surface) for surface in step.surfaces),
        start=timed.start(step.id),
        end=timed.end(step.id),
        pieces=timed.times.pieces[step.id],
        work_minutes=step.minutes,
        place=step.place,
        ready=tuple(_ready(timed, step, wait) for wait in step.waits),
        after=tuple(After(*pair) for pair in sorted(after, key=str)),
        state=past.state if past is not None else "planned",
        waited_for=waited_for(timed, step.id) if past is None else None,
        room_for_a_slip=slip,
        cautions=step.cautions,
        record=step.record,
        if_too_late=step.if_too_late,
        if_failed=step.if_failed,
        warnings=warned,
        told=_told(timed.case.job, step.id),
    )


def _told(job: Job, id: str) -> Minute | None:
    """The start people were told."""
    return job.told_starts.get(id, job.told.starts.get(id)) if job.told is not None else None


def _ready(timed: Timed, step: Step, wait: Wait) -> Ready:
    clock, end = timed.case.clock(step, wait), timed.end(step.id)
    ready = timed.ready(step, wait)
    within = wait.within_minutes
    latest = None if within is None else (ready if wait.within_of_ready else end) + within
    return Ready(
        purpose=wait.purpose,
        at=ready,
        latest=latest,
        law=wait.law,
        hours=round((ready - end) / HOUR if ready < NEVER else inf, 2),
        reference_hours=round(clock.reference_hours, 2),
        floor_hours=wait.floor_hours,
        source=wait.source,
        working=timed.working(step, wait),
        place=wait.place,
        listeners=tuple(dict.fromkeys(h.listener.id for h in timed.given[step.id] if h.wait is wait)),
    )
