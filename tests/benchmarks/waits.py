"""How long air and waits take, and which check points hold. By hand: PYTHONPATH=. python tests/benchmarks/waits.py"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter
from zoneinfo import ZoneInfo

import numpy as np

from sequencer.air.hourly import hourly_air
from sequencer.files.epw import read_epw
from sequencer.files.logger_csv import read_logger
from sequencer.terms.air import AirReading, AirSaid
from sequencer.terms.laws import LAW_NAMES
from sequencer.terms.minute import DAY, HOUR, utc
from sequencer.terms.place import Place
from sequencer.terms.wait import Wait
from sequencer.waits.clock import wait_clock
from sequencer.waits.progress import _progress

sys.path.insert(0, str(Path(__file__).parent.parent))
from checkpoints import holds, lines

HERE = Place("benchmark")
WEEKS, WAITS, GRID = 12, 60, 15
START = 24_000_000 // DAY * DAY


def timed(what: str, run: Callable[[], object]) -> None:
    """Print the median of five runs [ms]."""
    spans = []
    for _ in range(5):
        begin = perf_counter()
        run()
        spans.append(1000 * (perf_counter() - begin))
    print(f"{what:60} {median(spans):7.1f} ms")


def said() -> AirSaid:
    """Twelve weeks of a logger with day, night and a slow swing."""
    hours = np.arange(WEEKS * 7 * 24)
    degrees = 15 + 4 * np.sin(hours / 24 * 2 * np.pi) + 3 * np.sin(hours / 700)
    damp = 0.65 - 0.1 * np.sin(hours / 24 * 2 * np.pi)
    figures = zip(hours.tolist(), degrees.tolist(), damp.tolist(), strict=True)
    return AirSaid(readings=tuple(AirReading(START + HOUR * hour, warm, wet, HERE) for hour, warm, wet in figures))


def ready_tables(logged: AirSaid) -> None:
    """Air for twelve weeks, and ready times of sixty waits for a start every quarter of an hour."""
    _progress.cache_clear()
    air = hourly_air(logged, START, START + WEEKS * 7 * DAY)
    starts = np.arange(START, air.end, GRID, dtype=np.int64)
    for number in range(WAITS):
        wait = Wait("next", LAW_NAMES[number % len(LAW_NAMES)], 4.0 + number, HERE, "", floor_hours=2.0)
        wait_clock(wait, air).ready(starts)


def check_points() -> None:
    """Print how many points of the table hold, by how far their source was seen."""
    points: dict[str, dict[str, list[bool]]] = {}
    for line in lines():
        points.setdefault(line.status, {}).setdefault(line.id, []).append(holds(line))
    for status, by_id in points.items():
        met = sum(all(each) for each in by_id.values())
        print(f"check points, {status:45} {met:3} of {len(by_id):2}")


def main() -> None:
    check_points()
    logged = said()
    timed(f"{WAITS} waits, {WEEKS} weeks, a start every {GRID} min", lambda: ready_tables(logged))
    with tempfile.TemporaryDirectory() as folder:
        year = Path(folder) / "logger.csv"
        rows = (
            f"{utc(START + HOUR * hour):%Y-%m-%d %H:%M},{10 + hour % 24 / 2},{60 + hour % 24}" for hour in range(8760)
        )
        year.write_text("\n".join(["time,temperature C,humidity %", *rows]) + "\n", encoding="utf-8")
        timed("a logger's year", lambda: read_logger(year, "logger.csv", ZoneInfo("America/Halifax")))
        weather = Path(folder) / "typical.epw"
        head = ["LOCATION,Harbour Town,NS,CAN,made up,0,44.6,-63.6,-4.0,145.0", *("HEAD" for _ in range(7))]
        days = (utc(HOUR * hour) for hour in range(8760))
        hours = (f"1970,{at.month},{at.day},{at.hour + 1},0,?9,{at.month}.5,3.0,{50 + at.hour},101000" for at in days)
        weather.write_text("\n".join([*head, *(line + ",0" * 25 for line in hours)]) + "\n", encoding="utf-8")
        timed("a weather file", lambda: read_epw(weather, "typical.epw"))


if __name__ == "__main__":
    main()
