"""What the files leave to an assumption, in words for whoever reads the plan."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.files.air_said import AirWords
from sequencer.files.air_text import IN_WORDS
from sequencer.files.job_model import JobModel, RoomModel
from sequencer.files.uses import Use
from sequencer.terms.practice import AIR_CHANGES


def assumed(model: JobModel, uses: list[Use]) -> tuple[str, ...]:
    """Air said only in words, and parts that do not say how large they are."""
    air = [words for name, room in model.rooms.items() for words in _air(room.title or name, room, model.air)]
    parts = [
        f"{model.rooms[use.room].title or use.room}: parts of {use.name} taken as equal"
        for use in uses
        if any(part.area is None for part in use.model.parts or ())
    ]
    wet = [words for name, room in model.rooms.items() for words in _wet(name, room, uses)]
    return (*air, *parts, *wet)


def _wet(name: str, room: RoomModel, uses: list[Use]) -> Iterator[str]:
    """What is not said of a room whose air a layer wets."""
    recipes = (use.recipe for use in uses if use.room == name and use.recipe is not None)
    if not any(step.water for recipe in recipes for step in recipe.steps):
        return
    if room.size is None:
        yield f"{room.title or name}: without its size, no layer is taken to wet its air"
    elif room.air_changes is None:
        yield f"{room.title or name}: {AIR_CHANGES:g} air changes an hour, for what its layers give off"


def _air(title: str, room: RoomModel, common: AirWords | None) -> Iterator[str]:
    lines = room.air.lines if room.air is not None and room.air.lines else common.lines if common is not None else ()
    for words in dict.fromkeys(line.text.words for line in lines if line.text.in_words):
        yield f'{title}: "{words}" taken as {IN_WORDS[words]}'
