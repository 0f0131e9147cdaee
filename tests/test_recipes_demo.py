"""Sentences on the demo's plan: what comes before what, because of which state, and what is left free."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo_job import DEMO, WEEK_BEFORE, demo, demo_plan, follows

from sequencer.planning import airs, plan_for
from sequencer.terms.minute import DAY, HOUR, Minute

PLACE = -8 * HOUR
"""The demo's clock against UTC until 14 March 2027 [min]."""

MUST = [
    ("before-start/open goods", "strip-out/fixtures out", "ready to start"),
    ("hazard-hold/survey", "strip-out/fixtures out", None),
    ("services-safe/cap water", "strip-out/fixtures out", "water capped"),
    ("services-safe/make safe", "strip-out/fixtures out", "circuits dead"),
    ("dust-barrier/barrier", "strip-out/fixtures out", "dust barrier up"),
    ("strip-out/strip", "strip-out/look", None),
    ("strip-out/look", "subfloor-repair/mend", "stripped"),
    ("strip-out/look", "rough-electrical/cables", "stripped"),
    ("blocking/block", "rough-plumbing/pipes", "blocked"),
    ("shower-rough/bodies", "rough-plumbing/test", "pipes in"),
    ("rough-plumbing/test", "rough-inspection/look", "test on"),
    ("rough-electrical/fan", "rough-inspection/look", "wires in"),
    ("rough-inspection/look", "rough-inspection/test off", None),
    ("rough-inspection/look", "insulation/insulate", "rough passed"),
    ("rough-inspection/look", "board/ceiling", "rough passed"),
    ("rough-inspection/look", "floor-underlay/lay", "rough passed"),
    ("rough-inspection/look", "shower-bed/bed", "rough passed"),
    ("insulation/look", "board/drywall", "insulated"),
    ("insulation/look", "backer/hang", "insulated"),
    ("board/ceiling", "board/drywall", None),
    ("board/ceiling", "joint-compound/tape coat", "boards fixed"),
    ("board/drywall", "joint-compound/tape coat", "boards fixed"),
    ("backer/joints", "wetroom-membrane/coat 1", "boards fixed"),
    ("shower-bed/bed", "wetroom-membrane/coat 1", "fall laid"),
    ("floor-underlay/lay", "floor-tile/set", "floor base"),
    ("wetroom-membrane/fill", "wetroom-membrane/read", None),
    ("wetroom-membrane/read", "wetroom-membrane/drain", None),
    ("wetroom-membrane/drain", "wall-tile long wall/set", "watertight"),
    ("wall-tile end walls/set", "grout/walls", "wall tile set"),
    ("floor-tile/set", "grout/floor", "floor tile set"),
    ("joint-compound/sand", "paint/prime", "joints smooth"),
    ("paint/prime", "paint/coat 1", None),
    ("grout/polish floor", "toilet/set", None),
    ("grout/polish walls", "sealant-planes/seal", "joints dry"),
    ("sealant-planes/seal", "shower-trim/trim", "planes sealed"),
    ("sealant-planes/seal", "vanity/carry in", "planes sealed"),
    ("paint/coat 2", "electrical-finish/fit", "painted"),
    ("vanity/set", "taps/connect", "vanity set"),
    ("wall-tile end walls/set", "glass-screen/measure", None),
    ("glass-screen/measure", "glass-screen/fit", None),
    ("glass-screen/fit", "hand-over/snags", "glass in"),
    ("taps/connect", "final-inspection/look", "taps in"),
    ("final-inspection/look", "hand-over/last look", "final passed"),
]
"""Orders that the trade needs: earlier, later, and the one state between recipes that causes it (None: others)."""

FREE = [
    ("rough-plumbing/pipes", "rough-electrical/cables"),
    ("rough-plumbing/test", "rough-electrical/fan"),
    ("joint-compound/tape coat", "wetroom-membrane/coat 1"),
    ("joint-compound/tape coat", "shower-bed/bed"),
    ("joint-compound/sand", "wetroom-membrane/coat 2"),
    ("board/drywall", "backer/hang"),
    ("insulation/insulate", "shower-bed/bed"),
    ("insulation/insulate", "board/ceiling"),
    ("paint/prime", "wall-tile long wall/set"),
    ("paint/coat 2", "grout/floor"),
    ("grout/walls", "grout/floor"),
    ("vanity/set", "toilet/set"),
    ("electrical-finish/fit", "grout/walls"),
    ("glass-screen/measure", "grout/walls"),
    ("glass-screen/fit", "final-inspection/look"),
]
"""Pairs whose order is nobody's business but the planner's."""


@pytest.mark.parametrize(("earlier", "later", "state"), MUST)
def test_this_comes_before_that(earlier: str, later: str, state: str | None) -> None:
    plan = demo_plan()
    assert plan.step(f"bathroom/{earlier}").end <= plan.step(f"bathroom/{later}").start


@pytest.mark.parametrize(("earlier", "later", "state"), [row for row in MUST if row[2]])
def test_this_comes_before_that_because_of_one_state(earlier: str, later: str, state: str) -> None:
    assert follows(demo(), earlier, later)
    assert not follows(demo(), earlier, later, without=state)


