"""Recipes in rooms, part by part, as the steps of a job with every link in place."""

from __future__ import annotations

from dataclasses import replace

from sequencer.files.cables import with_limits
from sequencer.files.check_recipe import followed
from sequencer.files.refs import Ref
from sequencer.files.uses import Target, Use, find
from sequencer.files.wrong import listed
from sequencer.terms.job import Link, Room, Step, Surface
from sequencer.terms.place import Fault, Place
from sequencer.terms.recipe import RecipeStep

RECIPE = "recipe"
MY_ORDER = "my order"

ROUNDED = 0.02
"""Areas are written rounded: parts may come to so much more than their surface [share]."""


def steps_of(uses: list[Use], rooms: dict[str, Room], faults: list[Fault]) -> tuple[Step, ...]:
    """Every step of the job, in the order of the files."""
    steps: dict[str, Step] = {}
    for use in uses:
        lost: dict[str, None] = {}
        for step in _plain(use, rooms[use.room], lost):
            steps[step.id] = step
        if lost:
            faults.append(_no_area(use, list(lost)))
        faults.extend(_parts_too_large(use, rooms[use.room]))
    links = {id: list(step.links) for id, step in steps.items()}
    for use in uses:
        if use.recipe is not None:
            _parts_in_order(use, steps, links)
            _my_order(use, uses, steps, links, faults)
    return tuple(replace(step, links=tuple(links[id])) for id, step in steps.items())


def _plain(use: Use, room: Room, lost: dict[str, None]) -> list[Step]:
    recipe = use.recipe
    if recipe is None:
        return []
    found = []
    for part in use.parts:
        name = part.name if part else None
        for at, step in enumerate(recipe.steps):
            split = _split(use) if part else set()
            surfaces = [surface for surface in step.surfaces if _has(room, surface)]
            if step.surfaces and not surfaces:
                lost.update(dict.fromkeys(step.surfaces))
            area = _area(use, room, step, surfaces, split, part.area if part else None, lost)
            links = tuple(Link(use.id(name, id), purpose, RECIPE, where) for id, purpose, where in followed(recipe, at))
            found.append(
                Step(
                    id=use.id(name, step.name),
                    title=f"{step.title}, {name}" if name else step.title,
                    room=use.room,
                    use=use.name,
                    recipe=recipe.name,
                    name=step.name,
                    kind=step.kind,
                    trade=step.trade,
                    minutes=step.hours.minutes(area),
                    hours=step.hours,
                    surfaces=tuple(Surface(each, name if each in split else None) for each in surfaces),
                    place=step.place,
                    one_go=step.one_go,
                    wet_film=step.wet_film,
                    makes=step.makes,
                    stands=step.stands,
                    hands=step.hands,
                    where=step.where,
                    open_framing=recipe.open_framing,
                    links=tuple(link for link in links if link.id in use.ids(name)),
                    needs=step.needs,
                    follows=step.follows,
                    gives=step.gives,
                    takes_back=step.takes_back,
                    air=step.air,
                    waits=step.waits,
                    water=step.water.fixed + step.water.per_area * area if step.water else 0.0,
                    dries_for=step.water.purpose if step.water else None,
                    closing=step.closing,
                    services_off=step.services_off,
                    noisy=step.noisy,
                    lift=step.lift,
                    look_in=step.look_in,
                    fumes=step.fumes,
                    toilet=step.toilet,
                    hold=step.hold,
                    if_failed=tuple(use.id(name, named.word) for named in step.if_failed),
                    if_too_late=step.if_too_late,
                    record=with_limits(use, step.record),
                    cautions=step.cautions,
                )
            )
    return found


def _split(use: Use) -> set[str]:
    """The surfaces that parts divide: those the recipe's head names, else all."""
    assert use.recipe is not None and use.file is not None
    head = use.file.model.works_on
    return set(head) if head else {surface for step in use.recipe.steps for surface in step.surfaces}


def _has(room: Room, surface: str) -> bool:
    """With a size, a room has the surfaces whose areas are known; without, it may have any."""
    return room.volume is None or surface in room.areas


