"""Sentences on the recipes that come with the program: their sources, hours, waits and limits, and their handbook."""

from __future__ import annotations

import re

import pytest
from demo_job import DEMO, ROOT, WEEK_BEFORE, demo, every_step, follows, step_of

from sequencer.files import read_job
from sequencer.terms.job import Job, Step
from sequencer.terms.laws import LAW_NAMES
from sequencer.terms.practice import MILESTONES

TWELVE = {
    "strip-out", "rough-plumbing", "rough-electrical", "rough-inspection", "board", "joint-compound",
    "wetroom-membrane", "wall-tile", "floor-tile", "grout", "paint", "fixtures",
}  # fmt: skip

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
    assert given - needed == {"toilet back", "first shower"} <= set(MILESTONES)
