"""Sentences on the recipes that come with the program, and on the demo that uses all of them."""

from __future__ import annotations

import re
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from sequencer.files import read_job
from sequencer.plan import Plan
from sequencer.planning import airs, plan_for
from sequencer.terms.hearing import hearings
from sequencer.terms.job import Job, Step
from sequencer.terms.laws import LAW_NAMES
from sequencer.terms.minute import DAY, HOUR, Minute
from sequencer.terms.recipe import Recipe, RecipeStep

ROOT = Path(__file__).parent.parent
DEMO = ROOT / "docs" / "demo"
WEEK_BEFORE = date(2027, 1, 25)
"""A week before the demo starts."""

TWELVE = {
    "strip-out", "rough-plumbing", "rough-electrical", "rough-inspection", "board", "joint-compound",
    "wetroom-membrane", "wall-tile", "floor-tile", "grout", "paint", "fixtures",
}  # fmt: skip

MUST = [
    ("strip-out/cap water", "strip-out/fixtures out", None),
    ("strip-out/make safe", "strip-out/fixtures out", None),
    ("strip-out/mend", "rough-plumbing/pipes", "stripped"),
    ("strip-out/mend", "rough-electrical/cables", "stripped"),
    ("rough-plumbing/test", "rough-inspection/look", "test on"),
    ("rough-electrical/fan", "rough-inspection/look", "wires in"),
    ("rough-inspection/look", "rough-inspection/test off", None),
    ("rough-inspection/look", "board/insulate", "rough passed"),
    ("rough-inspection/look", "board/ceiling", "rough passed"),
    ("rough-inspection/look", "board/underlay", "rough passed"),
    ("rough-inspection/look", "board/shower base", "rough passed"),
    ("board/insulate", "board/drywall", None),
    ("board/ceiling", "board/drywall", None),
    ("board/ceiling", "board/backer", None),
    ("board/insulate", "board/backer", None),
    ("board/ceiling", "joint-compound/tape coat", "boards fixed"),
    ("board/drywall", "joint-compound/tape coat", "boards fixed"),
    ("board/backer", "wetroom-membrane/coat 1", "boards fixed"),
    ("board/shower base", "wetroom-membrane/coat 1", "fall laid"),
    ("board/underlay", "floor-tile/floor", "boards fixed"),
    ("wetroom-membrane/fill", "wetroom-membrane/read", None),
    ("wetroom-membrane/read", "wetroom-membrane/drain", None),
    ("wetroom-membrane/drain", "wall-tile long wall/set", "watertight"),
    ("wetroom-membrane/drain", "floor-tile/shower floor", "watertight"),
    ("wall-tile end walls/set", "grout/walls", "wall tile set"),
    ("floor-tile/floor", "grout/floor", "floor tile set"),
    ("joint-compound/sand", "paint/prime", "joints smooth"),
    ("grout/polish floor", "fixtures/vanity", "grouted"),
    ("grout/polish floor", "fixtures/toilet", "grouted"),
    ("paint/coat 2", "fixtures/lights", "painted"),
    ("grout/polish walls", "fixtures/sealant", None),
    ("grout/polish walls", "glass-screen/fit", "joints dry"),
    ("wall-tile end walls/set", "glass-screen/measure", "wall tile set"),
    ("glass-screen/measure", "glass-screen/fit", None),
    ("glass-screen/fit", "fixtures/clean", "glass in"),
    ("fixtures/final", "fixtures/last look", None),
]
"""Orders that the trade needs: earlier, later, and the one state between recipes that causes it (None: one recipe)."""

FREE = [
    ("rough-plumbing/pipes", "rough-electrical/cables"),
    ("rough-plumbing/test", "rough-electrical/fan"),
    ("joint-compound/tape coat", "wetroom-membrane/coat 1"),
    ("joint-compound/sand", "wetroom-membrane/coat 2"),
    ("board/drywall", "board/backer"),
    ("board/insulate", "board/shower base"),
    ("board/insulate", "board/ceiling"),
    ("paint/prime", "wall-tile long wall/set"),
    ("paint/coat 2", "grout/floor"),
    ("wall-tile end walls/set", "floor-tile/floor"),
    ("grout/walls", "grout/floor"),
    ("fixtures/vanity", "wall-tile end walls/set"),
    ("fixtures/vanity", "fixtures/toilet"),
    ("fixtures/lights", "grout/walls"),
    ("glass-screen/measure", "grout/walls"),
    ("glass-screen/fit", "fixtures/final"),
]
"""Pairs whose order is nobody's business but the planner's."""

