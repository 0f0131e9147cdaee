"""The fixed words of the files that no other floor needs."""

from __future__ import annotations

from sequencer.terms.recipe import Stand, Toilet

SERVICES = ("house water", "house drain", "house power")

STANDS: dict[str, Stand] = {
    "on the floor": "floor",
    "on a plank": "plank",
    "at the door": "door",
    "elsewhere": "elsewhere",
}

MANNERS = ("in one go", "wet film")

TOILET: dict[str, Toilet] = {"off": "off", "off for the day": "off for the day", "back": "back"}
"""What a step does to the toilet; the bare `off` may take the nights without."""
