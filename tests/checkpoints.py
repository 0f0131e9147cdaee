"""What our code makes of every point of tests/data/checkpoints.csv, by its id: one figure a line, in its order."""

from __future__ import annotations

import csv
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

import numpy as np
from waits_air import START, air_of, clock, fahrenheit, hours, steady, wait

from sequencer.air.moist import (
    dew_point,
    humidity_ratio,
    saturation_pressure,
    vapour_pressure,
    vapour_pressure_of_ratio,
)
from sequencer.air.outdoors import OutdoorAir, brought_indoors
from sequencer.air.wood import wood_moisture
from sequencer.terms.strength import strength_at
from sequencer.waits.clock import wait_clock
from sequencer.waits.families.age import GAS_CONSTANT, Arrhenius, ModelCode, NurseSaul
from sequencer.waits.families.ten_degrees import TenDegrees
from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS

DATA = Path(__file__).parent / "data"
DAY = 24.0
HALF = np.array(0.5)


@dataclass(frozen=True)
class Line:
    """One line of a point: ours has to lie within its bounds. `status`: how far its source was seen."""

    id: str
    number: int
    case: str
    least: float
    most: float
    status: str


def lines() -> list[Line]:
    """Every line of the table, in its order."""
    found: list[Line] = []
    for row in csv.DictReader((DATA / "checkpoints.csv").open(encoding="utf-8")):
        number = sum(line.id == row["id"] for line in found)
        found.append(Line(row["id"], number, row["case"], float(row["least"]), float(row["most"]), row["status"]))
    return found


def holds(line: Line) -> bool:
    """True if our figure lies within the line's bounds."""
    return line.least <= CHECKS[line.id]()[line.number] <= line.most


def aged(*stretches: tuple[float, float]) -> float:
    """Age [d] of so many days each at a temperature [C], by the model code."""
    family = ModelCode(constant=13.65, kelvins=4000.0, zero=273.0)
    assert LAWS["model code cement"].family == family
    return sum(days * float(family.drive(np.array(warm), HALF)) for days, warm in stretches)


def arrhenius(energy: float, of: float, *degrees: float) -> tuple[float, ...]:
    """Paces at temperatures [C] relative to another."""
    reference = float(Arrhenius(energy).drive(np.array(of), HALF))
    return tuple(float(Arrhenius(energy).drive(np.array(warm), HALF)) / reference for warm in degrees)


def doubling_energy() -> float:
    """The energy [kJ/mol] whose pace doubles from 10 to 20 C, searched for."""
    return next(energy / 100 for energy in range(3000, 7000) if arrhenius(energy / 100, 10.0, 20.0)[0] >= 2.0)


def curing(strength: str) -> tuple[np.ndarray[tuple[int], np.dtype[np.float64]], ...]:
    """Lower edges [C] and days of a column of the table of curing days."""
    rows = csv.DictReader((DATA / "din_1045_3.csv").open(encoding="utf-8"))
    cells = [(float(row["from_c"]), float(row["days"])) for row in rows if row["strength"] == strength]
    return np.array([warm for warm, _ in cells]), np.array([days for _, days in cells])


def curing_energy(strength: str) -> float:
    """The energy [kJ/mol] a column implies."""
    warm, days = curing(strength)
    return float(np.polyfit(1.0 / (warm + 273.15), np.log(days), 1)[0]) * GAS_CONSTANT


def curing_days(strength: str, law: str, degrees: float) -> tuple[float, float]:
    """Days of a temperature's band: by the table, and by our law, fitted to the column, at the band's lower edge."""
    warm, days = curing(strength)
    shape = 1.0 / rate(law, warm, np.full(len(warm), 0.5))
    fitted = shape * np.exp(np.mean(np.log(days / shape)))
    band = np.flatnonzero(warm <= degrees)[0]
    return float(days[band]), float(fitted[band])


def looked_up() -> tuple[float, ...]:
    """The table's days of three bands, then our law's."""
    asked = (("medium", "cement", 22.0), ("slow", "slow cement", 12.0), ("very slow", "slow cement", 7.0))
    printed, ours = zip(*(curing_days(*one) for one in asked), strict=True)
    return *printed, *ours


def day_and_night() -> float:
    """The mean of all starts [h]."""
    starts = START + np.arange(0, 24 * 60, 15)
    taken = clock("cement", 72, air_of(([18.0] * 12 + [12.0] * 12) * 7)).ready(starts) - starts
    return float(np.mean(taken)) / 60


