"""Sentences on the recipes that come with the program: their sources, hours, waits and limits, and their handbook."""

from __future__ import annotations

import re
from datetime import date

import pytest
from demo_job import ROOT, demo, every_step, library, step_of

from sequencer.answers.remarks import remarks
from sequencer.files import read_job
from sequencer.plan import Plan
from sequencer.planning import plan_of
from sequencer.terms.job import Job
from sequencer.terms.laws import LAW_NAMES
from sequencer.terms.minute import HOUR
from sequencer.terms.practice import AFTERWARDS, MILESTONES
from sequencer.views.recipe_sheet import recipe_sheet

WAITS = [
    ("rough-plumbing/test", "reading", 0.25, 0.25, "residential plumbing codes as published: 15 min at least"),
    ("tub-set/set", "load", 0, 24, "common practice, no source"),
    ("joint-compound/tape coat", "second coat", 17, 19, "Drywall Finishing Council chart, middle band"),
    ("joint-compound/third coat", "sand", 17, 19, "Drywall Finishing Council chart, middle band"),
    ("setting-compound/tape coat", "second coat", 20 / 60, 210 / 60, "classes of 20 to 210 min: common practice"),
    ("backer/joints", "coat", 2, 24, "common practice, no source"),
    ("shower-bed/bed", "coat", 20, 24, "ANSI A108.1B 20 h at 21 C, from memory; trade bulletin 24 h"),
    ("mud-bed/float", "tile", 20, 24, "ANSI A108.1B 20 h at 21 C, from memory; trade bulletin 24 h"),
    ("shower-liner/bed", "tile", 20, 24, "ANSI A108.1B 20 h at 21 C, from memory; trade bulletin 24 h"),
    ("floor-underlay/lay", "foot", 0, 24, "common practice, no source"),
    ("self-levelling/pour", "foot", 2, 4, "common practice, no source"),
    ("self-levelling/pour", "tile", 4, 16, "common practice, no source"),
    ("heat-cable/pour", "tile", 4, 16, "common practice, no source"),
    ("heat-mat/bed", "foot", 12, 24, "common practice, no source"),
    ("heat-start/last reading", "heat", 7 * 24, 28 * 24, "7 to 28 d, common practice, no source"),
    ("wetroom-membrane/coat 1", "coat 2", 1, 4, "common practice, no source"),
    ("wetroom-membrane/coat 2", "cover", 12, 24, "common practice, no source"),
    ("wetroom-membrane/coat 2", "flood", 24, 24, "ASTM D5957-98(2021) 5.4"),
    ("wetroom-membrane/fill", "read", 24, 72, "ASTM D5957"),
    ("curbless-membrane/dam", "read", 24, 72, "ASTM D5957"),
    ("sheet-membrane/press", "flood", 24, 24, "ASTM D5957-98(2021) 5.4"),
    ("shower-liner/fill", "read", 0.25, 72, "IPC 312.9: 15 min at least; ASTM D5957: 24 to 72 h"),
    ("wall-tile/set", "grout", 48, 72, "over a membrane: common practice, no source"),
    ("wall-tile-large/set", "grout", 48, 72, "over a membrane: common practice, no source"),
    ("shower-mosaic/set", "grout", 48, 72, "over a membrane: common practice, no source"),
    ("floor-tile/set", "grout", 24, 24, "common practice, no source"),
    ("floor-tile-large/set", "grout", 48, 72, "over a membrane: common practice, no source"),
    ("grout/walls", "polish walls", 0.5, 0.5, "common practice, no source"),
    ("grout/floor", "polish floor", 0.5, 0.5, "common practice, no source"),
    ("grout/polish floor", "foot", 24, 24, "trade article: light foot 24 h"),
    ("grout/polish floor", "load", 72, 72, "US tile specification text: closed 3 d"),
    ("grout/polish walls", "seal", 24, 72, "trade article"),
    ("grout/polish walls", "water", 72, 72, "ANSI A108.10 damp cure, from memory"),
    ("grout-epoxy/wash floor", "foot", 9, 16, "ANSI A118.8 J-5.3, final set; trade article: 8 to 12 h"),
    ("grout-epoxy/wash floor", "load", 24, 48, "trade article"),
    ("grout-epoxy/wash floor", "water", 0, 7 * 24, "ANSI A118.3, service set within 7 d, from memory"),
    ("paint/prime", "coat 1", 2, 4, "common practice, no source"),
    ("paint/coat 1", "coat 2", 2, 4, "common practice, no source"),
    ("paint/coat 2", "steam", 48, 72, "several painting articles"),
    ("vinyl-plank/bring in", "lay", 48, 48, "common practice, no source"),
    ("engineered-wood/bring in", "lay", 48, 240, "2 to 10 d, wood-flooring texts (seen, secondary)"),
    ("sealant-planes/seal", "water", 24, 48, "common practice, no source"),
]
"""Hours a layer stands in its reference air: the least and most that the source says."""

