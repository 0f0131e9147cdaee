"""What the files leave to an assumption, in words for whoever reads the plan."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.files.air_said import AirWords
from sequencer.files.air_text import IN_WORDS
from sequencer.files.job_model import JobModel, RoomModel
from sequencer.files.uses import Use


def assumed(model: JobModel, uses: list[Use]) -> tuple[str, ...]:
    """Air said only in words, and parts that do not say how large they are."""
    air = [words for name, room in model.rooms.items() for words in _air(room.title or name, room, model.air)]
    parts = [
        f"{model.rooms[use.room].title or use.room}: parts of {use.name} taken as equal"
        for use in uses
        if any(part.area is None for part in use.model.parts or ())
    ]
    return (*air, *parts)


def _air(title: str, room: RoomModel, common: AirWords | None) -> Iterator[str]:
    lines = room.air.lines if room.air is not None and room.air.lines else common.lines if common is not None else ()
    for words in dict.fromkeys(line.text.words for line in lines if line.text.in_words):
        yield f'{title}: "{words}" taken as {IN_WORDS[words]}'
