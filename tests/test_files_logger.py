"""A logger's file is read in whatever of the usual forms it comes."""

from __future__ import annotations

from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.files.logger_csv import read_logger
from sequencer.terms.air import AirReading
from sequencer.terms.minute import utc
from sequencer.terms.place import Faulty

HALIFAX = ZoneInfo("America/Halifax")


def read(folder: Path, text: str) -> tuple[AirReading, ...]:
    path = folder / "logger.csv"
    path.write_text(text, encoding="utf-8")
    return read_logger(path, "logger.csv", HALIFAX)


@pytest.mark.parametrize(
    "text",
    [
        "time,temperature,humidity\n2026-03-02 08:00,17.5,65\n",
        "time,temperature C,humidity %\n2026-03-02T08:00:00,17.5,65\n",
        "Time;Temperature (°C);Humidity (%)\n2026-03-02 08:00;17,5;65,0\n",
        "\ufeffTimestamp,RH,Temp_F\r\n2026-03-02 08:00,0.65,63.5\r\n",
        "date time,temp F,relative humidity %\n2026-03-02T12:00:00Z,63.5,65\n",
        "no,datetime,temperature,humidity\n1,2026-03-02T07:00:00-05:00,17.5 C,65 %\n",
        "time;temperature;humidity\n02.03.2026 08:00;17,5;65\n",
        "time\ttemperature\thumidity\n2026-03-02 08:00\t17.5\t65\n",
        "Date,Time,Temp (F),RH %\n03/02/2026,8:00 AM,63.5,65\n03/13/2026,8:00 AM,--,n/a\n",
        "Date;Time;Temp;RH\n2/3/26;08:00:00;17,5;65\n13/3/26;08:00:00;NaN;\n",
        "Serial,A17\nPlace,bath\n\ntime,temperature,humidity\n2026/03/02 8:00,63.5 F,65\n",
        "time,temperature,humidity\n2026-03-02 08:00 am,63.5 °F,0.65\n",
    ],
)
def test_a_reading_is_the_same_in_every_form(tmp_path: Path, text: str) -> None:
    reading = read(tmp_path, text)[0]
    assert str(utc(reading.at)) == "2026-03-02 12:00:00+00:00"
    assert (reading.temperature, reading.humidity) == (pytest.approx(17.5), pytest.approx(0.65))


def test_a_logger_may_know_only_one_figure_and_leave_gaps(tmp_path: Path) -> None:
    readings = read(tmp_path, "time,temperature\n2026-03-02 08:00,17\n\n2026-03-02 09:00,\n")
    assert [(reading.temperature, reading.humidity) for reading in readings] == [(17.0, None), (None, None)]
    assert [reading.place.line for reading in readings] == [2, 4]


def test_the_hour_that_comes_twice_is_read_twice(tmp_path: Path) -> None:
    rows = "".join(f"2026-11-01 {hour},10,70\n" for hour in ("00:00", "01:00", "01:00", "02:00"))
    readings = read(tmp_path, f"time,temperature,humidity\n{rows}")
    assert [utc(reading.at).hour for reading in readings] == [3, 4, 5, 6]


def test_readings_come_out_in_order_of_time(tmp_path: Path) -> None:
    readings = read(tmp_path, "time,temperature,humidity\n2026-03-02 09:00,10,70\n2026-03-02 08:00,11,70\n")
    assert [reading.temperature for reading in readings] == [11.0, 10.0]


def test_fahrenheit_that_does_not_say_so_is_told_not_believed(tmp_path: Path) -> None:
    with pytest.raises(Faulty, match="if it is F, say temperature F"):
        read(tmp_path, "time,temperature,humidity\n2026-03-02 08:00,64,70\n")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("2/3/2026 08:00,17,65", '"2/3/2026 08:00" does not tell the day from the month, nor do the other lines'),
        ("2026-03-02,17,65", '"2026-03-02" says no hour'),
        ("2026-02-30 08:00,17,65", '"2026-02-30 08:00" is no time'),
        ("2026-03-02 13:00 pm,17,65", '"2026-03-02 13:00 pm" is no time'),
        ("2026-03-02 08:00,45,65", "45 is no temperature of a room; if it is F, say temperature F in the first line"),
        ("2026-03-02 08:00,17,650", "650 is no humidity"),
        ("2026-03-02 08:00,warm,65", '"warm" is no number'),
    ],
)
def test_a_line_that_may_mean_two_things_or_none_is_told(tmp_path: Path, line: str, told: str) -> None:
    with pytest.raises(Faulty) as faulty:
        read(tmp_path, f"time,temperature,humidity\n{line}\n")
    assert str(faulty.value).startswith(f"logger.csv:2:1: {told}")


@given(st.text("time,;perauhdy0123456789.-: %CF\n\t\"'", max_size=120))
@settings(max_examples=150)
def test_no_text_makes_the_reader_of_loggers_stumble(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    folder = tmp_path_factory.mktemp("logger")
    for head in ("", "time,temperature,humidity\n"):
        try:
            read(folder, head + text)
        except Faulty as faulty:
            assert faulty.faults


def test_decimals_with_a_comma_between_commas_are_never_read_as_two_cells(tmp_path: Path) -> None:
    path = tmp_path / "logger.csv"
    path.write_text("time,temperature C,humidity %\n2027-02-01 08:00,17,5,65,0\n", encoding="utf-8")
    with pytest.raises(Faulty) as told:
        read_logger(path, "logger.csv", ZoneInfo("UTC"))
    assert str(told.value).startswith("logger.csv:2:1: 5 cells stand here, but the first line names 3 columns; ")
