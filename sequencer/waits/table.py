"""The table of laws: every constant of every law, once, with its source."""

from __future__ import annotations

from sequencer.waits.families.age import Arrhenius, ModelCode, NurseSaul, TwoBranch
from sequencer.waits.families.by_the_clock import Fixed, SlowerBelow
from sequencer.waits.families.depth import Power, SlowerBeyond
from sequencer.waits.families.drying import VapourDeficit
from sequencer.waits.families.front import MoistureFront
from sequencer.waits.families.ten_degrees import TenDegrees
from sequencer.waits.law import Law, Typical

ANY_HUMIDITY = (0.0, 1.0)
ANY_TEMPERATURE = (-40.0, 60.0)

_TABLE = (
    Law(
        name="fixed",
        family=Fixed(),
        temperature=20.0,
        humidity=0.5,
        warm=ANY_TEMPERATURE,
        damp=ANY_HUMIDITY,
        scatter=0.0,
        spread="none",
        source="by definition",
        checked="EN 1264-4 day counts (seen, secondary): 21 + 3 + 4 + 14 + 3 = 45 d, 7 + 3 + 4 + 14 + 3 = 31 d",
    ),
    Law(
        name="cement",
        family=Arrhenius(energy=40.0, still_below=5.0),
        temperature=20.0,
        humidity=0.5,
        warm=(5.0, 40.0),
        damp=ANY_HUMIDITY,
        scatter=0.15,
        spread="energy Normal(40, 6) within 28 to 60 kJ/mol",
        source=(
            "Arrhenius form: ASTM C1074 (seen); 40 kJ/mol: NIST hydration model default (seen); "
            "nothing below 5 C: DIN 1045-3, note to the curing table (seen)"
        ),
        checked=(
            "DIN 1045-3 curing days, rapid and medium (seen): they imply 39.0 kJ/mol; "
            "days off by 44 % at worst (less than a day, on a table of whole days), 19 % in the mean"
        ),
    ),
    Law(
        name="rapid cement",
        family=Arrhenius(energy=35.0, still_below=5.0),
        temperature=20.0,
        humidity=0.5,
        warm=(5.0, 35.0),
        damp=ANY_HUMIDITY,
        scatter=0.2,
        spread="energy Normal(35, 8) kJ/mol",
        source="35 kJ/mol: engineering judgement; nothing below 5 C: DIN 1045-3 (seen)",
        checked=(
            "DIN 1045-3 curing days, rapid (seen): they imply 39.0 kJ/mol, inside the spread; "
            "days off by 45 % at worst, 20 % in the mean"
        ),
    ),
    Law(
        name="slow cement",
        family=Arrhenius(energy=56.0, still_below=5.0),
        temperature=20.0,
        humidity=0.5,
        warm=(5.0, 35.0),
        damp=ANY_HUMIDITY,
        scatter=0.15,
        spread="energy Normal(55, 6) kJ/mol",
        source="56 kJ/mol: regression of DIN 1045-3, slow and very slow (seen); nothing below 5 C: DIN 1045-3 (seen)",
        checked=(
            "DIN 1045-3 curing days, slow and very slow (seen): they imply 56.6 and 56.9 kJ/mol; "
            "days off by 23 % at worst, 7 % in the mean"
        ),
    ),
    Law(
        name="nurse-saul cement",
        family=NurseSaul(datum=0.0),
        temperature=20.0,
        humidity=0.5,
        warm=(0.0, 40.0),
        damp=ANY_HUMIDITY,
        scatter=0.15,
        spread="none on the constants",
        source="ASTM C1074, datum 0 C for Type I (seen, secondary); elsewhere -10 and -11 C are used (seen, secondary)",
        checked="28 d at 15 C on a datum of -11 C: 728 degree-days (seen, secondary)",
    ),
    Law(
        name="two-branch cement",
        family=TwoBranch(energy=33.5, slope=1.47, knee=20.0),
        temperature=20.0,
        humidity=0.5,
        warm=(-10.0, 80.0),
        damp=ANY_HUMIDITY,
        scatter=0.15,
        spread="none on the constants",
        source="two-branch activation energy, published 1977 (form seen; numbers from memory)",
        checked="nothing outside; regression values of the formula",
    ),
    Law(
        name="model code cement",
        family=ModelCode(constant=13.65, kelvins=4000.0, zero=273.0),
        temperature=20.0,
        humidity=0.5,
        warm=(0.0, 80.0),
        damp=ANY_HUMIDITY,
        scatter=0.15,
        spread="none on the constants",
        source="EN 1992-1-1 (B.10), fib Model Code 2010 (seen, as printed with the fib open code library)",
        checked="1 d at 20 C: 0.99812 d; 7 d at 20 C, 7 d at 25 C: 15.7723 d (seen)",
    ),
    Law(
        name="epoxy",
        family=TenDegrees(2.0),
        temperature=21.0,
        humidity=0.5,
        warm=(16.0, 32.0),
        damp=ANY_HUMIDITY,
        scatter=0.15,
        spread="factor Triangular(1.7, 2.0, 2.6)",
        source="factor 2: common practice, no source; at least 16 C: UFGS-09330 (seen)",
        checked=(
            "twice as long per 18 F below 70 F: 24 h at 70 F are 48 h at 52 F (common practice); "
            "final set of 9 to 16 h, ANSI A118.8 (seen)"
        ),
        typical=Typical(hours=12.0, what="final set of a modified epoxy emulsion mortar"),
    ),
    Law(
        name="setting compound",
        family=TenDegrees(1.5),
        temperature=21.0,
        humidity=0.5,
        warm=(10.0, 32.0),
        damp=ANY_HUMIDITY,
        scatter=0.15,
        spread="factor Triangular(1.2, 1.5, 2)",
        source="factor 1.5: assumption, no source",
        checked="nothing outside",
    ),
    Law(
        name="joint compound",
        family=VapourDeficit(warmth=1.0, dryness=0.895),
        temperature=21.1,
        humidity=0.5,
        warm=(0.0, 38.0),
        damp=(0.0, 0.98),
        scatter=0.12,
        spread="exponent of (1 - RH) Normal(0.90, 0.03)",
        source=(
            "exponent and 22.82 h kPa for one coat: fit to 78 cells of the handbook drying table, from memory; "
            "time with depth: assumption"
        ),
        checked=(
            "70 F, 98 %: 12 d (seen, secondary); Drywall Finishing Council bands (seen); "
            "the table itself (from memory, soft)"
        ),
        depth=Power(reference=1.6, exponent=1.0),
        typical=Typical(hours=16.9, what="one coat of 1/16 in"),
    ),
    Law(
        name="paint",
        family=VapourDeficit(warmth=0.7, dryness=0.7),
        temperature=25.0,
        humidity=0.5,
        warm=(10.0, 35.0),
        damp=(0.0, 0.85),
        scatter=0.2,
        spread="exponent Uniform(0.3, 1.0)",
        source=(
            "reference 77 F, 50 %: trade text (seen, secondary); exponent: engineering judgement, softened because "
            "drying turns nearly independent of humidity (Phys. Rev. Lett. 131, 248102; seen, secondary); "
            "time with depth to the 1.5: assumption; wet film of 0.1 mm: common practice, no source"
        ),
        checked="nothing outside but the reference",
        depth=Power(reference=0.1, exponent=1.5),
    ),
    Law(
        name="water film",
        family=VapourDeficit(warmth=0.9, dryness=0.9),
        temperature=21.0,
        humidity=0.5,
        warm=(10.0, 32.0),
        damp=(0.0, 0.85),
        scatter=0.25,
        spread="exponent Uniform(0.6, 1.1)",
        source=(
            "engineering judgement between paint and joint compound; time with depth to the 1.5: assumption; "
            "wet coat of 0.5 mm: common practice, no source"
        ),
        checked="nothing outside",
        depth=Power(reference=0.5, exponent=1.5),
    ),
    Law(
        name="sealant",
        family=MoistureFront(exponent=1.0),
        temperature=23.0,
        humidity=0.5,
        warm=(5.0, 35.0),
        damp=(0.2, 0.8),
        scatter=0.22,
        spread="depth after a day Uniform(2.0, 2.9) mm; exponent Normal(1.0, 0.15)",
        source=(
            "Int. J. Adhesion & Adhesives 18, 1998 (abstract seen; formula from memory); "
            "reference air: ISO 24068-2 (seen)"
        ),
        checked="7.5 mm after 7 d for 2.83 mm in the first day (Int. J. Adhesion & Adhesives 2021, seen, secondary)",
        depth=Power(reference=2.4, exponent=2.0),
        typical=Typical(hours=24.0, what="2.4 mm of a middling one-part sealant"),
    ),
    Law(
        name="screed",
        family=VapourDeficit(warmth=0.5, dryness=0.5),
        temperature=20.0,
        humidity=0.65,
        warm=(10.0, 30.0),
        damp=(0.35, 0.8),
        scatter=0.25,
        spread="exponent Uniform(0.3, 0.7)",
        source=(
            "1 d/mm to 50 mm, more beyond: British code rule quoted in trade text (seen, secondary); "
            "exponent: half, as a slab's"
        ),
        checked="50 mm: 50 d; 75 mm: within 75 to 100 d (seen, secondary)",
        depth=SlowerBeyond(reference=50.0, knee=50.0, days=1.0, days_beyond=2.0),
        typical=Typical(hours=1200.0, what="a cement screed of 50 mm"),
    ),
    Law(
        name="calcium sulfate screed",
        family=VapourDeficit(warmth=0.5, dryness=0.5),
        temperature=20.0,
        humidity=0.65,
        warm=(10.0, 30.0),
        damp=(0.35, 0.8),
        scatter=0.25,
        spread="exponent Uniform(0.3, 0.7)",
        source="1 d/mm to 40 mm, 2 d/mm beyond, 20 C, 65 %: trade text (seen, secondary); exponent: half, as a slab's",
        checked="40 mm: 40 d; 75 mm: 110 d (seen, secondary)",
        depth=SlowerBeyond(reference=40.0, knee=40.0, days=1.0, days_beyond=2.0),
        typical=Typical(hours=960.0, what="a calcium sulfate screed of 40 mm"),
    ),
    Law(
        name="slab",
        family=VapourDeficit(warmth=0.54, dryness=0.32),
        temperature=18.0,
        humidity=0.6,
        warm=(10.0, 30.0),
        damp=(0.35, 0.8),
        scatter=0.3,
        spread="none on the constants",
        source=(
            "exponents: fit to a Swedish drying table of 1997, from memory; "
            "a month an inch: common practice (seen, secondary)"
        ),
        checked=(
            "the Swedish table (from memory, soft); a cement association's drying test of 1965 (seen), "
            "4 in slab to an emission limit at 23 C, 50 %: 44 d; a month an inch is twice that"
        ),
        depth=Power(reference=25.4, exponent=1.0),
        typical=Typical(hours=672.0, what="an inch of concrete drying to one side"),
    ),
    Law(
        name="flood wait",
        family=SlowerBelow(edge=10.0, pace=0.5),
        temperature=20.0,
        humidity=0.5,
        warm=ANY_TEMPERATURE,
        damp=ANY_HUMIDITY,
        scatter=0.0,
        spread="none",
        source="ASTM D5957-98(2021) 5.4 (seen): not before 24 h, 48 h where it is below 10 C (50 F)",
        checked="24 h at 15 C, 48 h at 8 C (seen)",
    ),
    Law(
        name="wet surface",
        family=VapourDeficit(warmth=1.0, dryness=1.0),
        temperature=21.0,
        humidity=0.5,
        warm=(5.0, 40.0),
        damp=(0.0, 1.0),
        scatter=0.25,
        spread="how the air moves, which counts more than its state",
        source="Dalton's law, evaporation in proportion to the vapour-pressure deficit (form from memory)",
        checked="nothing outside",
    ),
)

LAWS: dict[str, Law] = {law.name: law for law in _TABLE}
"""Every law by its name."""
