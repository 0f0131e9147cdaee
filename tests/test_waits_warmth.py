"""A warm room can lose time when a window opens and closes while nobody works."""

from __future__ import annotations

import numpy as np
from waits_air import START, clock, steady

from sequencer.terms.minute import DAY, HOUR
from sequencer.waits.warmth import warmth_costs, warmth_words

EVENING = START + 8 * HOUR
"""Work ends at 16:00 of a day whose hours are 08:00 to 16:00."""
EVENINGS = np.array([EVENING])
HOURS = tuple((START + day * DAY, START + day * DAY + 8 * HOUR) for day in range(4))
POLISH = {"within": 3 * HOUR, "of_ready": True}


def test_what_is_ready_and_too_late_in_the_night_is_said_to_be_lost_to_warmth() -> None:
    costs = warmth_costs(clock("cement", 12, steady(22.0), **POLISH), EVENINGS, HOURS)
    assert costs is not None
    assert costs.cooler == 4
    assert costs.start == START + DAY
    assert warmth_words(costs) == (
        "in this air it is ready after 11 h and too late after 14 h, while nobody works; "
        "4 C cooler it is ready after 13 h, when somebody does"
    )


def test_the_cooler_air_named_is_the_least_that_gives_a_start() -> None:
    costs = warmth_costs(clock("cement", 12, steady(22.0), **POLISH), EVENINGS, HOURS)
    assert costs is not None
    for degrees, starts in ((costs.cooler - 1, False), (costs.cooler, True)):
        cooler = clock("cement", 12, steady(22.0 - degrees), **POLISH)
        ready = EVENING + round(HOUR * cooler.hours(EVENING))
        assert any(first <= ready + 3 * HOUR and out > ready for first, out in HOURS[1:]) == starts


def test_a_start_in_working_hours_costs_nothing() -> None:
    assert warmth_costs(clock("cement", 12, steady(16.0), **POLISH), EVENINGS, HOURS) is None


def test_without_a_latest_start_warmth_costs_nothing() -> None:
    assert warmth_costs(clock("cement", 12, steady(22.0)), EVENINGS, HOURS) is None


def test_what_no_cooler_air_mends_is_not_blamed_on_warmth() -> None:
    assert warmth_costs(clock("fixed", 4, steady(22.0), **POLISH), EVENINGS, HOURS) is None
    assert warmth_costs(clock("cement", 12, steady(22.0), within=60, of_ready=True), EVENINGS, HOURS[:1]) is None
