"""The plan of a job from the times of the solver."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.air.hourly import RoomAir, assumptions
from sequencer.audit import Times
from sequencer.network.case import Case
from sequencer.network.model import HAND_OVER, Network
from sequencer.plan import Goal, Plan, StillToCome
from sequencer.solve import Answer
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute
from sequencer.terms.practice import AFTERWARDS, DISTURBANCES, MILESTONES
from sequencer.writeup.behind import against_recipes
from sequencer.writeup.closed import closed_surfaces
from sequencer.writeup.decisions import planned_decisions
from sequencer.writeup.orders import planned_orders
from sequencer.writeup.reasons import waited_for
from sequencer.writeup.steps import planned_steps
from sequencer.writeup.timed import Timed
from sequencer.writeup.under_way import under_way
from sequencer.writeup.visit_names import called_off
from sequencer.writeup.visits import visits
from sequencer.writeup.warnings import warnings

NOTHING_RECORDED = "nothing is recorded since the start: planned as on the start day, as if all had gone to plan"
"""What a plan says that is looked at after the job's start."""


def times_of(network: Network, answer: Answer) -> Times:
    """The spans of work of every step, for the starts of an answer; of what lies behind, as they were."""
    pieces = {
        id: task.work.pieces(answer.starts.get(id, network.start))
        for id, task in network.tasks.items()
        if id != HAND_OVER
    }
    return Times(pieces, answer.starts[HAND_OVER])


def write(case: Case, network: Network, answer: Answer, times: Times) -> Plan:
    """The plan, complete."""
    job, timed = case.job, Timed(case, network, times)
    told, named = warnings(timed), visits(timed)
    return Plan(
        job=job.name,
        title=job.title,
        zone=job.zone,
        words=job.words,
        as_of=job.now,
        start=job.start,
        promise=job.promise,
        finish=times.hand_over,
        at_best=answer.hand_over_at_best,
        goals=tuple(Goal(goal.name, goal.value, goal.bound) for goal in answer.goals),
        steps=planned_steps(timed, answer.slips, told),
        fewest_released=answer.fewest,
        cushions_used=tuple(sorted(job.cushion_used)),
        closed=closed_surfaces(timed),
        visits=named,
        orders=(orders := planned_orders(timed)),
        decisions=planned_decisions(timed, orders),
        still_to_come=_still_to_come(timed),
        milestones=_milestones(timed),
        assumed=_assumed(case, times.hand_over),
        warnings=tuple(dict.fromkeys(text for _, text in told)),
        against_recipes=tuple(dict.fromkeys(against_recipes(timed))),
        under_way=under_way(timed),
        cautions=_cautions(case),
        room_titles={room.name: room.title for room in job.rooms},
        room_surfaces={room.name: _surfaces(case, room.name) for room in job.rooms},
        air_words={room.name: air_words(case.airs[room.name], job.start, times.hand_over) for room in job.rooms},
        closed_days=job.closed_days,
        finish_waited_for=waited_for(timed, HAND_OVER),
        interrupted=answer.interrupted,
        told_finish=job.told.finish if job.told is not None else None,
        called_off=called_off(job, named),
        recipes_kept=job.told.recipes_kept if job.told is not None else (),
        unrecorded=_unrecorded(job),
    )


def _still_to_come(timed: Timed) -> tuple[StillToCome, ...]:
    """What a layer is ready for only after hand-over, by moment."""
    found = [
        StillToCome(step.id, wait.purpose, timed.ready(step, wait))
        for step in timed.case.job.steps
        for wait in step.waits
        if wait.purpose in (*DISTURBANCES, *AFTERWARDS) and timed.ready(step, wait) > timed.times.hand_over
    ]
    return tuple(sorted(found, key=lambda one: (one.at, one.step, one.purpose)))


def _milestones(timed: Timed) -> dict[str, Minute]:
    """The moments people in the house ask for, and hand-over."""
    found: dict[str, Minute] = {}
    for word in MILESTONES:
        moments = []
        for step in timed.case.job.steps:
            for given in step.gives:
                wait = step.wait_for(given.purpose) if given.purpose else None
                if given.state == word:
                    moments.append(timed.ready(step, wait) if wait else timed.end(step.id))
        if moments:
            found[word] = max(moments)
    return {**found, HAND_OVER: timed.times.hand_over}


def _assumed(case: Case, until: Minute) -> tuple[str, ...]:
    """What of the plan rests on an assumption."""
    spoken: Sequence[str] = [
        f"{room.title}: {words}"
        for room in case.job.rooms
        for words in assumptions(case.airs[room.name].between(case.job.start, until))
    ]
    return (*((NOTHING_RECORDED,) if _unrecorded(case.job) else ()), *case.job.assumed, *spoken)


def _unrecorded(job: Job) -> bool:
    """Whether a job has begun and nothing of it is recorded."""
    return job.today is not None and job.today > job.start and not job.facts


def _cautions(case: Case) -> tuple[tuple[str | None, str], ...]:
    """The cautions of every recipe used, each once, then those of single steps."""
    used = dict.fromkeys(step.recipe for step in case.job.steps)
    general = dict.fromkeys(text for name in used for text in case.job.recipes[name].cautions)
    single = ((step.id, text) for step in case.job.steps for text in step.cautions)
    return (*((None, text) for text in general), *single)


def _surfaces(case: Case, room: str) -> tuple[str, ...]:
    """The surfaces of a room that are worked on, in the order of the files."""
    return tuple(dict.fromkeys(surface.name for step in case.job.steps_in(room) for surface in step.surfaces))


def air_words(air: RoomAir, start: Minute, end: Minute) -> str:
    """The air of a stretch in words: from the coldest to the warmest hour, from the driest to the dampest."""
    here = air.between(start, end)
    cold, warm = round(float(here.temperature.min())), round(float(here.temperature.max()))
    dry, damp = round(100 * float(here.humidity.min())), round(100 * float(here.humidity.max()))
    temperature = f"{cold} C" if cold == warm else f"{cold} to {warm} C"
    humidity = f"{dry} %" if dry == damp else f"{dry} to {damp} %"
    return f"{temperature}, {humidity}"