def coat(degrees_f: float, percent: float) -> float:
    """One coat of joint compound [h]."""
    law = LAWS["joint compound"]
    assert law.typical is not None
    return hours("joint compound", law.typical.hours, steady(fahrenheit(degrees_f), percent / 100))


def wet_bulb() -> tuple[float, float, float]:
    """Ratio [kg/kg], humidity [%], dew point [C] of 40 C, wet bulb 20 C; ratio by ASHRAE's equation 33."""
    dry, wet = 40.0, 20.0
    saturated = humidity_ratio(saturation_pressure(wet))
    ratio = ((2501 - 2.326 * wet) * saturated - 1.006 * (dry - wet)) / (2501 + 1.86 * dry - 4.186 * wet)
    humidity = vapour_pressure_of_ratio(ratio) / saturation_pressure(dry)
    return ratio, 100 * humidity, dew_point(dry, humidity)


def heated(outside: float, percent: float, inside: float) -> float:
    """Humidity [%] of outdoor air above freezing brought to a temperature [C]."""
    air = OutdoorAir(np.array([outside]), np.array([percent / 100]))
    return 100 * float(brought_indoors(air, np.array([inside]))[0])


def magnus(degrees: float) -> float:
    """Saturation pressure over water [kPa] by the Magnus formula."""
    return float(0.6112 * np.exp(17.62 * degrees / (243.12 + degrees)))


def off_magnus() -> float:
    """The largest difference from 0 to 40 C [%]."""
    return max(100 * abs(magnus(t / 2) / saturation_pressure(t / 2) - 1) for t in range(81))


def screed(law: str, deep: float) -> float:
    """Days of a screed in its law's air."""
    entry = LAWS[law]
    assert entry.typical is not None
    return hours(law, entry.typical.hours, steady(entry.temperature, entry.humidity), deep=deep) / DAY


def brewer() -> tuple[float, float]:
    """Brewer's days, and ours over his."""
    days = 0.3 / 0.0068
    typical = LAWS["slab"].typical
    assert typical is not None
    return days, hours("slab", typical.hours, steady(23.0, 0.5), deep=102) / DAY / days


def stages(name: str) -> float:
    """Days of a heated screed's stages, one after the other."""
    rows = csv.DictReader((DATA / "heated_screed.csv").open(encoding="utf-8"))
    spans = [int(row["to_d"]) - int(row["from_d"]) for row in rows if row["screed"] == name]
    first, *later = (wait("fixed", span * DAY) for span in spans if span)
    return wait_clock(replace(first, then=tuple(later)), steady(8.0)).hours(START) / DAY


def front_depth(days: float) -> float:
    """How deep a sealant has cured [mm] that cures 2.83 mm in its first day."""
    first = DAY * (2.4 / 2.83) ** 2
    deep = (step / 100 for step in range(1, 2000))
    return next(mm for mm in deep if hours("sealant", first, steady(23.0), deep=mm) >= days * DAY)


def resin(degrees_f: float) -> float:
    """Hours in the cold of what takes 24 h at 70 F."""
    return hours("epoxy", 24, steady(fahrenheit(degrees_f)), at=fahrenheit(70))


def twice_per_15_f() -> float:
    """Hours at 50 F of what takes 24 h at 70 F, by the trade's other rule."""
    cold, warm = TenDegrees(2 ** (18 / 15)).drive(np.array([fahrenheit(50), fahrenheit(70)]), np.full(2, 0.5))
    return float(24 * warm / cold)


def final_set() -> tuple[float, float, float]:
    """Final set of our epoxy [h]: quick, middling, slow."""
    law = LAWS["epoxy"]
    assert law.typical is not None
    low, high = law.range
    return law.typical.hours * low, law.typical.hours, law.typical.hours * high


def strengths(law: str, *days: float) -> tuple[float, ...]:
    """Shares of the 28-day strength."""
    return tuple(strength_at(law, day * DAY) for day in days)


def wood(*percent: float) -> tuple[float, ...]:
    """Moisture of wood [%] at 21.1 C."""
    return tuple(100 * wood_moisture(21.1, each / 100) for each in percent)


def over_ice(*degrees: float) -> tuple[float, ...]:
    """How much more water holds than ice [%]."""
    return tuple(100 * (magnus(each) / saturation_pressure(each) - 1) for each in degrees)