WAITS = [
    ("rough-plumbing/test", "reading", 0.25, 0.25, "residential plumbing codes as published: 15 min at least"),
    ("joint-compound/tape coat", "second coat", 17, 19, "Drywall Finishing Council chart, middle band"),
    ("joint-compound/third coat", "sand", 17, 19, "Drywall Finishing Council chart, middle band"),
    ("board/backer", "coat", 2, 24, "common practice, no source"),
    ("board/shower base", "coat", 20, 24, "ANSI A108.1B 20 h at 21 C, from memory"),
    ("board/underlay", "foot", 0, 24, "common practice, no source"),
    ("wetroom-membrane/coat 1", "coat 2", 1, 4, "common practice, no source"),
    ("wetroom-membrane/coat 2", "cover", 12, 24, "common practice, no source"),
    ("wetroom-membrane/coat 2", "flood", 24, 24, "ASTM D5957-98(2021) 5.4"),
    ("wetroom-membrane/fill", "read", 24, 72, "ASTM D5957"),
    ("wall-tile/set", "grout", 48, 72, "over a membrane: common practice, no source"),
    ("floor-tile/shower floor", "grout", 48, 72, "over a membrane: common practice, no source"),
    ("floor-tile/floor", "grout", 24, 24, "common practice, no source"),
    ("grout/walls", "polish walls", 0.5, 0.5, "common practice, no source"),
    ("grout/floor", "polish floor", 0.5, 0.5, "common practice, no source"),
    ("grout/polish floor", "foot", 24, 24, "trade article: light foot 24 h"),
    ("grout/polish floor", "load", 72, 72, "US tile specification text: closed 3 d"),
    ("grout/polish walls", "seal", 24, 72, "trade article"),
    ("grout/polish walls", "water", 72, 72, "ANSI A108.10 damp cure, from memory"),
    ("paint/prime", "coat 1", 2, 4, "common practice, no source"),
    ("paint/coat 1", "coat 2", 2, 4, "common practice, no source"),
    ("paint/coat 2", "steam", 48, 72, "several painting articles"),
    ("fixtures/sealant", "water", 24, 48, "common practice, no source"),
]
"""Hours a layer stands in its reference air: the least and most that the source says."""

HOURS = [
    ("strip-out", ["cap water"], 0.5, 3),
    ("strip-out", ["fixtures out", "strip"], 6, 14),
    ("strip-out", ["mend"], 3, 8),
    ("rough-plumbing", ["pipes", "tie in"], 4, 8),
    ("rough-electrical", ["cables"], 3, 6),
    ("rough-electrical", ["fan"], 1, 3),
    ("board", ["ceiling", "drywall"], 3, 5),
    ("board", ["backer"], 3, 5),
    ("board", ["shower base"], 3, 5),
    ("board", ["underlay"], 2, 4),
    ("joint-compound", ["tape coat"], 1, 2),
    ("joint-compound", ["second coat"], 0.75, 1.5),
    ("joint-compound", ["sand"], 1, 2),
    ("wetroom-membrane", ["coat 1"], 1, 2),
    ("wetroom-membrane", ["coat 2"], 0.75, 1.5),
    ("wetroom-membrane", ["fill", "drain"], 0.5, 1),
    ("wall-tile", ["set"], 8, 14),
    ("floor-tile", ["floor"], 3, 7),
    ("grout", ["walls", "polish walls"], 2, 3),
    ("grout", ["floor", "polish floor"], 1, 2),
    ("paint", ["prime", "coat 1"], 2, 3),
    ("fixtures", ["vanity"], 1.5, 3),
    ("fixtures", ["faucets", "toilet"], 2, 4),
    ("fixtures", ["lights"], 2, 4),
    ("fixtures", ["sealant"], 0.75, 1.5),
]
"""Least and most likely hands-on hours in a 1.5 by 2.4 m hall bath: shaped to published day counts, no source."""