HOURS = [
    ("before-start", ["choices", "papers", "open goods"], 2, 3),
    ("services-safe", ["cap water"], 0.5, 1),
    ("services-safe", ["make safe"], 0.25, 0.5),
    ("strip-out", ["fixtures out", "strip", "floor up"], 6, 14),
    ("floor-covering-up", ["fixtures out", "floor up"], 2, 4),
    ("rough-plumbing", ["pipes", "tie in"], 4, 8),
    ("tub-set", ["set"], 2, 3),
    ("rough-electrical", ["cables"], 3, 6),
    ("rough-electrical", ["fan"], 1, 3),
    ("insulation", ["insulate", "retarder"], 1, 2),
    ("board", ["ceiling", "drywall"], 3, 5),
    ("backer", ["hang", "joints"], 3, 5),
    ("shower-bed", ["bed"], 3, 5),
    ("floor-underlay", ["lay"], 2, 4),
    ("joint-compound", ["tape coat"], 1, 2),
    ("joint-compound", ["second coat"], 0.75, 1.5),
    ("joint-compound", ["sand"], 1, 2),
    ("wetroom-membrane", ["coat 1"], 1, 2),
    ("wetroom-membrane", ["coat 2"], 0.75, 1.5),
    ("wetroom-membrane", ["fill", "drain"], 0.5, 1),
    ("heat-mat", ["boxed", "lay", "laid"], 3, 5),
    ("heat-mat", ["bed", "covered"], 2, 3),
    ("wall-tile", ["set"], 8, 14),
    ("floor-tile", ["set"], 3, 7),
    ("grout", ["walls", "polish walls"], 2, 3),
    ("grout", ["floor", "polish floor"], 1, 2),
    ("paint", ["prime", "coat 1"], 2, 3),
    ("vanity", ["carry in", "set"], 1.5, 3),
    ("stone-top", ["template"], 1, 1.5),
    ("electrical-finish", ["fit"], 2, 4),
    ("washer-hookup", ["connect"], 1, 2),
]
"""Least and most likely hands-on hours in a 1.5 by 2.4 m hall bath: shaped to published day counts, no source."""

RAPID = [name for name, recipe in library().items() if any(way.name == "rapid" for way in recipe.ways)]
"""Recipes that can be done faster for more money."""

HALL_BATH = {"wet walls": 6.5, "dry walls": 10.4, "ceiling": 3.6, "floor": 3.3, "shower floor": 0.9}
"""Areas [m2] of the room those hours are for."""


def test_the_library_holds_the_usual_build_ups_and_their_alternatives() -> None:
    assert len(library()) >= 100 and len(RAPID) >= 20


def test_every_file_is_named_after_its_recipe() -> None:
    for path in (ROOT / "recipes").glob("*.yaml"):
        assert f"\nrecipe: {path.stem}\n" in path.read_text(encoding="utf-8")


def test_nothing_in_the_library_could_be_better() -> None:
    """No wait without a range, no dangerous step without a caution, nothing that looks like a brand."""
    assert [str(remark) for remark in remarks(library().values(), library().values())] == []


def test_every_recipe_says_what_it_covers_what_can_hurt_and_what_to_write_down() -> None:
    for recipe in library().values():
        assert recipe.covers and recipe.cautions, recipe.name
        assert any(step.record for step in recipe.steps), recipe.name


def test_every_layer_that_stands_half_a_day_says_why() -> None:
    silent = [
        f"{recipe.name}, {step.name}"
        for recipe, step in every_step()
        if any(wait.hours >= 12 for wait in step.waits) and not step.why
    ]
    assert silent == []