@pytest.mark.parametrize(("one", "other"), FREE)
def test_these_may_come_in_either_order(one: str, other: str) -> None:
    assert not follows(demo(), one, other)
    assert not follows(demo(), other, one)


def test_the_rough_test_stands_until_the_inspector_has_seen_it() -> None:
    plan = demo_plan()
    on, off = plan.step("bathroom/rough-plumbing/test"), plan.step("bathroom/rough-inspection/test off")
    seen = plan.step("bathroom/rough-inspection/look")
    assert on.end < seen.start and seen.end <= off.start


def test_the_flood_stands_a_day_and_until_it_is_read() -> None:
    plan = demo_plan()
    fill, read, drain = (plan.step(f"bathroom/wetroom-membrane/{name}") for name in ("fill", "read", "drain"))
    assert 24 * 60 <= read.start - fill.end <= 72 * 60
    assert read.end <= drain.start


def test_the_haze_is_polished_30_to_60_minutes_after_the_first_wipe_by_the_same_hands() -> None:
    plan = demo_plan()
    for part in ("walls", "floor"):
        wipe, polish = plan.step(f"bathroom/grout/{part}"), plan.step(f"bathroom/grout/polish {part}")
        assert 30 <= polish.start - wipe.end <= 60
        assert polish.trade == wipe.trade


def test_nobody_primes_and_paints_in_one_cool_day() -> None:
    plan = demo_plan()
    coats = [plan.step(f"bathroom/paint/{name}") for name in ("prime", "coat 1", "coat 2")]
    assert len({(coat.start + PLACE) // DAY for coat in coats}) == 3
    hours = [ready.hours for coat in coats[:2] for ready in coat.ready if ready.purpose.startswith("coat")]
    for first, second, wait in zip(coats, coats[1:], hours, strict=False):
        assert second.start - first.end >= wait * 60 - 1


def test_nobody_stands_on_a_floor_that_sets() -> None:
    plan, job = demo_plan(), demo()
    shut = [closed for closed in plan.closed if closed.grade == "keep off" and closed.surface == "floor"]
    assert shut
    for closed in shut:
        for step in plan.steps:
            inside = step.start < closed.end and step.end > closed.start
            own = step.recipe == plan.step(closed.step).recipe
            assert not inside or own or job.step(step.id).stands != "floor", f"{step.id} on {closed.step}"


def test_no_dust_flies_while_a_film_is_wet() -> None:
    plan, job = demo_plan(), demo()
    films = [step for step in job.steps if step.wet_film]
    dusty = [step for step in job.steps if "machine dust" in step.makes or "hand dust" in step.makes]
    assert films and dusty
    for film in films:
        wet = plan.step(film.id)
        until = max([wet.end, *(ready.at for ready in wet.ready if ready.purpose == "dust")])
        for step in dusty:
            dust = plan.step(step.id)
            assert dust.end <= wet.start or dust.start >= until, f"{dust.id} on {film.id}"


def test_the_glass_is_measured_on_finished_tile_and_fitted_ten_working_days_later() -> None:
    plan = demo_plan()
    measure, fit = plan.step("bathroom/glass-screen/measure"), plan.step("bathroom/glass-screen/fit")
    days_between = sum(1 for start, end in demo().working_days if start > measure.end and end <= fit.start)
    assert days_between >= 10


def test_the_demo_is_a_job_of_sixty_to_eighty_steps_for_five_to_nine_weeks() -> None:
    plan = demo_plan()
    assert 60 <= len(plan.steps) <= 80
    assert 5 * 7 <= (plan.finish - plan.start) / (24 * 60) <= 9 * 7


def test_the_demo_hands_over_by_its_promise_and_passes_over_a_holiday() -> None:
    plan = demo_plan()
    assert plan.promise is not None and plan.finish <= plan.promise
    assert any(plan.start < day < plan.finish for day in plan.closed_days)


def test_the_air_of_the_demo_changes_its_dates() -> None:
    plan = demo_plan()
    stretched = [ready for step in plan.steps for ready in step.ready if ready.hours > 1.3 * ready.reference_hours]
    assert len(stretched) >= 10


def test_the_coats_wait_for_the_heater_and_its_two_days() -> None:
    air, plan = airs(demo())["bathroom"], demo_plan()

    def coldest_in_two_days_before(moment: Minute) -> float:
        last = (moment - air.first) // HOUR
        return float(min(air.temperature[last - 48 : last]))

    assert coldest_in_two_days_before(plan.step("bathroom/board/ceiling").end) < 10
    assert coldest_in_two_days_before(plan.step("bathroom/joint-compound/tape coat").start) >= 10


def test_a_warm_dry_room_would_be_ready_more_than_a_day_sooner(tmp_path: Path) -> None:
    for path in DEMO.iterdir():
        text = path.read_text(encoding="utf-8")
        if path.name == "job.yaml":
            text = re.sub(r"^air:\n(?:  .*\n)+", "air: 21 C 50 %\n", text, flags=re.MULTILINE)
        (tmp_path / path.name).write_text(text, encoding="utf-8")
    assert plan_for(tmp_path, WEEK_BEFORE).finish <= demo_plan().finish - DAY
