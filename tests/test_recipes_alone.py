"""Every shipped recipe can be planned by itself, once the room has what it needs; every other way of it can be read."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from demo_job import library

from sequencer.files import read_job
from sequencer.planning import plan_of
from sequencer.terms.job import Job, Step
from sequencer.terms.recipe import Recipe, RecipeStep

JOB = """format: 1
job: alone
place: {{zone: UTC}}
start: Mon 6 September 2027
people:
  you: {{hands: 2}}
  plumber:
  electrician:
  glazier: {{hands: 2}}
  fabricator: {{hands: 2}}
  inspector:
  abatement:
  reglazer:
  client:
air: 20 C 50 %
rooms:
  bathroom:
    size: 2.4 m by 1.8 m, 2.4 m high
    areas: {{wet walls: 7 m2, shower floor: 1 m2}}
    fan: 150 m3/h
    already: [{already}]
    recipes:
      {name}: {use}
"""


def alone(recipe: Recipe, folder: Path, use: str = "") -> Job:
    """A room with this recipe alone. Raises Faulty if it cannot be read."""
    needed = dict.fromkeys(need.word for step in recipe.steps for need in step.needs)
    text = JOB.format(already=", ".join(needed), name=recipe.name, use=use)
    (folder / "job.yaml").write_text(text, encoding="utf-8")
    return read_job(folder, date(2027, 9, 1))


@pytest.mark.parametrize("name", library())
def test_a_recipe_is_planned_by_itself(name: str, tmp_path: Path) -> None:
    plan = plan_of(alone(library()[name], tmp_path), effort=0)
    assert len(plan.steps) == len(library()[name].steps)


@pytest.mark.parametrize(
    ("name", "way"), [(name, way.name) for name, recipe in library().items() for way in recipe.ways]
)
def test_another_way_of_it_changes_steps_and_can_be_read(name: str, way: str, tmp_path: Path) -> None:
    job = alone(library()[name], tmp_path, f"{{use: {way}}}")
    usual = {step.name: step for step in library()[name].steps}
    assert any(_ways(step) != _ways(usual[step.name]) for step in job.steps)


def _ways(step: Step | RecipeStep) -> tuple[object, ...]:
    return step.waits, step.hours, step.hands, step.trade, tuple(map(str, step.surfaces))
