"""The fixed words of the files that no other floor needs."""

from __future__ import annotations

from sequencer.terms.recipe import Stand

SERVICES = ("house water", "house drain", "house power")

STANDS: dict[str, Stand] = {
    "on the floor": "floor",
    "on a plank": "plank",
    "at the door": "door",
    "elsewhere": "elsewhere",
}

MANNERS = ("in one go", "wet film")
