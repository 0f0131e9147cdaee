"""Two published timelines of a bathroom, written as files of ours: what the trade did passes, and cannot be beaten.

C1: "How Long Will My Bathroom Remodel Take?", trade article of 11 November 2014 (S46), seen in full, 25 working days.
C2: "Bathroom Remodeling Plan - A Timetable to Aid in Planning", web guide (S04), seen in full, 18 working days.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml

from sequencer.audit import Times, audit
from sequencer.files import read_job
from sequencer.plan import Plan
from sequencer.planning import airs, plan_of
from sequencer.terms.job import Job
from sequencer.terms.minute import HOUR, Span
from sequencer.terms.place import Faulty

DATA = Path(__file__).parent / "data" / "published_timelines.yaml"
CASES: dict[str, dict[str, Any]] = {case["id"]: case for case in yaml.safe_load(DATA.read_text("utf-8"))}
CHECKS = [(case, check) for case in CASES for check in CASES[case]["checks"]]
TODAY = date(2026, 2, 2)

JOB = """format: 1
job: published
place: {{zone: Etc/UTC}}
start: Mon 2 February 2026
people:
  inspector: {{hour known: no}}
{people}
rooms:
  bath:
    recipes:
{recipes}
"""


@dataclass(frozen=True)
class Published:
    """A timeline as files: states for its checks, one of them perhaps left out, and a wish of the job's own."""

    case: dict[str, Any]
    left_out: str = ""
    wish: tuple[str, str] = ("", "")
    extra: str = ""

    def read(self, folder: Path) -> Job:
        (folder / "recipes").mkdir()
        for row in self.case["rows"]:
            (folder / "recipes" / f"{name(row['task'])}.yaml").write_text(self.recipe(row), "utf-8")
        trades = {row["by"] for row in self.case["rows"]} - {"you", "inspector"}
        first, then = self.wish
        uses = [
            f"      {name(row['task'])}:" + (f" {{before: {name(then)}}}" if row["task"] == first else "")
            for row in self.case["rows"]
        ]
        people = "\n".join(f"  {trade}:" for trade in sorted(trades))
        text = JOB.format(people=people, recipes="\n".join(uses)) + self.extra
        (folder / "job.yaml").write_text(text, "utf-8")
        return read_job(folder, TODAY)

    def recipe(self, row: dict[str, Any]) -> str:
        checks = {check: rows for check, rows in self.case["checks"].items() if check != self.left_out}
        gives = [check for check, rows in checks.items() if row["task"] in rows["before"]]
        needs = [check for check, rows in checks.items() if row["task"] in rows["after"]]
        held = ", hold: what will be covered" if row["by"] == "inspector" else ""
        return (
            f"format: 1\nrecipe: {name(row['task'])}\ntitle: {row['task']}\nsources: {{p: published}}\nneeds: {needs}\n"
            f"gives: {gives}\nsteps:\n  do: {{hours: {8 * days(row):g} h (p), by: {row['by']}{held}}}\n"
        )


def name(task: str) -> str:
    return task.lower().replace(" ", "-")


def days(row: dict[str, Any]) -> float:
    """How many days a row takes."""
    return float(row["days"]) if "days" in row else float(row["last"] - row["first"] + 1)


def step_id(task: str) -> str:
    return f"bath/{name(task)}/do"


def as_published(case: dict[str, Any], job: Job) -> Times:
    """The rows at their published days: those said, or else one after the other; a day is 08:00 to 16:00."""
    working = [start for start, _ in job.working_days]
    pieces: dict[str, tuple[Span, ...]] = {}
    at = 0.0
    for row in case["rows"]:
        first = float(row["first"] - 1) if "first" in row else at
        at = first + days(row)
        halves = [half / 2 for half in range(round(2 * first), round(2 * at))]
        spans = [working[int(half)] + 8 * HOUR + round(half % 1 * 8 * HOUR) for half in halves]
        pieces[step_id(row["task"])] = joined([(start, start + 4 * HOUR) for start in spans])
    return Times(pieces, max(spans[-1][1] for spans in pieces.values()))


def joined(spans: list[Span]) -> tuple[Span, ...]:
    """Spans that touch, as one."""
    found: list[Span] = []
    for start, end in spans:
        if found and found[-1][1] == start:
            found[-1] = (found[-1][0], end)
        else:
            found.append((start, end))
    return tuple(found)


def working_days(job: Job, finish: int) -> int:
    """How many working days of the place have begun by then."""
    return sum(start < finish for start, _ in job.working_days)


def holds(case: dict[str, Any], check: str, plan: Plan) -> bool:
    rows = case["checks"][check]
    done = max(plan.step(step_id(task)).end for task in rows["before"])
    return done <= min(plan.step(step_id(task)).start for task in rows["after"])


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_the_published_order_entered_as_times_passes_the_audit(case: dict[str, Any], tmp_path: Path) -> None:
    job = Published(case).read(tmp_path)
    times = as_published(case, job)
    assert working_days(job, times.hand_over) == case["total_days"]
    assert audit(job, airs(job), times) == ()


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_our_plan_is_not_longer_and_keeps_every_check(case: dict[str, Any], tmp_path: Path) -> None:
    job = Published(case).read(tmp_path)
    plan = plan_of(job, effort=0.02)
    assert plan.proven
    assert working_days(job, plan.finish) <= case["total_days"]
    assert [check for check in case["checks"] if not holds(case, check, plan)] == []


@pytest.mark.parametrize(("case", "check"), CHECKS)
def test_a_wish_against_a_check_is_a_fault_with_its_rule_and_breaks_it_without(
    case: str, check: str, tmp_path: Path
) -> None:
    rows = CASES[case]["checks"][check]
    wish = (rows["after"][0], rows["before"][0])
    (tmp_path / "with").mkdir()
    (tmp_path / "without").mkdir()
    with pytest.raises(Faulty, match="circle"):
        Published(CASES[case], wish=wish).read(tmp_path / "with")
    plan = plan_of(Published(CASES[case], left_out=check, wish=wish).read(tmp_path / "without"), effort=0)
    assert not holds(CASES[case], check, plan)
    others = [other for other in CASES[case]["checks"] if other != check]
    assert [other for other in others if not holds(CASES[case], other, plan)] == []


def test_a_stone_top_fitted_two_days_after_it_was_ordered_is_found(tmp_path: Path) -> None:
    """C1 orders the top in days 17 to 19 and fits it on day 21; elsewhere it takes 5 to 14 days (S86)."""
    top = (
        "orders:\n  top: {for: vanity-top-fitted, made after: vanity-cabinets-and-trim-paint, lead: 5 working days}\n"
    )
    job = Published(CASES["C1"], extra=top).read(tmp_path)
    fitted = step_id("vanity top fitted")
    assert audit(job, airs(job), as_published(CASES["C1"], job)) == (f"{fitted} starts before top is on site",)
    plan = plan_of(job, effort=0)
    measured = plan.step(step_id("vanity cabinets and trim paint")).end
    assert working_days(job, plan.step(fitted).start) - working_days(job, measured) >= 6