def test_every_layer_that_can_be_too_late_by_days_says_what_is_then_done_again() -> None:
    silent = [
        f"{recipe.name}, {step.name}"
        for recipe, step in every_step()
        if any(wait.within_minutes and wait.law != "fixed" for wait in step.waits) and not step.if_too_late
    ]
    assert silent == []


def test_every_test_under_water_names_the_steps_it_repeats_and_is_looked_in_on() -> None:
    for recipe, step in every_step():
        if step.hold and "flood" in step.hold:
            fill = next(one for one in recipe.steps if any(wait.purpose == step.name for wait in one.waits))
            assert step.if_failed and fill.look_in, recipe.name


def test_all_hands_on_hours_have_a_range_and_a_source() -> None:
    for recipe, step in every_step():
        assert step.hours.source.strip(), f"{recipe.name}, {step.name}"
        assert step.hours.low < 1 or step.hours.high > 1, f"{recipe.name}, {step.name}"


def test_all_waits_limits_and_water_name_their_source() -> None:
    for recipe, step in every_step():
        sources = [one.source for one in (*step.waits, *step.air, *([step.water] if step.water else ()))]
        assert all(source.strip() for source in sources), f"{recipe.name}, {step.name}"


def test_every_source_says_how_it_is_known() -> None:
    known = re.compile(r"no source|from memory|\(seen\)|\(seen, secondary\)")
    for recipe in library().values():
        for words in recipe.sources.values():
            assert known.search(words), f"{recipe.name}: {words}"


def test_no_source_is_named_in_vain() -> None:
    for path in (ROOT / "recipes").glob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        sources = re.search(r"^sources:\n((?:  .*\n)+)", text, re.MULTILINE)
        assert sources, path.name
        for letter in re.findall(r"^  (\w+):", sources[1], re.MULTILINE):
            assert re.search(rf"\({letter}\)[\"'}}]*\n", text), f"{path.name}: ({letter})"


def test_every_law_is_one_the_program_knows() -> None:
    assert {wait.law for _, step in every_step() for wait in step.waits} <= set(LAW_NAMES)


@pytest.mark.parametrize("word", ["Silica", "Asbestos", "Structure"])
def test_strip_out_warns_of(word: str) -> None:
    assert any(word in caution for caution in library()["strip-out"].cautions)


def test_power_is_made_safe_by_an_electrician_before_anything_comes_out() -> None:
    safe = step_of("services-safe", "make safe")
    assert safe.trade == "electrician" and any("proves dead" in caution for caution in safe.cautions)
    assert "circuits dead" in {need.word for need in step_of("strip-out", "fixtures out").needs}


@pytest.mark.parametrize("name", ["strip-out", "floor-covering-up", "ceiling-out", "hazard-removal"])
def test_nothing_is_broken_before_the_survey_is_read(name: str) -> None:
    assert "survey read" in {need.word for need in library()[name].steps[0].needs}


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


def test_epoxy_asks_for_16_c() -> None:
    """UFGS-09330 1.4: air and tile at 16 C (60 F) at least."""
    for name in ("walls", "floor"):
        assert [limit.coldest for limit in step_of("grout-epoxy", name).air] == [16]


def test_wood_is_laid_between_16_and_27_c_at_30_to_50_percent() -> None:
    """Wood-flooring association text: 60 to 80 F and 30 to 50 %."""
    (limit,) = step_of("engineered-wood", "lay").air
    assert (limit.coldest, limit.hottest, limit.driest, limit.dampest) == (16, 27, 0.3, 0.5)


@pytest.mark.parametrize("recipe", ["heat-mat", "heat-cable"])
def test_a_heating_cable_is_read_four_times_and_seen_before_it_is_covered(recipe: str) -> None:
    """Readings boxed, laid, covered, tiled: trade articles ask for three at least; NEC 424.46: seen before cover."""
    steps = library()[recipe].steps
    names = [step.name for step in steps]
    assert [step.name for step in steps if step.kind == "measure"] == ["boxed", "laid", "covered", "tiled"]
    assert names.index("laid") < names.index("look") < names.index("covered")
    assert step_of(recipe, "look").hold


