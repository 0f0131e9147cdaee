"""Many cautions become few lines, and none of what they ask is lost."""

from __future__ import annotations

from sequencer.files import read_recipe_library
from sequencer.views.cautions import gathered


def test_a_danger_stands_once_with_all_it_asks() -> None:
    said = ["Silica, cut wet; cement burns", "Weight, two people", "Silica, mix outdoors; cement burns"]
    assert gathered(said) == ["Silica: cut wet; cement burns; mix outdoors", "Weight: two people"]


def test_a_sentence_with_commas_stays_a_sentence() -> None:
    said = "Say in writing from when there may be water, steam and weight"
    assert gathered([said]) == [said]


def test_nothing_that_shipped_recipes_ask_is_lost() -> None:
    cautions = [caution for recipe in read_recipe_library().values() for caution in recipe.cautions]
    text = "\n".join(gathered(cautions))
    for caution in cautions:
        for clause in caution.partition(", ")[2].split("; "):
            assert clause in text
