"""Every state that is needed is given in the room, on a surface that counts."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.files.library import Library
from sequencer.files.uses import Use
from sequencer.files.wrong import listed, nearest
from sequencer.terms.hearing import has_already, heard_givers, same_use, where_and_what
from sequencer.terms.job import Job, Step
from sequencer.terms.place import Fault, Place
from sequencer.terms.recipe import Named


def state_faults(job: Job, uses: list[Use], library: Library, places: dict[str, Place]) -> Iterator[Fault]:
    """States that nothing gives. A room with a recipe that cannot be read is left out: it may be the one that gives."""
    hidden = {use.room for use in uses if use.recipe is None}
    told: set[tuple[str, str, str]] = set()
    for step in job.steps:
        if step.room in hidden:
            continue
        for need in (*step.needs, *step.follows):
            key = (step.room, step.use, need.word)
            if key in told:
                continue
            fault = _in_no_room(job, step, need, places)
            if fault is None and need in step.needs and not _met(job, step, need.word):
                fault = _missing(job, step, need, library, places)
            if fault is not None:
                told.add(key)
                yield fault
    yield from _unknown(job, library)


def _unknown(job: Job, library: Library) -> Iterator[Fault]:
    """States a room is said to have that no recipe knows."""
    known = {word.rpartition(":")[2].strip() for step in job.steps for word in _states_of(step)}
    for room in job.rooms:
        for already in room.already:
            if already.word not in known and already.word not in (states := library.states()):
                what = f'"{already.word}" is a state that no recipe gives or needs'
                advice = nearest(already.word, sorted(known | states), "leave it out, or see docs/recipes.md")
                yield Fault(already.place, what, advice)


def _states_of(step: Step) -> Iterator[str]:
    yield from (named.word for named in (*step.needs, *step.follows, *step.takes_back))
    yield from (given.state for given in step.gives)


def _met(job: Job, step: Step, state: str) -> bool:
    return has_already(job, step, state) or bool(heard_givers(job, step, state))


def _in_no_room(job: Job, step: Step, need: Named, places: dict[str, Place]) -> Fault | None:
    """A state of another room that the job does not have."""
    room, word = where_and_what(need.word, step.room)
    rooms = [each.name for each in job.rooms]
    if room in rooms:
        return None
    place = need.place if need.place.file == job.place.file else places[step.id]
    what = f'"{step.name}" of "{step.use}" needs "{word}" of "{room}", which is no room of this job'
    return Fault(place, what, nearest(room, rooms))


def _missing(job: Job, step: Step, need: Named, library: Library, places: dict[str, Place]) -> Fault:
    own = need.place.file == job.place.file
    place = need.place if own else places[step.id]
    room = job.room(step.room)
    here = [other for other in job.steps_in(room.name) if any(given.state == need.word for given in other.gives)]
    there, word = where_and_what(need.word, room.name)
    what = f'"{step.name}" of "{step.use}" needs "{word}", and nothing in the room "{there}" gives it'
    if there != room.name:
        return Fault(place, what, f'add a recipe that gives it to "{there}", or already: [{word}]')
    if not all(same_use(other, step) for other in here):
        surfaces = listed(map(str, step.surfaces))
        what = f'"{step.name}" of "{step.use}" needs "{need.word}" on {surfaces}, and it is given only elsewhere'
        return Fault(place, what, f"let it be given there too, or list it under already: [{need.word}]")
    could = library.givers(need.word)
    if could:
        return Fault(place, what, f"add {listed(could, 'or')} to the room, or already: [{need.word}]")
    known = {given.state for other in job.steps_in(room.name) for given in other.gives}
    known |= {named.word for named in room.already}
    advice = nearest(need.word, sorted(known)) if known else ""
    if advice.startswith('write "') and own:
        return Fault(place, what, f"{advice}, or add already: [{need.word}] to the room")
    return Fault(place, what, f"add already: [{need.word}] to the room, or a recipe that gives it")
