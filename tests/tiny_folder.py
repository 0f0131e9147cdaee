"""A folder of files for one bathroom with its own recipes, small enough to be worked out by hand."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from sequencer.plan import Plan, Ready
from sequencer.planning import plan_for

TODAY = date(2026, 3, 2)
"""A Monday, and the day the job starts."""

JOB = """format: 1
job: tiny
place: {{zone: UTC}}
start: Mon 2 March 2026
air:{air}
rooms:
  bath:
    size: 2 m by 2 m, 2.5 m high
{room}    recipes:
      bed:
{uses}{more}"""

BED = """format: 1
recipe: bed
title: A bed of mortar
works on: {on}
sources: {{c: "common practice, no source"}}
steps:
  frame: {{hours: 4 h (c), works on: []}}
  lay:
    hours: 2 h (c)
    ready for: {{finish: "{wait} (c)"}}
    keep off: until ready for finish
{lay}  finish: {{hours: 1 h (c)}}
"""


def folder(
    tmp_path: Path,
    air: str,
    *,
    wait: str = "after 24 h, cement law",
    on: str = "[floor]",
    lay: str = "",
    room: str = "",
    uses: str = "",
    more: str = "",
    files: dict[str, str] | None = None,
) -> Path:
    """The job's folder. `air`: what stands behind `air:`, a text or indented lines."""
    (tmp_path / "recipes").mkdir(exist_ok=True)
    (tmp_path / "recipes" / "bed.yaml").write_text(BED.format(wait=wait, on=on, lay=lay), encoding="utf-8")
    said = JOB.format(air=air if air.startswith("\n") else f" {air}", room=room, uses=uses, more=more)
    (tmp_path / "job.yaml").write_text(said, encoding="utf-8")
    for name, text in (files or {}).items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def planned(*said: object, **more: object) -> Plan:
    """The plan of such a folder, from the day it starts."""
    return plan_for(folder(*said, **more), TODAY)  # type: ignore[arg-type]


def of_lay(plan: Plan) -> Ready:
    """The wait of the mortar."""
    return plan.step("bath/bed/lay").ready[0]