def _area(
    use: Use,
    room: Room,
    step: RecipeStep,
    surfaces: list[str],
    split: set[str],
    own: float | None,
    lost: dict[str, None],
) -> float:
    """The area of a step [m2]: of a part as it is said, else an equal share."""
    if step.hours.per_area or (step.water is not None and step.water.per_area):
        lost.update(dict.fromkeys(each for each in surfaces if each not in room.areas and not (own and split)))
    whole = sum(room.areas.get(surface, 0.0) for surface in surfaces if surface not in split)
    shared = sum(room.areas.get(surface, 0.0) for surface in surfaces if surface in split)
    if own is not None and any(surface in split for surface in surfaces):
        return whole + own
    return whole + shared / (len(use.parts) if split else 1)


def _no_area(use: Use, surfaces: list[str]) -> Fault:
    what = f'"{use.name}" works on {listed(surfaces)}, and the room "{use.room}" does not say how large that is'
    areas = ", ".join(f"{surface}: 5 m2" for surface in surfaces)
    return Fault(use.place, what, f"add to the room: areas: {{{areas}}}")


def _parts_too_large(use: Use, room: Room) -> list[Fault]:
    """Parts that together are larger than the surfaces they divide."""
    said = [part for part in use.parts if part is not None and part.area is not None]
    if use.recipe is None or not said:
        return []
    surfaces = [surface for surface in room.areas if surface in _split(use)]
    whole, parts = sum(room.areas[surface] for surface in surfaces), sum(part.area or 0.0 for part in said)
    if not surfaces or parts <= whole * (1 + ROUNDED):
        return []
    what = f'the parts of "{use.name}" come to {parts:.4g} m2, and {listed(surfaces)} to {whole:.4g} m2'
    return [Fault(said[0].place, what, "give the parts less, or the surfaces their true areas")]


def _parts_in_order(use: Use, steps: dict[str, Step], links: dict[str, list[Link]]) -> None:
    for before, part in zip(use.parts, use.parts[1:], strict=False):
        assert before is not None and part is not None
        for id in _entries(tuple(use.ids(part.name)), steps):
            for end in _exits(tuple(use.ids(before.name)), steps):
                links[id].append(Link(end, None, MY_ORDER, part.place))


def _entries(group: tuple[str, ...], steps: dict[str, Step]) -> list[str]:
    """The steps of a part that follow no other of it."""
    return [id for id in group if not steps[id].links] or [group[0]]


def _exits(group: tuple[str, ...], steps: dict[str, Step]) -> list[str]:
    """The steps of a part that no other of it follows: when they are done, all of it is."""
    followed = {link.id for id in group for link in steps[id].links}
    return [id for id in group if id not in followed]


def _ends(group: tuple[str, ...], ref: Ref, steps: dict[str, Step]) -> list[str]:
    """The steps that a reference to a part waits for: all its ends, or its last step's wait."""
    return _exits(group, steps) if ref.purpose is None else [group[-1]]


def _my_order(
    use: Use, uses: list[Use], steps: dict[str, Step], links: dict[str, list[Link]], faults: list[Fault]
) -> None:
    own = [tuple(use.ids(part.name if part else None)) for part in use.parts]
    for ref in use.model.after or ():
        for target in find(ref.who, ref.place, uses, use.room, faults):
            if _meets(target.last, ref, steps, faults) and not _itself(use, target, ref.place, faults):
                for id in _entries(own[0], steps):
                    for end in _ends(target.groups[-1], ref, steps):
                        links[id].append(Link(end, ref.purpose, MY_ORDER, ref.place))
    for ref in use.model.before or ():
        for target in find(ref.who, ref.place, uses, use.room, faults):
            if _meets(own[-1][-1], ref, steps, faults) and not _itself(use, target, ref.place, faults):
                for id in target.groups[0] if target.step else _entries(target.groups[0], steps):
                    for end in _ends(own[-1], ref, steps):
                        links[id].append(Link(end, ref.purpose, MY_ORDER, ref.place))


def _itself(use: Use, target: Target, place: Place, faults: list[Fault]) -> bool:
    if target.use is use:
        faults.append(Fault(place, f'"{use.name}" is put before or after itself', "name another recipe of the room"))
    return target.use is use


def _meets(id: str, ref: Ref, steps: dict[str, Step], faults: list[Fault]) -> bool:
    waits = [wait.purpose for wait in steps[id].waits]
    if ref.purpose is None or ref.purpose in waits:
        return True
    has = listed((f'"{wait}"' for wait in waits), "or")
    what = f'"{steps[id].name}" has no wait until it is ready for "{ref.purpose}"'
    faults.append(Fault(ref.place, what, f"write {has}" if has else "leave out ready for"))
    return False
