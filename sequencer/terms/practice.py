"""Numbers of trade practice that rules need and no recipe states, each with its source."""

from __future__ import annotations

MACHINE_DUST_HANGS = 120
"""Dust of a machine hangs in the room this long after the work [min]; common practice, no source."""

DISTURBANCES: tuple[str, ...] = ("foot", "load", "water", "heat", "steam", "dust", "touch", "shaking", "draught")
"""What a layer may not yet bear: a wait for one of these is heard by whoever does it, and by hand-over."""

AFTERWARDS: tuple[str, ...] = ("full heat", "recheck", "reseal")
"""What a layer comes to after hand-over: no step waits for it, it is told as still to come."""

COVERS: tuple[str, ...] = ("cover", "grout", "seal", "tile", "paint")
"""What usually comes on a layer, in words that need no step's name to be understood."""

MAKES: dict[str, tuple[str, int]] = {
    "machine dust": ("dust", MACHINE_DUST_HANGS),
    "hand dust": ("dust", 0),
    "shaking": ("shaking", 0),
    "draught": ("draught", 0),
    "steam": ("steam", 0),
    "load": ("load", 0),
    "water": ("water", 0),
    "touch": ("touch", 0),
    "heat": ("heat", 0),
}
"""What a step does to its room: the disturbance, and how long it stays after the work [min]."""

AIR_CHANGES = 0.5
"""Air changes of a room with its door and window closed [1/h]: an assumption, no source."""

MILESTONES: tuple[str, ...] = ("toilet back", "first shower", "floor heat on")
"""States whose moment people in the house ask for: a date of its own in the plan."""

NIGHT = (22 * 60, 6 * 60)
"""When people sleep: from this hour of the evening to this one of the morning [min after midnight]; common practice."""

WORTH_BEGINNING = 30
"""A free stretch shorter than this fills with nothing else [min]; common practice, no source."""

CALLS_AHEAD: dict[str, int] = {"ask": 14, "settle": 7, "remind": 1}
"""A trade is pencilled in when the job is won; asked two weeks before its visit, a firm day settled a week before, and
reminded the day before [days]; common practice, no source."""

SURE_AHEAD = 5
"""The work in front that decides whether a firm day may be settled: what ends in so many working days before the
visit; common practice, no source."""

READ_BEFORE_COVERED = frozenset({"screed", "calcium sulfate screed", "slab"})
"""Laws of layers whose moisture a meter reads before they are covered; common practice, no source."""
