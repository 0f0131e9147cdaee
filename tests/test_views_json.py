"""The JSON contract, when, the recipe sheets and the outcome of a check."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import datetime
from typing import Any

import pytest
from golden_text import same_as_golden
from plans import B, orchard_row, t, two_rooms

from sequencer.cli.named import steps_meant
from sequencer.files import read_recipe_library
from sequencer.terms.minute import minute_of
from sequencer.terms.place import Fault, Place
from sequencer.terms.recipe import Recipe
from sequencer.views.as_json import faults_as_json, plan_as_json
from sequencer.views.checked import check_as_json, faults_as_text
from sequencer.views.recipe_sheet import list_as_json, recipe_as_json, recipe_list, recipe_sheet
from sequencer.views.when import NAMED, also, steps_named, when, when_as_json

KEYS = {
    "": "version kind job zone as_of promise finish milestones proven goals assumed faults steps closed visits orders "
    "decisions still_to_come cautions warnings against_recipes told under_way",
    "goals": "name value bound proven",
    "steps": "id title kind room recipe step trade surfaces start end pieces work_minutes state ready after waited_for "
    "room_for_a_slip_minutes warnings told",
    "closed": "room surface grade from until why step",
    "visits": "id trade from until steps state call_by told",
    "orders": "id item order_by told_needed told_order_by needed for state",
    "decisions": "id by ask_by needed for state",
    "still_to_come": "step for at",
    "cautions": "step text",
}
"""The contract: these keys, in this order."""

READY = "for at latest law hours reference_hours floor_hours source listeners"
FAULT = Fault(Place("job.yaml", 3, 7), 'no trade is called "plumer"', 'write "plumber"')


def contract() -> dict[str, Any]:
    read: dict[str, Any] = json.loads(plan_as_json(orchard_row()))
    return read


def test_the_json_has_the_keys_of_the_contract_in_their_order() -> None:
    read = contract()
    for name, keys in KEYS.items():
        for one in [read] if not name else read[name]:
            assert " ".join(one) == keys
    for step in read["steps"]:
        for ready in step["ready"]:
            assert " ".join(ready) == READY
        if step["waited_for"]:
            assert " ".join(step["waited_for"]) == "kind id text where"


def test_times_in_json_carry_the_offset_of_their_day() -> None:
    steps = {step["id"]: step for step in contract()["steps"]}
    assert steps[B + "strip-out/fixtures"]["start"] == "2026-03-02T08:00:00-04:00"
    assert steps[B + "board/hang"]["start"] == "2026-03-09T15:00:00-03:00"


def test_times_in_json_are_the_minutes_of_the_plan() -> None:
    read, plan = contract(), orchard_row()
    assert minute_of(datetime.fromisoformat(read["finish"])) == plan.finish
    for told, step in zip(read["steps"], plan.steps, strict=True):
        pieces = [tuple(minute_of(datetime.fromisoformat(time)) for time in piece) for piece in told["pieces"]]
        assert tuple(pieces) == step.pieces


def test_lists_in_json_are_sorted_whatever_order_the_plan_has() -> None:
    plan = orchard_row()
    turned = replace(
        plan, steps=plan.steps[::-1], closed=plan.closed[::-1], visits=plan.visits[::-1], orders=plan.orders[::-1]
    )
    assert plan_as_json(turned) == plan_as_json(plan)


def test_json_says_what_is_not_there_with_null_and_no_faults_with_an_empty_list() -> None:
    read = json.loads(plan_as_json(two_rooms()))
    assert read["promise"] is None
    assert read["faults"] == []
    assert read["proven"] is False
    assert read["steps"][0]["waited_for"] is None


def test_faults_as_json_and_as_text_keep_their_place() -> None:
    (fault,) = json.loads(faults_as_json([FAULT]))["faults"]
    assert fault == {"file": "job.yaml", "line": 3, "column": 7, "what": FAULT.what, "write": FAULT.write}
    assert faults_as_text([FAULT]) == 'job.yaml:3:7: no trade is called "plumer"; write "plumber"\n'
    assert json.loads(check_as_json(None, [FAULT]))["job"] is None


def test_when_is_as_it_was_read() -> None:
    plan = orchard_row()
    same_as_golden("when-membrane.txt", when(plan, steps_named(plan, "membrane")))


@pytest.mark.parametrize(
    ("word", "named"),
    [
        ("membrane", 5),
        ("wetroom-membrane", 5),
        ("grout wall", 2),
        ("Second coat of", 1),
        (B + "paint/coat", 1),
        ("ceiling paint", 2),
        (None, 25),
        ("", 25),
        ("roof", 0),
    ],
)
def test_a_word_names_steps_by_recipe_step_title_or_surface(word: str | None, named: int) -> None:
    assert len(steps_named(orchard_row(), word)) == named


@pytest.mark.parametrize(
    ("word", "meant", "too"),
    [
        ("coat", ["paint/coat"], 4),
        ("tile", ["wall-tile/set", "floor-tile/lay"], 1),
        ("membrane", [f"wetroom-membrane/{name}" for name in ("coat 1", "coat 2", "fill", "read", "drain")], 0),
        ("walls", ["strip-out/walls"], 21),
        ("roof", [], 0),
    ],
)
def test_a_steps_own_name_comes_before_what_only_holds_the_word(word: str, meant: list[str], too: int) -> None:
    steps, others = steps_meant(orchard_row(), word)
    assert [step.id for step in steps] == [B + name for name in meant]
    assert len(others) == too
    told = also(word, others)
    assert told.startswith(f'\n"{word}" stands also in: ') == bool(others)
    assert told.count("bathroom/") == min(too, NAMED)
    assert ("and 15 more" in " ".join(told.split())) == (too == 21)


def test_uk_words_find_what_us_recipes_call_otherwise() -> None:
    plan = replace(orchard_row(), words="UK")
    assert [step.recipe for step in steps_named(plan, "first-fix plumbing")] == []
    titled = replace(plan, steps=(replace(plan.steps[0], title="Drywall up"), *plan.steps[1:]))
    assert [step.title for step in steps_named(titled, "plasterboard")] == ["Drywall up"]


def test_when_says_the_latest_start_that_the_layer_below_allows() -> None:
    plan = orchard_row()
    text = when(plan, [plan.step(B + "grout/polish")])
    assert "no later than: Mon 23 March 12:00, because of Grout in, first wipe" in text


def test_when_asked_for_everything_says_last_when_hand_over_is_and_why_not_sooner() -> None:
    plan = orchard_row()
    last = when(plan, steps_named(plan, None)).split("\n\n")[-1]
    assert last.startswith("Hand-over: Thu 9 April 09:00\n  why not sooner: the joints stand 29 h")
    assert "Hand-over" not in when(plan, steps_named(plan, "membrane"))


def test_when_as_json_tells_the_steps_of_the_contract() -> None:
    plan = orchard_row()
    read = json.loads(when_as_json(plan, steps_named(plan, "membrane")))
    assert [step["step"] for step in read["steps"]] == ["coat 1", "coat 2", "fill", "read", "drain"]
    assert read["steps"][0] == next(step for step in contract()["steps"] if step["step"] == "coat 1")
    assert read["as_of"] == "2026-03-02T00:00:00-04:00"
    assert minute_of(datetime.fromisoformat(read["as_of"])) == t("2 March 00:00")


@pytest.fixture(scope="module")
def shelf() -> dict[str, Recipe]:
    return read_recipe_library(None)


def test_every_recipe_on_the_shelf_is_listed_and_has_a_sheet(shelf: dict[str, Recipe]) -> None:
    listed = recipe_list(shelf)
    assert len(shelf) >= 12
    for name, recipe in shelf.items():
        assert f"\n{name} " in f"\n{listed}"
        sheet = recipe_sheet(recipe)
        assert max(map(len, sheet.splitlines())) <= 80
        flat = " ".join(sheet.split())
        for step in recipe.steps:
            assert f"{step.name}: {step.title}" in flat
            assert len(step.waits) <= flat.count("ready ")
        for words in recipe.sources.values():
            assert words in flat
        for text in recipe.cautions:
            assert text in flat


def test_a_sheet_says_every_number_of_a_wait(shelf: dict[str, Recipe]) -> None:
    flat = " ".join(recipe_sheet(shelf["wetroom-membrane"]).split())
    assert "ready to be covered: after 16 h at 21 C 50 %, water film, no later than 30 days, 0.75 to 4 times" in flat
    assert "air while working: 10 to 32 C, surface 3 C above dew point (c)" in flat
    assert "keep off until drain is done" in flat
    assert "inspected: flood test; nothing that covers it starts before it passes" in flat


def test_recipes_as_json_name_the_places_of_their_numbers(shelf: dict[str, Recipe]) -> None:
    read = json.loads(recipe_as_json(shelf["grout"]))["recipe"]
    assert read["name"] == "grout"
    assert read["steps"][0]["place"].startswith("shipped/grout.yaml:")
    names = [one["name"] for one in json.loads(list_as_json(shelf))["recipes"]]
    assert names == sorted(shelf)
