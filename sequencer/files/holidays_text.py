"""Public holidays of a country and a region, by name: `CA NS`."""

from __future__ import annotations

import re
from datetime import date

from sequencer.files.tree import cut
from sequencer.files.wrong import Wrong

_WRITE = "write CA NS, US NY, GB or none"


def parse_holidays(text: str) -> tuple[str, str | None] | None:
    """A country and a region (`CA NS`), a country (`CA`), or `none`. Raises Wrong if no such holidays are known."""
    if text == "none":
        return None
    found = re.fullmatch(r"(?P<country>[A-Za-z]{2,3})(?:[\s-]+(?P<region>[A-Za-z0-9]{1,6}))?", text)
    if found is None:
        raise Wrong(text, f'"{text}" is no country and region', _WRITE)
    from holidays import country_holidays, list_supported_countries

    country, region = found["country"], found["region"]
    try:
        country_holidays(country, subdiv=region)
    except (NotImplementedError, AttributeError):
        known = list_supported_countries()
        if country not in known:
            raise Wrong(text, f'no holidays are known for the country "{country}"', _WRITE) from None
        at = cut(text, found.start("region")) if region else text
        write = f"write one of {', '.join(known[country])}, or {country} alone"
        raise Wrong(at, f'no holidays are known for "{region}" in {country}', write) from None
    return country, region


def holidays_between(place: tuple[str, str | None] | None, first: date, out: date) -> dict[date, str]:
    """The holidays of a place from `first` to the day before `out`, by name; days in lieu included."""
    if place is None:
        return {}
    from holidays import country_holidays

    country, region = place
    found = country_holidays(country, subdiv=region, years=range(first.year, out.year + 1))
    return {day: name for day, name in sorted(found.items()) if first <= day < out}
