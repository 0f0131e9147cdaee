"""What a new job shall be, in the words of its file."""

from __future__ import annotations

from dataclasses import dataclass, field, replace


@dataclass(frozen=True)
class RoomWish:
    """A room: its lasting name, its size as the file writes it, by each layer the build-up chosen, and its title."""

    name: str
    size: str
    build_ups: dict[str, str] = field(default_factory=dict)
    title: str = ""

    def with_build_up(self, layer: str, word: str) -> RoomWish:
        """The same room with another build-up of one layer."""
        return replace(self, build_ups={**self.build_ups, layer: word})


@dataclass(frozen=True)
class Wishes:
    """A job as it was asked for. `said`: answers by their key; `people`: a person's words by name.

    `ways`: (room, recipe) to the way it is done; `helper`, `saturday`, `looks_itself`: a second pair of hands, work on
    Saturdays, and no inspector.
    """

    said: dict[str, str]
    rooms: tuple[RoomWish, ...]
    people: dict[str, str] = field(default_factory=dict)
    ways: dict[tuple[str, str], str] = field(default_factory=dict)
    helper: bool = False
    saturday: bool = False
    looks_itself: bool = False

    def with_way(self, room: str, recipe: str, way: str) -> Wishes:
        """The same job with one recipe done another way."""
        return replace(self, ways={**self.ways, (room, recipe): way})
