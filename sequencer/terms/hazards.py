"""What in a recipe's words means danger, and what a caution against it speaks of. Common practice, no source."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True)
class Hazard:
    """A danger: `signs` in the words of a step, `heeded` by words of a caution; `write`: what a caution says."""

    name: str
    signs: re.Pattern[str]
    heeded: re.Pattern[str]
    write: str


def _words(*words: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(words)})", re.IGNORECASE)


HAZARDS: Final = (
    Hazard(
        "electricity",
        _words("cable", "wir(?:e|ing)", "conduit", "junction box", "outlet", "sconce", "breaker", "energi[sz]e"),
        _words("electric", "licen[sc]ed", "isolat", "prove dead", "power off"),
        "Electricity, a licensed electrician, to the local code",
    ),
    Hazard(
        "silica",
        _words("grind", "saw", "cut (?:the )?tile", "score", "break (?:up|out)", "chisel", "sand(?:ed|ing)?\\b"),
        _words("silica", "dust", "respirator", "extraction"),
        "Silica and dust, cut wet or with extraction, wear a fitted respirator",
    ),
    Hazard(
        "asbestos and lead",
        _words("strip", "tear out", "taken out", "old tile", "old paint", "old floor"),
        _words("asbestos", "lead", "survey"),
        "Asbestos and lead, nothing is broken before the survey says clear; local law decides",
    ),
    Hazard(
        "solvents",
        _words("solvent", "alkyd", "epoxy", "reglaz", "lacquer", "varnish", "primed? with"),
        _words("solvent", "fumes", "air the room", "ventilat", "data sheet"),
        "Solvents and fumes, air the room and keep people out; the data sheet governs",
    ),
    Hazard(
        "structure",
        _words("joist", "stud wall", "wall out", "beam", "notch", "bearing", "subfloor"),
        _words("structur", "joist", "beam", "qualified", "bearing", "code"),
        "Structure, no joist, stud or beam is cut without someone qualified saying so",
    ),
    Hazard(
        "gas and pressure",
        _words("solder", "torch", "press(?:ure)? test"),
        _words("fire", "burn", "licen[sc]ed", "pressure"),
        "Fire and pressure, a licensed plumber, with water or an extinguisher at hand",
    ),
    Hazard(
        "weight",
        _words("glass (?:door|panel|screen)", "stone top", "tub (?:in|set|carried)", "mirror"),
        _words("two people", "lift", "weight", "help", "gloves"),
        "Weight and glass, two people lift, wear gloves",
    ),
)

DANGERS: Final = frozenset(
    ("Asbestos", "Cement", "Dust", "Electricity", "Fibers", "Fire", "Fumes", "Glass", "Lead", "Silica", "Solvents")
    + ("Structure", "Water", "Weight", "Wood")
)
"""First words of cautions that begin with what hurts, before a comma and what to do against it."""
