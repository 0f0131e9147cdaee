"""Weather files of a typical year."""

from __future__ import annotations

from pathlib import Path

import pytest

from sequencer.files.epw import read_epw
from sequencer.terms.place import Faulty

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
HEAD = ["LOCATION,Harbour Town,NS,CAN,made up,000000,44.6,-63.6,-4.0,145.0", *(f"HEAD {n}" for n in range(7))]


def hour_lines(leap: bool = False) -> list[str]:
    """A made-up year: dry bulb counts the days in tenths, humidity counts the hours of the day."""
    lines, day_of_year = [], 0
    for month, days in enumerate(DAYS, 1):
        for day in range(1, days + 1 + (leap and month == 2)):
            for hour in range(1, 25):
                dry_bulb = -55.0 if (month, day) == (2, 29) else day_of_year / 10
                lines.append(f"1999,{month},{day},{hour},0,?9?9,{dry_bulb:.1f},3.0,{49 + hour},101000,0,0")
            day_of_year += (month, day) != (2, 29)
    return lines


def written(tmp_path: Path, lines: list[str]) -> Path:
    path = tmp_path / "harbour.epw"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def faults(tmp_path: Path, lines: list[str]) -> list[str]:
    with pytest.raises(Faulty) as caught:
        read_epw(written(tmp_path, lines), "harbour.epw")
    return [str(fault) for fault in caught.value.faults]


def test_a_year_of_hours_is_read_with_its_zone_and_altitude(tmp_path: Path) -> None:
    typical, altitude = read_epw(written(tmp_path, [*HEAD, *hour_lines()]), "harbour.epw")
    assert (typical.offset, altitude) == (-240, 145.0)
    assert (len(typical.temperature), len(typical.humidity)) == (8760, 8760)
    assert (typical.temperature[24 * 60], typical.humidity[5]) == (6.0, 0.55)


def test_29_february_is_left_out(tmp_path: Path) -> None:
    typical, _ = read_epw(written(tmp_path, [*HEAD, *hour_lines(leap=True)]), "harbour.epw")
    assert len(typical.temperature) == 8760
    assert min(typical.temperature) == 0.0


def test_a_short_gap_takes_the_hour_before_it(tmp_path: Path) -> None:
    lines = hour_lines()
    for hour in range(100, 106):
        lines[hour] = lines[hour].replace(",0.4,3.0,", ",99.9,3.0,")
    typical, _ = read_epw(written(tmp_path, [*HEAD, *lines]), "harbour.epw")
    assert typical.temperature[99:107] == (0.4,) * 8


def test_a_long_gap_a_bad_line_and_a_missing_hour_are_faults_at_their_lines(tmp_path: Path) -> None:
    lines = hour_lines()
    for hour in range(100, 107):
        lines[hour] = lines[hour].replace(",0.4,3.0,", ",99.9,3.0,")
    lines[200] = "1999,1,9,9,0,?9"
    assert faults(tmp_path, [*HEAD, *lines]) == [
        "harbour.epw:115:1: more than 6 hours in a row are missing, or the first one is; "
        "take a whole EPW file of a typical year",
        "harbour.epw:209:1: this is no hour of weather; take a whole EPW file of a typical year",
    ]
    assert faults(tmp_path, [*HEAD, *hour_lines()[:-1]]) == [
        "harbour.epw:1:1: there are 8759 hours of weather, not 8760; take a whole EPW file of a typical year"
    ]


def test_a_file_of_something_else_is_one_fault(tmp_path: Path) -> None:
    assert faults(tmp_path, ["time,temperature", "08:00,17"]) == [
        "harbour.epw:1:1: the first line is not that of a weather file: LOCATION with time zone and elevation; "
        "take a whole EPW file of a typical year"
    ]
    many = faults(tmp_path, [*HEAD, *["nonsense"] * 8760])
    assert len(many) == 20