CHECKS: dict[str, Callable[[], tuple[float, ...]]] = {
    "C01": lambda: (aged((1, 20)),),
    "C02": lambda: (aged((7, 20)),),
    "C03": lambda: (aged((7, 20), (7, 25)),),
    "C04": partial(strengths, "cement", 9, 27, 56, 365),
    "C05": lambda: (*strengths("rapid cement", 28), *strengths("cement", 28), *strengths("slow cement", 28)),
    "C06": lambda: (28 * float(NurseSaul(-11.0).drive(np.array(15.0), HALF)),),
    "C07": lambda: (rate("nurse-saul cement", -3.0, 0.5),),
    "C08": partial(arrhenius, 40.0, 20.0, 0, 5, 10, 15, 25, 30),
    "C09": partial(arrhenius, 5000 * GAS_CONSTANT, 23.0, 5, 10, 20, 30),
    "C10": lambda: tuple(rate("two-branch cement", warm, 0.5) for warm in (0.0, 5.0, 10.0, 15.0, 30.0)),
    "C11": lambda: (doubling_energy(),),
    "C12": lambda: tuple(map(curing_energy, ("rapid", "medium", "slow", "very slow"))),
    "C13": looked_up,
    "C14": lambda: (hours("cement", 24, air_of([10.0] * 12 + [20.0] * 12)),),
    "C15": lambda: (day_and_night(),),
    "C16": lambda: (hours("cement", 4, steady(fahrenheit(90)), at=fahrenheit(80)),),
    "G01": lambda: (coat(70, 98), coat(70, 98)),
    "G02": lambda: (coat(70, 50),),
    "G03": lambda: (coat(60, 50),),
    "G04": lambda: (coat(50, 80),),
    "G05": lambda: (coat(32, 0),),
    "G06": lambda: (coat(70, 70),),
    "G07": lambda: (
        hours("joint compound", 16.9, air_of([fahrenheit(70)] * 10 + [fahrenheit(60)], [0.5] * 10 + [0.7])),
    ),
    "P01": lambda: (1000 * saturation_pressure(25.0),),
    "P02": lambda: tuple(1000 * saturation_pressure(warm) for warm in (5.0, -5.0, -20.0)),
    "P03": lambda: tuple(humidity_ratio(saturation_pressure(warm)) for warm in (5.0, 25.0)),
    "P04": wet_bulb,
    "P05": lambda: (vapour_pressure(25.0, 0.75), humidity_ratio(vapour_pressure(25.0, 0.75), 100.0)),
    "P06": lambda: (dew_point(20.0, 0.5), dew_point(25.0, 0.6), dew_point(23.0, 0.85), dew_point(10.0, 0.8)),
    "P07": lambda: (heated(0.0, 80, 20.0),),
    "P08": lambda: (heated(5.0, 90, 18.0),),
    "P09": lambda: (heated(10.0, 80, 30.0), humidity_ratio(vapour_pressure(10.0, 0.8))),
    "P10": lambda: (off_magnus(),),
    "P11": lambda: over_ice(-5.0, -10.0, -20.0),
    "W01": lambda: wood(30, 45),
    "W02": lambda: wood(50, 65, 80),
    "D01": lambda: (screed("screed", 50), screed("screed", 75)),
    "D02": lambda: (screed("calcium sulfate screed", 75),),
    "D03": brewer,
    "D04": lambda: (1 / rate("slab", 10.0, 0.6), 1 / rate("slab", 30.0, 0.6), 1 / rate("slab", 18.0, 0.8)),
    "H01": lambda: (stages("cement"), stages("calcium sulfate")),
    "F01": lambda: (hours("flood wait", 24, steady(15.0)), hours("flood wait", 24, steady(8.0))),
    "F02": lambda: (60 * hours("fixed", 0.25, steady(2.0)), 60 * hours("fixed", 0.25, steady(30.0))),
    "S01": lambda: (front_depth(7),),
    "S02": lambda: (1 / rate("sealant", 23.0, 0.25),),
    "S03": lambda: (1 / rate("sealant", 10.0, 0.5),),
    "S04": lambda: (hours("sealant", 24, steady(23.0), deep=4.8) / hours("sealant", 24, steady(23.0), deep=2.4),),
    "T01": lambda: (resin(52), resin(50)),
    "T02": lambda: (twice_per_15_f(),),
    "T03": final_set,
}
"""Every point's figures."""
