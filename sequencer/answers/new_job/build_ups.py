"""What each layer of a new room can be built of, and what goes with it: recipes by name, the usual choice first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from sequencer.answers.new_job.wishes import RoomWish


@dataclass(frozen=True)
class BuildUp:
    """A choice for one layer: what it is, the recipes it takes, why it would be the usual one, the areas it brings."""

    title: str
    recipes: tuple[str, ...]
    reason: str = ""
    areas: str = ""


@dataclass(frozen=True)
class Usual:
    """Somebody's hours and notice as a job writes them, and why these."""

    words: str
    reason: str


@dataclass(frozen=True)
class Ordered:
    """Something ordered for a recipe of a room: for which step, with its lead, and what it is measured after."""

    item: str
    recipe: str
    step: str
    lead: str
    made_after: str = ""


BEFORE: Final = ("hazard-hold", "protection", "dust-barrier", "services-safe")
ROUGH: Final = ("rough-plumbing", "rough-electrical", "rough-inspection")
FIXTURES: Final = ("vanity", "taps", "toilet", "sealant-fixtures", "electrical-finish", "mirrors", "bars", "baseboard")
LAST: Final = ("caulk", "touch-up", "final-inspection", "hand-over")
SHOWER, ALCOVE = "wet walls: 7 m2, shower floor: 1.1 m2", "wet walls: 5 m2"
"""Areas of a shower of 1.2 m by 0.9 m, tiled 2.2 m high, and round a tub of 1.5 m; common practice, no source."""

TILED: Final = ("wall-tile", "grout-walls", "sealant-planes", "shower-trim")
TILED_SHOWER: Final = ("shower-mosaic", "grout-floor", *TILED, "glass-screen")
TILED_FLOOR: Final = ("floor-tile-large", "grout-floor")
GROUTED: Final = frozenset({"grout-walls", "grout-floor"})
"""Where both are grouted, the one recipe for both stands for them."""

WET: Final = {
    "shower": BuildUp(
        "tiled shower on a sloped bed, liquid membrane, flood tested, glass made to measure",
        ("backer", "shower-bed", "wetroom-membrane", *TILED_SHOWER),
        "the most common new shower",
        SHOWER,
    ),
    "sheet": BuildUp(
        "the same on a bonded sheet membrane",
        ("backer", "shower-bed", "sheet-membrane", *TILED_SHOWER),
        areas=SHOWER,
    ),
    "curbless": BuildUp(
        "shower without a curb, the whole floor waterproof",
        ("curbless-recess", "backer", "shower-bed", "curbless-membrane", *TILED_SHOWER),
        areas=SHOWER,
    ),
    "tub": BuildUp("tub with tiled walls", ("tub-set", "backer", "wall-membrane", *TILED), areas=ALCOVE),
    "surround": BuildUp("tub with a surround in panels", ("tub-set", "tub-surround", "shower-trim"), areas=ALCOVE),
    "none": BuildUp("neither tub nor shower", ()),
}
FLOOR: Final = {
    "tile": BuildUp("tile on underlay", ("floor-underlay", *TILED_FLOOR), "as most bathrooms have"),
    "heated": BuildUp(
        "tile on a heating mat",
        ("floor-underlay", "heat-box", "heat-mat", *TILED_FLOOR, "heat-start"),
    ),
    "vinyl": BuildUp("vinyl plank on leveled floor", ("self-levelling", "vinyl-plank")),
    "wood": BuildUp("engineered wood on leveled floor", ("self-levelling", "engineered-wood")),
}
WALLS: Final = {
    "paint": BuildUp("drywall, taped and painted", ("board", "joint-compound", "paint"), "the driest and cheapest"),
    "skim": BuildUp("drywall with a plaster skim, painted", ("board", "plaster-skim", "paint")),
    "paper": BuildUp("drywall with wallpaper", ("board", "joint-compound", "paint-ceiling", "wallpaper")),
}
PAINT: Final = {
    "before": BuildUp("painted before the tile is set", (), "nothing to mask, and tile hides the edge"),
    "after": BuildUp("painted after the tile is grouted", ()),
    "free": BuildUp("whichever is sooner", ()),
}
LAYERS: Final = {"wet": WET, "floor": FLOOR, "walls": WALLS, "paint": PAINT}
"""Layers of a room, each a flag."""

ASKS: Final = {
    "wet": "What is the wet area of the {room}",
    "floor": "What is the floor of the {room}",
    "walls": "What are the other walls of the {room}",
    "paint": "When is the {room} painted",
}
"""How each layer is asked for."""

HELPERS: Final = "helpers"
"""Who does what takes two, where nobody helps all through."""

PEOPLE: Final = {
    "plumber": Usual("notice: 5 working days, cushion: half a day", "a week's notice, common practice"),
    "electrician": Usual("notice: 5 working days, cushion: half a day", "a week's notice, common practice"),
    "inspector": Usual("hours: 09:00-15:00, hour known: no, ask by: 15:00 the day before", "ask the office"),
    HELPERS: Usual("hands: 2", "who carry in what one alone cannot"),
    "glazier": Usual("hands: 2, notice: 5 working days", "a week's notice, common practice"),
}
ORDERS: Final = (
    Ordered("wall tile", "wall-tile", "wall-tile", "10 working days"),
    Ordered("floor tile", "floor-tile-large", "floor-tile-large", "10 working days"),
    Ordered("vanity", "vanity", "vanity", "20 working days"),
    Ordered("glass", "glass-screen", "glass-screen fit", "10 working days", "glass-screen measure"),
)
"""What is ordered, with usual leads; common practice, no source."""


def recipes_of(room: RoomWish) -> tuple[str, ...]:
    """The recipes of a room, about in the order of the work, each once."""
    chosen = {layer: build_ups[room.build_ups[layer]] for layer, build_ups in LAYERS.items()}
    layers = (*chosen["wet"].recipes, *chosen["walls"].recipes, *chosen["floor"].recipes)
    both = set(layers) >= GROUTED
    layers = tuple("grout" if both and name in GROUTED else name for name in layers)
    names = (*BEFORE, "strip-out", *ROUGH, *layers, *FIXTURES, *LAST)
    return tuple(dict.fromkeys(names))


def areas_of(room: RoomWish) -> str:
    """The areas a room's wet area brings, as the file writes them; empty if it has none."""
    return WET[room.build_ups["wet"]].areas


def asks(room: RoomWish, recipe: str) -> str:
    """The job's own order for a recipe, as the file writes it; empty if it has none."""
    names = recipes_of(room)
    if recipe != "paint" or "wall-tile" not in names:
        return ""
    grout = next(name for name in names if name in ("grout", "grout-walls"))
    return {"before": "before: wall-tile", "after": f"after: {grout}", "free": ""}[room.build_ups["paint"]]
