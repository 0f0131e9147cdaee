"""The one table of words: what a person on site reads, in US and UK forms. No other module compares these."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

SURFACES: Final = ("floor", "shower floor", "wet walls", "dry walls", "ceiling")
FLOOR, SHOWER_FLOOR, WET_WALLS, DRY_WALLS, CEILING = SURFACES
"""The surfaces a recipe may work on, in the order a diary shows them."""

FLOORS: Final = ("floor", "shower floor")
"""Surfaces that people stand on: the room's floor, and inside the shower the shower floor."""

OVER_THE_SHOWER: Final = ("wet walls", "shower floor")
"""Surfaces that are reached from the shower floor."""

FOLDED: Final[dict[str, tuple[str, ...]]] = {"wet area": ("wet walls", "shower floor")}
"""Surfaces that share one column where there is no room for both."""


OWN_TRADE: Final = "you"
"""The trade of whoever keeps the files."""

INSPECTOR: Final = "inspector"
"""The trade of whoever comes from the building office."""

CLIENT: Final = "client"
"""Whose house it is: decides, and says yes where a step waits for it."""


def time_of(trade: str) -> str:
    """plumber's time, your time"""
    return "your time" if trade == OWN_TRADE else f"{trade}'s time"


def on_the_way(trade: str) -> str:
    """plumber is on the way, you are on the way"""
    return f"{trade} {'are' if trade == OWN_TRADE else 'is'} on the way"


@dataclass(frozen=True)
class Mark:
    """What a surface is doing: the sign in the diary, its word there, and what it asks of people."""

    sign: str
    word: str
    asks: str


MARKS: Final[dict[str, Mark]] = {
    "keep off": Mark("x", "sets", "keep off"),
    "leave": Mark(":", "sets", "leave it"),
    "dries": Mark("'", "dries", "only the next layer waits"),
    "water on": Mark("~", "water on", "nobody steps in"),
    "inspector": Mark("?", "inspector", "inspector"),
    "free": Mark(".", "free", "free again"),
}
"""In the order of the legend. A mark never stands for a colour alone."""

HOW_OF_LAW: Final[dict[str, str]] = {
    "joint compound": "dries",
    "paint": "dries",
    "water film": "dries",
    "screed": "dries",
    "calcium sulfate screed": "dries",
    "slab": "dries",
    "wet surface": "dries",
}
"""What a layer does while a law runs; laws that are not named here set."""

ABBREVIATIONS: Final = frozenset(
    ("ABS", "AFCI", "ANSI", "ASTM", "CO", "DIN", "EN", "GFCI", "IPC", "ISO", "LED", "MC", "MDF", "PE", "PEX", "PPE")
    + ("PU", "PVC", "RCD", "RH", "UK", "US", "UV")
)
"""Capitals that every recipe may use: materials, standards, protective devices."""

PROPER: Final = frozenset(("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun", "Monday", "Saturday", "Sunday"))
"""Words that are written with a capital wherever they stand."""

THIN_NAMES: Final = frozenset(
    {*SURFACES, "walls", "set", "fit", "lay", "hang", "fix", "seal", "connect", "cut in", "coat", "box", "run", "bed"}
)
"""Names of steps that say too little in a diary by themselves: there the recipe's name stands instead."""

READY_FOR: Final[dict[str, str]] = {
    "foot": "to be walked on",
    "load": "to carry weight",
    "water": "for water",
    "heat": "for floor heat",
    "steam": "for a hot shower",
    "full heat": "for full floor heat",
    "recheck": "to be looked at again",
    "reseal": "to be sealed again",
    "dust": "for dust in the room",
    "touch": "to be touched",
    "shaking": "for hammering and shaking",
    "draught": "for a draft",
    "cover": "to be covered",
    "next": "for the next step",
    "seal": "to be sealed",
    "grout": "to be grouted",
    "tile": "to be tiled",
    "paint": "to be painted",
}
"""After "ready": what each purpose of a wait means on site."""

REASONS: Final[dict[str, str]] = {
    "material": "a layer has to stand",
    "people": "people",
    "hours": "working hours",
    "inspection": "inspection",
    "delivery": "delivery",
    "house": "the house",
    "start": "the job starts here",
}
"""Kinds of waiting, as the word in front of their sentence."""

TRADE_FORMS: Final[tuple[tuple[str, str], ...]] = (
    ("rough plumbing", "first-fix plumbing"),
    ("rough electrical", "first-fix electrics"),
    ("rough inspection", "first-fix inspection"),
    ("rough-in", "first fix"),
    ("finish plumbing", "second-fix plumbing"),
    ("finish electrical", "second-fix electrics"),
    ("trim-out", "second fix"),
    ("punch list", "snag list"),
    ("change order", "variation"),
    ("joint compound", "jointing compound"),
    ("vapor retarder", "vapour control layer"),
    ("paintable caulk", "decorator's caulk"),
    ("square meter", "square metre"),
    ("floor register", "floor grille"),
    ("tub", "bath"),
    ("washer and dryer", "washing machine and dryer"),
    ("washer box", "washing machine box"),
    ("sconces", "wall lights"),
    ("sconce", "wall light"),
    ("casing", "architrave"),
    ("neighbors", "neighbours"),
    ("leveling", "levelling"),
    ("leveled", "levelled"),
    ("centered", "centred"),
    ("labeled", "labelled"),
    ("troweled", "trowelled"),
    ("energized", "energised"),
    ("sensitizes", "sensitises"),
    ("fibers", "fibres"),
    ("vapor", "vapour"),
    ("mold", "mould"),
    ("drywall", "plasterboard"),
    ("thinset", "tile adhesive"),
    ("exhaust fan", "extractor fan"),
    ("receptacles", "sockets"),
    ("receptacle", "socket"),
    ("outlets", "sockets"),
    ("outlet", "socket"),
    ("faucets", "taps"),
    ("faucet", "tap"),
    ("baseboards", "skirtings"),
    ("baseboard", "skirting"),
    ("caulking", "sealant"),
    ("caulk", "sealant"),
    ("draft", "draught"),
    ("color", "colour"),
    ("gray", "grey"),
)
"""US/Canada form and UK form of words of the trade (common practice, no source). Longer ones stand first."""


def say_ready(purpose: str, words: str = "US") -> str:
    """What a layer is ready for, to follow "ready": "to be walked on"; a step's own name gives "for NAME"."""
    return in_words(READY_FOR.get(purpose, f"for {purpose}"), words)


def how_of(law: str) -> str:
    """What a layer does while a law runs: sets or dries."""
    return HOW_OF_LAW.get(law, "sets")


def in_words(text: str, words: str = "US") -> str:
    """A text of the trade in the job's form of words. Recipes use US forms; a capital in front is kept."""
    return _US.sub(_uk_form, text) if words == "UK" else text


_UK: Final = dict(TRADE_FORMS)
_US: Final = re.compile(rf"\b({'|'.join(map(re.escape, _UK))})\b", re.IGNORECASE)


def _uk_form(found: re.Match[str]) -> str:
    form = _UK[found.group().lower()]
    return form[0].upper() + form[1:] if found.group()[0].isupper() else form