@pytest.mark.parametrize("name", RAPID)
def test_a_rapid_way_waits_no_longer_and_says_what_it_costs(name: str) -> None:
    (rapid,) = (way for way in library()[name].ways if way.name == "rapid")
    assert rapid.costs is not None
    for step in rapid.steps:
        usual = {wait.purpose: wait.hours for wait in step_of(name, step.name).waits}
        assert {wait.purpose for wait in step.waits} == set(usual), step.name
        assert all(wait.hours <= usual[wait.purpose] for wait in step.waits), step.name


def test_no_step_of_the_demo_is_left_to_a_trade_nobody_knows() -> None:
    assert {step.trade for step in demo().steps} == {"you", "plumber", "electrician", "inspector", "glazier"}


ROOM = """format: 1
job: powder-room
place: {zone: America/Halifax}
start: Mon 6 September 2027
hand over needs: [foot, load]
people: {plumber: {}}
air: 20 C 50 %
rooms:
  powder-room:
    size: 1.8 m by 1.5 m, 2.4 m high
    already: [stripped, joints smooth]
    recipes:
      floor-patch:
      cork-floor:
      paint:
      toilet:
"""


@pytest.fixture(scope="module")
def taught(tmp_path_factory: pytest.TempPathFactory) -> tuple[Job, Plan]:
    """A room with the recipe that docs/recipes.md teaches, and its plan."""
    page = (ROOT / "docs" / "recipes.md").read_text(encoding="utf-8")
    recipe = next(block for block in re.findall(r"```yaml\n(.*?)```", page, re.DOTALL) if block.startswith("format: 1"))
    folder = tmp_path_factory.mktemp("taught")
    (folder / "job.yaml").write_text(ROOM, encoding="utf-8")
    (folder / "recipes").mkdir()
    (folder / "recipes" / "cork-floor.yaml").write_text(recipe, encoding="utf-8")
    job = read_job(folder, date(2027, 9, 1))
    return job, plan_of(job)


def test_the_recipe_taught_in_the_handbook_could_not_be_better(taught: tuple[Job, Plan]) -> None:
    mine = taught[0].recipes["cork-floor"]
    assert [str(one) for one in remarks([mine], [*library().values(), mine])] == []


def test_the_recipe_taught_in_the_handbook_is_planned_where_its_states_put_it(taught: tuple[Job, Plan]) -> None:
    _, plan = taught
    patch, bring, spread, lay, last, toilet = (
        plan.step(f"powder-room/{name}")
        for name in (
            "floor-patch/patch", "cork-floor/bring in", "cork-floor/spread", "cork-floor/lay", "cork-floor/coat 2",
            "toilet/set",
        )
    )  # fmt: skip
    assert patch.end <= spread.start
    assert lay.start - bring.end >= 72 * HOUR
    assert 45 <= lay.start - spread.end <= 2 * HOUR
    assert toilet.start >= next(ready.at for ready in last.ready if ready.purpose == "load")


def test_the_handbook_explains_every_state_that_recipes_give() -> None:
    page = (ROOT / "docs" / "recipes.md").read_text(encoding="utf-8")
    given = {given.state for _, step in every_step() for given in step.gives}
    assert {state for state in given if f"`{state}`" not in page} == set()


def test_the_handbook_names_every_recipe_that_is_shipped() -> None:
    page = (ROOT / "docs" / "recipes.md").read_text(encoding="utf-8")
    assert {name for name in library() if f"`{name}`" not in page} == set()


def test_every_state_needed_is_given_and_every_state_given_is_needed() -> None:
    needed = {need.word for _, step in every_step() for need in (*step.needs, *step.follows)}
    given = {given.state for _, step in every_step() for given in step.gives}
    assert needed - given == set()
    assert given - needed == {"first shower", "floor heat on", "drain run"} <= {*MILESTONES, "drain run"}


def test_what_comes_after_hand_over_is_looked_at_again_sealed_again_and_heated_up() -> None:
    assert {wait.purpose for _, step in every_step() for wait in step.waits} >= set(AFTERWARDS)


def test_a_sheet_says_that_a_cable_cannot_be_cut_and_how_far_it_keeps_off() -> None:
    assert "cable: cannot be cut; keeps 100 mm off the walls (c)" in recipe_sheet(library()["heat-mat"])
