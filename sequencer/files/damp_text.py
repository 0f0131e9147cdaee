"""Water in a layer, and what takes it out of a room, in words."""

from __future__ import annotations

import re

from sequencer.files.quantities import AREA_UNITS, FLOW_UNITS, MASS_UNITS, NUMBER, VOLUME_UNITS, parse_number
from sequencer.files.sources import Sources
from sequencer.files.wrong import Wrong
from sequencer.terms.place import Place
from sequencer.terms.recipe import Water

_HOURS_A_DAY = 24.0
_WATER = re.compile(
    rf"(?P<number>{NUMBER})\s*(?P<mass>[a-z]+)\s*(?:/\s*(?P<area>[a-z]+2))?\s+until\s+ready\s+for\s+(?P<purpose>.+)"
)
_CHANGES = re.compile(rf"(?P<number>{NUMBER})\s+(?:per|an)\s+hour")
_FLOW = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>m3/h|cfm)")
_DRYER = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>[a-z]+)\s+(?:per|a)\s+day")


def parse_water(text: str, place: Place, sources: Sources) -> Water:
    """`1.2 kg/m2 until ready for paint (c)`. Raises Wrong."""
    text, source = sources.split(text)
    found = _WATER.fullmatch(text.strip())
    units = found is not None and found["mass"] in MASS_UNITS and (found["area"] or "m2") in AREA_UNITS
    if found is None or not units:
        raise Wrong(text, f'"{text}" is no water of a layer', "write 1.2 kg/m2 until ready for paint")
    mass = parse_number(found["number"]) * MASS_UNITS[found["mass"]]
    if found["area"] is None:
        return Water(mass, 0.0, found["purpose"], source, place)
    return Water(0.0, mass / AREA_UNITS[found["area"]], found["purpose"], source, place)


def parse_air_changes(text: str) -> float:
    """`0.5 per hour` [1/h]. Raises Wrong."""
    found = _CHANGES.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no number of air changes', "write 0.5 per hour")
    return parse_number(found["number"])


def parse_flow(text: str) -> float:
    """`60 m3/h`, `35 cfm` [m3/h]. Raises Wrong."""
    found = _FLOW.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no flow of air', "write 60 m3/h or 35 cfm")
    return parse_number(found["number"]) * FLOW_UNITS[found["unit"]]


def parse_dryer(text: str) -> float:
    """`10 litres a day`, `20 pints a day` [kg/h]. Raises Wrong."""
    found = _DRYER.fullmatch(text)
    if found is None or found["unit"] not in VOLUME_UNITS:
        raise Wrong(text, f'"{text}" does not say what is taken out of the air', "write 10 litres a day")
    return parse_number(found["number"]) * VOLUME_UNITS[found["unit"]] / _HOURS_A_DAY
