"""Who hears a step: every pair of steps in which the second may not start before the first is done or ready."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sequencer.terms.job import Job, Step
from sequencer.terms.place import Place
from sequencer.terms.recipe import Named
from sequencer.terms.wait import Wait


@dataclass(frozen=True)
class Hearing:
    """`listener` waits for `giver`: for its end of work, or until `wait` says ready. `reason` in words of the site."""

    giver: Step
    listener: Step
    wait: Wait | None
    reason: str
    where: Place


def touch(one: Step, other: Step) -> bool:
    """True if two steps meet on a surface; a step about no surface meets every other of its room."""
    if not one.surfaces or not other.surfaces or one.room != other.room:
        return True
    return any(a.touches(b) for a in one.surfaces for b in other.surfaces)


def sibling(step: Step, name: str) -> str:
    """The id of another step of the same recipe in the same use."""
    return f"{step.id.rpartition('/')[0]}/{name}"


def same_use(one: Step, other: Step) -> bool:
    """True if both steps come from the same use (and part) of a recipe."""
    return one.id.rpartition("/")[0] == other.id.rpartition("/")[0]


def where_and_what(state: str, here: str) -> tuple[str, str]:
    """The room a state is looked for in, and its word: "room: state" looks in another room than `here`."""
    room, _, word = state.rpartition(":")
    return room.strip() or here, word.strip()


def givers_of(job: Job, step: Step, state: str) -> list[Step]:
    """Steps that give a state where `step` needs it."""
    room, word = where_and_what(state, step.room)
    return [giver for giver in job.steps_giving(room, word) if giver.id != step.id and touch(step, giver)]


def takers_of(job: Job, step: Step, state: str) -> list[Step]:
    """Steps of other recipes in the room that take a state back where `step` needs it."""
    room, word = where_and_what(state, step.room)
    takers = job.steps_taking_back(room, word)
    return [taker for taker in takers if touch(step, taker) and not same_use(step, taker)]


def given_again(job: Job, taker: Step, state: str) -> list[Step]:
    """The steps of the taker's own recipe that give the state again."""
    _, word = where_and_what(state, taker.room)
    return [giver for giver in job.steps_giving(taker.room, word) if same_use(giver, taker)]


def given_wait(giver: Step, state: str) -> Wait | None:
    """The wait until a giver's state stands, None if it stands at its end of work."""
    _, word = where_and_what(state, giver.room)
    purpose = next(given.purpose for given in giver.gives if given.state == word)
    return giver.wait_for(purpose) if purpose else None


def hearings(job: Job) -> Iterator[Hearing]:
    """Every hearing of the job, by links and by states."""
    for listener in job.steps:
        for link in listener.links:
            giver = job.step(link.id)
            wait = giver.wait_for(link.purpose) if link.purpose else None
            yield Hearing(giver, listener, wait, link.why, link.place)
        for need in (*listener.needs, *listener.follows):
            yield from _by_state(job, listener, need)


def _by_state(job: Job, listener: Step, need: Named) -> Iterator[Hearing]:
    for giver in heard_givers(job, listener, need.word):
        yield Hearing(giver, listener, given_wait(giver, need.word), need.word, need.place)


def heard_givers(job: Job, listener: Step, state: str) -> list[Step]:
    """The givers a step waits for: not who gives the state again after the step itself has taken it back.

    Nor who gives again what another took back, unless nobody else gives it and the room has it not already.
    """
    takes_back = any(back.word == state for back in listener.takes_back)
    givers = [s for s in givers_of(job, listener, state) if not (takes_back and same_use(s, listener))]
    again = {s.id for taker in takers_of(job, listener, state) for s in given_again(job, taker, state)}
    first = [giver for giver in givers if giver.id not in again]
    return first if first or has_already(job, listener, state) else givers


def has_already(job: Job, step: Step, state: str) -> bool:
    """True if the room where a step needs a state has it from the start."""
    room, word = where_and_what(state, step.room)
    return any(already.word == word for each in job.rooms if each.name == room for already in each.already)
