"""A recipe's other ways: `use` in a room changes what the way changes, and nothing else."""

from __future__ import annotations

from pathlib import Path

from tiny_folder import TODAY, folder

from sequencer.files import read_job, read_recipe_library
from sequencer.terms.arranged import Choice
from sequencer.terms.job import Job
from sequencer.views.recipe_sheet import recipe_sheet

WAYS = """ways:
  rapid:
    title: Rapid-setting mortar
    costs: 60 more (c)
    change:
      lay: {hours: 3 h (c), ready for: {finish: "after 3 h, rapid cement law (c)"}}
  stiff:
    title: Mortar of less water
    change: {finish: {hours: 30 min (c)}}
"""


def job_of(tmp_path: Path, use: str) -> Job:
    made = folder(tmp_path, "20 C 50 %", uses=use)
    bed = made / "recipes" / "bed.yaml"
    bed.write_text(bed.read_text(encoding="utf-8") + WAYS, encoding="utf-8")
    job = made / "job.yaml"
    job.write_text(job.read_text(encoding="utf-8").replace("bed:\n", "bed: ", 1), encoding="utf-8")
    return read_job(made, TODAY)


def choice(tmp_path: Path, use: str) -> Choice:
    return job_of(tmp_path, use).choices[0]


def test_the_usual_way_is_done_where_none_is_named(tmp_path: Path) -> None:
    job = job_of(tmp_path, "\n")
    assert [(step.minutes, [wait.hours for wait in step.waits]) for step in job.steps] == [
        (240, []), (120, [24.0]), (60, []),
    ]  # fmt: skip
    assert job.choices[0].used is None


def test_a_way_that_is_named_changes_its_steps_alone(tmp_path: Path) -> None:
    job = job_of(tmp_path, "{use: rapid}\n")
    lay = job.step("bath/bed/lay")
    assert (lay.minutes, lay.waits[0].hours, lay.waits[0].law) == (180, 3.0, "rapid cement")
    assert lay.closing is not None
    assert [job.step(f"bath/bed/{name}").minutes for name in ("frame", "finish")] == [240, 60]


def test_a_change_of_the_job_wins_over_the_way(tmp_path: Path) -> None:
    lay = job_of(tmp_path, "{use: rapid, change: {lay: {hours: 1 h}}}\n").step("bath/bed/lay")
    assert (lay.minutes, lay.waits[0].hours) == (60, 3.0)


def test_the_job_offers_every_way_as_its_own_change_leaves_it(tmp_path: Path) -> None:
    offered = choice(tmp_path, "{change: {lay: {hands: 1, hours: 1 h}}}\n")
    rapid, stiff = offered.ways
    assert [(step.name, step.hours.fixed, step.waits[0].hours) for step in rapid.steps] == [("lay", 60.0, 3.0)]
    assert [(step.name, step.hours.fixed) for step in stiff.steps] == [("finish", 30.0)]
    assert str(offered.key) == "job.yaml:10:7"


def test_what_a_way_costs_is_said_by_the_recipe_and_better_by_the_job(tmp_path: Path) -> None:
    def costs(use: str) -> list[tuple[float, str] | None]:
        return [(way.costs.more, way.costs.source) if way.costs else None for way in choice(tmp_path, use).ways]

    assert costs("\n") == [(60.0, "common practice, no source"), None]
    assert costs("{use: rapid, costs: 85 more (the merchant)}\n") == [(85.0, "the merchant"), None]
    assert costs("{costs: {stiff: 4.5 less}}\n") == [(60.0, "common practice, no source"), (-4.5, "this job")]


def test_a_recipe_done_another_way_is_a_recipe_like_any_other(tmp_path: Path) -> None:
    job = job_of(tmp_path, "\n")
    assert [step.hours.fixed for step in job.recipes["bed"].done("rapid").steps] == [240.0, 180.0, 60.0]
    assert [step.hours.fixed for step in job.recipes["bed"].steps] == [240.0, 120.0, 60.0]


def test_the_sheet_of_a_recipe_says_what_its_other_ways_change(tmp_path: Path) -> None:
    job_of(tmp_path, "\n")
    sheet = recipe_sheet(read_recipe_library(tmp_path)["bed"], 200)
    assert sheet.count("ANOTHER WAY") == 2
    assert (
        "\nANOTHER WAY: rapid: Rapid-setting mortar, costs 60 more (common practice, no source)\n"
        "  lay: you, 3 h of work (c)\n"
        "  lay: ready for finish: after 3 h, rapid cement (c)\n\n"
    ) in sheet