HALL_BATH = {"wet walls": 6.5, "dry walls": 10.4, "ceiling": 3.6, "floor": 3.3, "shower floor": 0.9}
"""Areas [m2] of the room those hours are for."""


@cache
def demo() -> Job:
    return read_job(DEMO, WEEK_BEFORE)


@cache
def demo_plan() -> Plan:
    return plan_for(DEMO, WEEK_BEFORE)


def every_step() -> list[tuple[Recipe, RecipeStep]]:
    return [(recipe, step) for recipe in demo().recipes.values() for step in recipe.steps]


def step_of(recipe: str, name: str) -> RecipeStep:
    return next(step for step in demo().recipes[recipe].steps if step.name == name)


def follows(job: Job, earlier: str, later: str, without: str | None = None) -> bool:
    """True if `later` must wait for `earlier`, by links and by states other than `without`."""
    graph: dict[str, set[str]] = {}
    for hearing in hearings(job):
        if hearing.reason != without:
            graph.setdefault(hearing.giver.id, set()).add(hearing.listener.id)
    found: set[str] = set()
    todo = [f"bathroom/{earlier}"]
    while todo:
        new = graph.get(todo.pop(), set()) - found
        found |= new
        todo.extend(new)
    return f"bathroom/{later}" in found


def test_the_demo_uses_the_twelve_recipes_of_one_bathroom() -> None:
    assert {step.recipe for step in demo().steps} >= TWELVE


def test_every_shipped_recipe_is_used_by_the_demo() -> None:
    shipped = {path.stem for path in (ROOT / "recipes").glob("*.yaml")}
    assert shipped == {step.recipe for step in demo().steps}


def test_every_file_is_named_after_its_recipe() -> None:
    for path in (ROOT / "recipes").glob("*.yaml"):
        assert f"\nrecipe: {path.stem}\n" in path.read_text(encoding="utf-8")


def test_all_hands_on_hours_name_their_source() -> None:
    assert {step.name for _, step in every_step() if not step.hours.source.strip()} == set()


def test_all_waits_and_limits_name_their_source() -> None:
    for recipe, step in every_step():
        sources = [wait.source for wait in step.waits] + [limit.source for limit in step.air]
        assert all(source.strip() for source in sources), f"{recipe.name}, {step.name}"


def test_every_source_says_what_kind_it_is() -> None:
    kinds = re.compile(r"no source|from memory|ASTM|ANSI|IPC|ISO|DIN|code|specification")
    for recipe in demo().recipes.values():
        for words in recipe.sources.values():
            assert kinds.search(words), f"{recipe.name}: {words}"


def test_no_source_is_named_in_vain() -> None:
    for path in (ROOT / "recipes").glob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        sources = re.search(r"^sources:\n((?:  .*\n)+)", text, re.MULTILINE)
        assert sources, path.name
        for letter in re.findall(r"^  (\w+):", sources[1], re.MULTILINE):
            assert f"({letter})\n" in text, f"{path.name}: ({letter})"


def test_every_law_is_one_the_program_knows() -> None:
    assert {wait.law for _, step in every_step() for wait in step.waits} <= set(LAW_NAMES)


def test_every_recipe_says_what_can_hurt() -> None:
    for recipe in demo().recipes.values():
        assert recipe.cautions, recipe.name


@pytest.mark.parametrize("word", ["Silica", "Asbestos", "Structure"])
def test_strip_out_warns_of(word: str) -> None:
    assert any(word in caution for caution in demo().recipes["strip-out"].cautions)


def test_power_is_made_safe_by_an_electrician_before_anything_comes_out() -> None:
    safe = demo().step("bathroom/strip-out/make safe")
    assert safe.trade == "electrician" and any("proves dead" in caution for caution in safe.cautions)


@pytest.mark.parametrize(("step", "purpose", "least", "most", "source"), WAITS)
def test_a_layer_stands_as_long_as_its_source_says(
    step: str, purpose: str, least: float, most: float, source: str
) -> None:
    recipe, _, name = step.partition("/")
    wait = next(wait for wait in step_of(recipe, name).waits if wait.purpose == purpose)
    assert least <= wait.hours <= most, source


