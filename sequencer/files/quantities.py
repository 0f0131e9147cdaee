"""Quantities with their units, metric and US. A parser takes a text, of a file or a command line, or raises Wrong."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from sequencer.files.tree import cut
from sequencer.files.wrong import Wrong

NUMBER = r"[0-9]{1,6} [0-9]{1,4}/[0-9]{1,4}|[0-9]{1,6}/[0-9]{1,4}|[0-9]{1,9}(?:\.[0-9]{1,9})?|\.[0-9]{1,9}"

TIME_UNITS = {
    **dict.fromkeys(("min", "minute", "minutes"), 1.0),
    **dict.fromkeys(("h", "hour", "hours"), 60.0),
    **dict.fromkeys(("d", "day", "days"), 1440.0),
    **dict.fromkeys(("week", "weeks"), 10080.0),
}
"""[min]"""

LENGTH_UNITS = {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": 0.3048, "in": 0.0254}
"""[m]. International foot and inch, exact by definition (1959)."""

AREA_UNITS = {"m2": 1.0, "ft2": 0.3048 * 0.3048}
"""[m2]"""

MASS_UNITS = {"kg": 1.0, "g": 0.001, "lb": 0.45359237}
"""[kg]. International pound, exact by definition (1959)."""

VOLUME_UNITS = {"l": 1.0, "litres": 1.0, "liters": 1.0, "pints": 0.473176473}
"""[l]. US pint, exact by definition."""

FLOW_UNITS = {"m3/h": 1.0, "cfm": 0.3048**3 * 60.0}
"""[m3/h]. Cubic feet a minute."""

WORKDAY_MINUTES = 480
"""A working day of a trade where one is a length of work [min]; half a day is 4 h."""

_remembered = lru_cache(maxsize=1024)
"""Recipes say the same quantities again and again; what is wrong is not remembered, for it has its place."""

_TERM = re.compile(rf"\s*(?P<number>{NUMBER})\s*(?P<unit>[^\W\d_]+[23]?|%)?")
_DECIMAL_COMMA = re.compile(r"([0-9]+),([0-9]+)")
_TIME = ("time", "write 45 min, 4 h or 2 d")
_LENGTH = ("length", "write 2.4 m, 2 mm, 8 ft or 1/16 in")
_AREA = ("area", "write 5.6 m2 or 60 ft2")
_TEMPERATURE = "write 18 C or 65 F"


@_remembered
def parse_number(text: str) -> float:
    """A number: `2`, `2.5`, `1/16`, `1 1/2`."""
    if not re.fullmatch(NUMBER, text):
        comma = re.fullmatch(r"[0-9]+,[0-9]+", text)
        write = f'write "{text.replace(",", ".")}"' if comma else "write a number like 2.5"
        raise Wrong(text, f'"{text}" is no number', write)
    try:
        return float(sum(Fraction(part) for part in text.split()))
    except ZeroDivisionError:
        raise Wrong(text, f'"{text}" divides by nothing', "write a number like 1/16") from None


def parse_count(text: str) -> int:
    """A whole number, one or more."""
    if not re.fullmatch(r"0*[1-9][0-9]{0,5}", text):
        raise Wrong(text, f'"{text}" is no whole number from 1 up', "write a number like 2")
    return int(text)


def _measure(text: str, units: dict[str, float], kind: str, write: str) -> float:
    total, at = 0.0, 0
    if comma := _DECIMAL_COMMA.search(text):
        raise Wrong(text, "a comma stands between digits", f'write "{comma[1]}.{comma[2]}"')
    while True:
        term = _TERM.match(text, at)
        if term is None:
            rest = cut(text, at)
            raise Wrong(rest, f'"{rest}" is no {kind}' if rest else f"a {kind} is missing here", write)
        unit = term["unit"]
        if unit is None:
            raise Wrong(cut(text, at), f'"{cut(text, at)}" has no unit of {kind}', write)
        if unit not in units:
            raise Wrong(cut(text, term.start("unit")), f'"{unit}" is no unit of {kind}', write)
        total += parse_number(cut(text, term.start("number"), term.end("number"))) * units[unit]
        at = term.end()
        if not text[at:].strip():
            return total


@_remembered
def parse_minutes(text: str) -> float:
    """A time by the clock [min]: `45 min`, `4 h`, `1 h 30 min`, `2 d`, `2 weeks`."""
    return _measure(text, TIME_UNITS, *_TIME)


def parse_duration(text: str) -> int:
    """A time by the clock in whole minutes [min]; parts of a minute are rounded."""
    return round(parse_minutes(text))


@_remembered
def parse_length(text: str) -> float:
    """A length [m]: `2.4 m`, `240 cm`, `2 mm`, `8 ft`, `1/16 in`, `5 ft 2 in`."""
    return _measure(text, LENGTH_UNITS, *_LENGTH)


@_remembered
def parse_area(text: str) -> float:
    """An area [m2]: `5.6 m2`, `60 ft2`."""
    return _measure(text, AREA_UNITS, *_AREA)


def _temperature_term(text: str) -> tuple[float, str]:
    term = re.fullmatch(rf"\s*(?P<sign>[-−]?)\s*(?P<number>{NUMBER})\s*(?P<unit>°?\s*[^\W\d_]+)?\s*", text)
    if term is None:
        raise Wrong(text, f'"{text}" is no temperature' if text else "a temperature is missing here", _TEMPERATURE)
    if term["unit"] is None:
        raise Wrong(text, f'"{text}" has no unit of temperature', _TEMPERATURE)
    unit = term["unit"].lstrip("° ")
    if unit not in ("C", "F"):
        raise Wrong(cut(text, term.start("unit")), f'"{term["unit"]}" is no unit of temperature', _TEMPERATURE)
    number = parse_number(cut(text, term.start("number"), term.end("number")))
    return (-number if term["sign"] else number), unit


COLDEST, HOTTEST = -40.0, 60.0
"""No room that is worked in is beyond these [C]: an assumption, no source."""


@_remembered
def parse_temperature(text: str) -> float:
    """A temperature [C]: `18 C`, `65 F`, `-2 C`."""
    number, unit = _temperature_term(text)
    celsius = number if unit == "C" else (number - 32) * 5 / 9
    if not COLDEST <= celsius <= HOTTEST:
        raise Wrong(text, f'"{text}" is no temperature of a room', _TEMPERATURE)
    return celsius


@_remembered
def parse_temperature_difference(text: str) -> float:
    """A difference of temperatures [K]: `3 C`, `5 F`."""
    number, unit = _temperature_term(text)
    return number if unit == "C" else number * 5 / 9


@_remembered
def parse_humidity(text: str) -> float:
    """A relative humidity [0..1]: `65 %`."""
    found = re.fullmatch(rf"\s*({NUMBER})\s*%\s*", text)
    if found is None:
        raise Wrong(text, f'"{text}" is no humidity' if text else "a humidity is missing here", "write 65 %")
    percent = parse_number(cut(text, found.start(1), found.end(1)))
    if percent > 100:
        raise Wrong(text, f'"{text}" is over 100 %', "write 65 %")
    return percent / 100


def parse_working_days(text: str) -> int:
    """A number of working days: `5 working days`."""
    found = re.fullmatch(r"\s*([0-9]{1,4})\s+working\s+days?\s*", text)
    if found is None:
        raise Wrong(text, f'"{text}" is no number of working days', "write 5 working days")
    return int(found[1])


def parse_work_time(text: str) -> int:
    """A length of a trade's own working time [min]: a time, `half a day` (4 h) or `2 working days` (8 h each)."""
    if text.strip() == "half a day":
        return WORKDAY_MINUTES // 2
    if "working" in text:
        return parse_working_days(text) * WORKDAY_MINUTES
    return parse_duration(text)


def length_words(minutes: int) -> str:
    """A length of work: `7 h 30 min`."""
    hours, rest = divmod(minutes, 60)
    return " ".join([f"{hours} h"] * bool(hours or not rest) + [f"{rest} min"] * bool(rest))
