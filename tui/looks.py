"""Colours and weights of the marks. Every state also has a mark and a word: colour is never the only carrier.

Hues after the set of Okabe and Ito (hex from memory), lightened for dark screens and darkened for light ones until they
stand out from the background by 4.5 to 1. Nothing is red, no pair rests on red against green.
"""

from __future__ import annotations

from dataclasses import dataclass

from rich.style import Style
from textual.theme import Theme

DARK_GROUND, LIGHT_GROUND = "#15181B", "#FAFAF7"
DARK_INK, LIGHT_INK = "#E4E4DF", "#1C1F22"


@dataclass(frozen=True)
class Look:
    """How a state is drawn: its colour on a dark and on a light ground, and its weight."""

    dark: str
    light: str
    weight: str = ""


LOOKS: dict[str, Look] = {
    "work": Look("#5AA9E6", "#0072B2", "bold"),
    "keep off": Look("#E69F00", "#8A5A00", "reverse"),
    "leave": Look("#E69F00", "#8A5A00"),
    "dries": Look("#F0E442", "#6E6600"),
    "water on": Look("#56B4E9", "#1B6C98", "bold"),
    "inspector": Look("#CC79A7", "#9A3C72", "bold"),
    "free": Look("#2FC59C", "#00704F"),
    "paused": Look("#8FB8D8", "#33658A"),
    "head": Look(DARK_INK, LIGHT_INK, "bold"),
    "quiet": Look("#A0A39F", "#5F635F"),
    "": Look(DARK_INK, LIGHT_INK),
}

DARK, LIGHT, ANSI = "site-dark", "site-light", "ansi-dark"
NAMES = (DARK, LIGHT, ANSI)
"""In the order in which `T` offers them. The last leaves all colours to the terminal."""

THEMES = (
    Theme(DARK, primary="#5AA9E6", background=DARK_GROUND, surface=DARK_GROUND, foreground=DARK_INK, dark=True),
    Theme(LIGHT, primary="#0072B2", background=LIGHT_GROUND, surface=LIGHT_GROUND, foreground=LIGHT_INK, dark=False),
)


def style_of(look: str, theme: str) -> Style:
    """The style of a look in a theme; in the terminal's own colours only its weight."""
    found = LOOKS[look]
    weight = Style.parse(found.weight) if found.weight else Style()
    if theme == ANSI:
        return weight
    return weight + Style(color=found.light if theme == LIGHT else found.dark)