@pytest.mark.parametrize(("recipe", "names", "least", "likely"), HOURS)
def test_hands_on_hours_fit_the_room_they_are_told_for(
    recipe: str, names: list[str], least: float, likely: float
) -> None:
    steps = [step_of(recipe, name) for name in names]
    hours = sum(step.hours.minutes(sum(HALL_BATH[one] for one in step.surfaces)) for step in steps) / 60
    assert least <= hours <= 1.15 * likely


def test_compound_asks_for_10_c_two_days_before_and_until_it_is_dry() -> None:
    """ASTM C840 section 4.1: 10 C for 48 h before, then until completely dry; at most 35 C; 4 C to hang board."""
    coat = step_of("joint-compound", "tape coat")
    assert {(limit.coldest, limit.hours_before) for limit in coat.air} >= {(10, 48)}
    assert any(limit.hottest == 35 for limit in coat.air)
    for name in ("tape coat", "second coat", "third coat"):
        (wait,) = step_of("joint-compound", name).waits
        assert [(limit.kind, limit.coldest) for limit in wait.limits] == [("spoils", 10)]
    assert [limit.coldest for limit in step_of("board", "drywall").air] == [4]


@pytest.mark.parametrize("name", ["prime", "coat 1", "coat 2"])
def test_paint_goes_on_above_10_c_and_3_c_above_dew_point_at_85_percent_at_most(name: str) -> None:
    """ISO 8502-4 practice and a municipal specification (seen, secondary)."""
    (limit,) = step_of("paint", name).air
    assert (limit.coldest, limit.dampest, limit.above_dew_point) == (10, 0.85, 3)


def test_no_step_is_left_to_a_trade_nobody_knows() -> None:
    assert {step.trade for step in demo().steps} == {"you", "plumber", "electrician", "inspector", "glazier"}


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
            assert not inside or own or standing(job, step.id) != "floor", f"{step.id} on {closed.step}"


def standing(job: Job, id: str) -> str:
    return job.step(id).stands


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


def test_the_demo_is_a_job_of_forty_to_sixty_steps_for_five_to_nine_weeks() -> None:
    plan = demo_plan()
    assert 40 <= len(plan.steps) <= 60
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


@pytest.fixture(scope="module")
def taught(tmp_path_factory: pytest.TempPathFactory) -> Job:
    """The demo with the recipe that docs/recipes.md teaches."""
    page = (ROOT / "docs" / "recipes.md").read_text(encoding="utf-8")
    recipe = next(block for block in re.findall(r"```yaml\n(.*?)```", page, re.DOTALL) if block.startswith("format: 1"))
    folder = tmp_path_factory.mktemp("taught")
    for path in DEMO.iterdir():
        text = path.read_text(encoding="utf-8").replace("      board:\n", "      board:\n      level-floor:\n")
        (folder / path.name).write_text(text, encoding="utf-8")
    (folder / "recipes").mkdir()
    (folder / "recipes" / "level-floor.yaml").write_text(recipe, encoding="utf-8")
    return read_job(folder, WEEK_BEFORE)


def test_the_recipe_taught_in_the_handbook_takes_its_place_by_its_states_alone(taught: Job) -> None:
    assert follows(taught, "board/underlay", "level-floor/prime")
    assert follows(taught, "level-floor/pour", "floor-tile/floor")
    assert not follows(taught, "level-floor/pour", "floor-tile/shower floor")


def test_the_handbook_explains_every_state_that_recipes_give() -> None:
    page = (ROOT / "docs" / "recipes.md").read_text(encoding="utf-8")
    given = {given.state for _, step in every_step() for given in step.gives}
    assert {state for state in given if f"`{state}`" not in page} == set()


def test_every_state_needed_is_given_and_every_state_given_is_needed() -> None:
    steps: tuple[Step, ...] = demo().steps
    needed = {need.word for step in steps for need in (*step.needs, *step.follows)}
    given = {given.state for step in steps for given in step.gives}
    assert needed - given == {"floor level"}
    assert given <= needed
