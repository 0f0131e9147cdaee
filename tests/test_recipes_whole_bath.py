"""Everything a remodeller meets in a bath has its place in one job, each order by a cause that can be named.

The orders are common practice, no source. A cause is a state, a line of a recipe (`line:` the step and its recipe) or
the job's own order (`my order:` the later of the two); `+` stands between two that each suffice.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from whole_bath import FOLDER, comes_before, first_plan, id_of, whole_bath

from sequencer.files import read_job
from sequencer.terms.hearing import given_again, given_wait, takers_of
from sequencer.terms.minute import DAY, HOUR
from sequencer.terms.place import Faulty

ORDERS = [
    # out
    ("before-start/open goods", "strip-out/fixtures out", "ready to start"),
    ("hazard-hold/survey", "strip-out/fixtures out", "survey read"),
    ("services-safe/cap water", "strip-out/fixtures out", "water capped"),
    ("services-safe/make safe", "strip-out/fixtures out", "circuits dead"),
    ("protection/cover", "strip-out/fixtures out", "protected"),
    ("dust-barrier/barrier", "ceiling-out/clear above", "dust barrier up"),
    ("mirror-out/tape", "mirror-out/take down", "line: mirror-out/take down"),
    ("mirror-out/take down", "strip-out/fixtures out", "mirror out"),
    ("door-reused/off", "strip-out/fixtures out", "door off"),
    ("strip-out/fixtures out", "strip-out/strip", "line: strip-out/strip"),
    ("strip-out/strip", "strip-out/floor up", "line: strip-out/floor up"),
    ("strip-out/floor up", "strip-out/look", "line: strip-out/look"),
    ("ceiling-out/clear above", "ceiling-out/take down", "line: ceiling-out/take down"),
    ("ceiling-out/take down", "ceiling-lights/housings", "stripped"),
    # found and made sound
    ("strip-out/look", "found-damage/show", "stripped"),
    ("found-damage/answer", "wall-out/take out", "damage agreed"),
    ("found-damage/answer", "closet-floor/mend", "damage agreed"),
    ("strip-out/look", "closet/frame", "stripped"),
    ("wall-out/frame", "board/drywall", "framed"),
    ("closet/frame", "board/drywall", "framed"),
    ("closet-floor/mend", "uncoupling-mat/bed", "subfloor sound"),
    ("blocking/block", "rough-plumbing/pipes", "blocked"),
    ("niche-framing/width", "backer/hang", "blocked"),
    # the drains of three rooms
    ("subfloor-opening/open", "rough-plumbing/pipes", "stack open"),
    ("subfloor-opening/open", "ensuite/rough-plumbing/tie in", "bathroom: stack open"),
    ("subfloor-opening/open", "laundry/laundry-rough/box", "bathroom: stack open"),
    ("rough-inspection/test off", "subfloor-opening/close", "rough passed"),
    ("ensuite/rough-inspection/test off", "subfloor-opening/close", "ensuite: rough passed"),
    ("laundry/rough-check/look", "subfloor-opening/close", "laundry: rough passed"),
    ("subfloor-opening/close", "uncoupling-mat/bed", "subfloor sound"),
    ("boxed-drain/run", "ensuite/rough-plumbing/tie in", "bathroom: drain run"),
    ("rough-inspection/test off", "boxed-drain/box", "rough passed"),
    ("boxed-drain/box", "board/drywall", "boxed in"),
    # pipes and wires, seen before they are covered
    ("shower-rough/bodies", "rough-plumbing/test", "pipes in"),
    ("tub-set/set", "rough-plumbing/test", "tub set"),
    ("rough-plumbing/test", "rough-inspection/look", "test on"),
    ("rough-electrical/cables", "rough-inspection/look", "wires in"),
    ("rough-electrical/fan", "board/ceiling", "wires in"),
    ("ceiling-lights/housings", "board/ceiling", "wires in"),
    ("heat-box/box", "subfloor-opening/close", "wires in"),
    ("rough-inspection/look", "insulation/insulate", "rough passed"),
    ("rough-inspection/look", "rough-inspection/test off", "line: rough-inspection/test off"),
    ("insulation/look", "board/drywall", "insulated"),
    ("insulation/look", "backer/hang", "insulated"),
    # board, compound, paint
    ("board/ceiling", "backer/hang", "ceiling up"),
    ("board/drywall", "joint-compound/tape coat", "boards fixed"),
    ("joint-compound/tape coat", "joint-compound/second coat", "line: joint-compound/second coat"),
    ("joint-compound/sand", "paint/prime", "joints smooth"),
    ("paint/prime", "paint/coat 1", "line: paint/coat 1"),
    ("paint/coat 2", "wall-tile first wall/set", "my order: wall-tile"),
    # membrane, wall tile, niche
    ("backer/joints", "wall-membrane/coat 1", "boards fixed"),
    ("wall-membrane/coat 1", "wall-membrane/coat 2", "line: wall-membrane/coat 2"),
    ("wall-membrane/coat 2", "edge-profile/set", "membrane dry + watertight"),
    ("edge-profile/set", "wall-tile first wall/set", "edges in"),
    ("wall-tile first wall/set", "niche other walls/height", "my order: niche"),
    ("niche other walls/height", "niche other walls/cut", "line: niche/cut"),
    ("niche other walls/cut", "niche other walls/seal", "line: niche/seal"),
    ("niche other walls/seal", "niche other walls/bottom piece", "line: niche/bottom piece"),
    ("niche other walls/bottom piece", "niche other walls/back and sides", "line: niche/back and sides"),
    ("niche other walls/back and sides", "wall-tile other walls/set", "my order: wall-tile"),
    # floor
    ("uncoupling-mat/bed", "uncoupling-mat/collapse", "line: uncoupling-mat/collapse"),
    ("self-levelling/pour", "uncoupling-mat/bed", "floor level"),
    ("uncoupling-mat/collapse", "heat-cable/lay", "mat bedded"),
    ("heat-box/box", "heat-cable/lay", "heat box in + wires in"),
    ("heat-cable/boxed", "heat-cable/lay", "line: heat-cable/lay"),
    ("heat-cable/laid", "heat-cable/look", "line: heat-cable/look"),
    ("heat-cable/look", "heat-cable/prime", "line: heat-cable/prime"),
    ("heat-cable/covered", "floor-tile-dry-laid/dry lay", "floor base"),
    ("floor-register/frame", "floor-tile-dry-laid/dry lay", "register frame in"),
    ("floor-tile-dry-laid/dry lay", "floor-tile-dry-laid/number and lift", "line: floor-tile-dry-laid/number and lift"),
    ("floor-tile-dry-laid/number and lift", "floor-tile-dry-laid/set", "line: floor-tile-dry-laid/set"),
    ("floor-tile-dry-laid/seal", "heat-cable/tiled", "floor tile set"),
    ("heat-cable/tiled", "grout/floor", "cable read"),
    ("wall-tile other walls/set", "floor-tile-dry-laid/dry lay", "my order: floor-tile-dry-laid"),
    # joints
    ("wall-tile other walls/set", "grout/walls", "wall tile set"),
    ("grout/walls", "grout/polish walls", "line: grout/polish walls"),
    ("grout/polish walls", "grout/floor", "line: grout/floor"),
    ("floor-tile-dry-laid/seal", "grout/floor", "floor tile set"),
    ("grout/floor", "grout/polish floor", "line: grout/polish floor"),
    ("grout/polish floor", "floor-register/grate", "floor done"),
    ("grout/polish walls", "sealant-planes/seal", "joints dry"),
    ("sealant-planes/seal", "vanity/carry in", "planes sealed"),
    ("sealant-planes/seal", "toilet/set", "planes sealed"),
    ("sealant-planes/seal", "shower-trim/trim", "planes sealed"),
    # fixtures, and what is cut in after them
    ("vanity/carry in", "vanity/set", "line: vanity/set"),
    ("vanity/set", "stone-top/template", "vanity set"),
    ("stone-top/template", "stone-top/fit", "line: stone-top/fit"),
    ("stone-top/fit", "splash-joints/stone joints", "top in"),
    ("splash-joints/stone joints", "splash-joints/over splash", "line: splash-joints/over splash"),
    ("splash-joints/over splash", "touch-up/touch up", "caulked"),
    ("vanity/set", "outlets-late/cut in", "vanity set"),
    ("vanity/set", "mirrors/hang", "vanity set"),
    ("mirrors/hang", "sconces/cut in", "mirrors up"),
    ("stone-top/fit", "taps/connect", "top in"),
    ("grout/polish floor", "door-reused/ease", "floor done"),
    ("door-reused/ease", "door-reused/hang again", "line: door-reused/hang again"),
    # tiled base last, caulk above, sealant below
    ("mirrors/hang", "tiled-base/cut", "mirrors up"),
    ("door-reused/hang again", "tiled-base/cut", "doors hung"),
    ("tiled-base/set", "tiled-base/joints", "line: tiled-base/joints"),
    ("tiled-base/joints", "tiled-base/caulk above", "line: tiled-base/caulk above"),
    ("tiled-base/joints", "tiled-base/seal below", "line: tiled-base/seal below"),
    ("tiled-base/caulk above", "touch-up/touch up", "caulked"),
    # the end
    ("electrical-finish/fit", "final-inspection/look", "lights in"),
    ("taps/connect", "final-inspection/look", "taps in"),
    ("final-inspection/look", "hand-over/snags", "final passed"),
    ("touch-up/touch up", "hand-over/snags", "touched up"),
]
"""Earlier, later, and the cause without which the one would not come before the other."""

FREE = [
    ("rough-electrical/cables", "rough-plumbing/pipes"),
    ("rough-electrical/cables", "shower-rough/bodies"),
    ("rough-electrical/fan", "rough-plumbing/test"),
    ("ceiling-out/take down", "strip-out/look"),
    ("wall-out/frame", "closet-floor/mend"),
    ("boxed-drain/box", "insulation/insulate"),
    ("insulation/insulate", "subfloor-opening/close"),
    ("board/drywall", "backer/hang"),
    ("joint-compound/tape coat", "wall-membrane/coat 1"),
    ("ensuite/joint-compound/tape coat", "ensuite/shower-bed/bed"),
    ("ensuite/board/ceiling", "ensuite/shower-bed/bed"),
    ("paint/coat 1", "self-levelling/pour"),
    ("self-levelling/pour", "wall-membrane/coat 1"),
    ("uncoupling-mat/bed", "wall-tile first wall/set"),
    ("electrical-finish/fit", "grout/walls"),
    ("vanity/set", "toilet/set"),
    ("stone-top/template", "shower-trim/trim"),
    ("outlets-late/cut in", "sconces/cut in"),
    ("door-reused/hang again", "vanity/set"),
    ("toilet/set", "tiled-base/set"),
]
"""Pairs whose order is nobody's business but the planner's."""


@pytest.mark.parametrize(("earlier", "later", "cause"), ORDERS)
def test_this_comes_before_that(earlier: str, later: str, cause: str) -> None:
    assert comes_before(earlier, later)
    plan = first_plan()
    assert plan.step(id_of(earlier)).end <= plan.step(id_of(later)).start


@pytest.mark.parametrize(("earlier", "later", "cause"), ORDERS)
def test_without_its_cause_it_would_not(earlier: str, later: str, cause: str) -> None:
    assert not comes_before(earlier, later, without=cause)


@pytest.mark.parametrize(("one", "other"), FREE)
def test_these_may_come_in_either_order(one: str, other: str) -> None:
    assert not comes_before(one, other) and not comes_before(other, one)


def test_every_step_of_the_job_is_in_the_plan_and_hand_over_is_the_last() -> None:
    plan = first_plan()
    assert {step.id for step in plan.steps} == {step.id for step in whole_bath().steps}
    assert max(plan.steps, key=lambda step: step.end).recipe == "hand-over"


def test_the_house_has_its_water_back_on_the_day_it_was_taken() -> None:
    off = [step for step in whole_bath().steps if "house water" in step.services_off]
    assert {step.name for step in off} >= {"cap water", "tie in"}
    for step in off:
        pieces = first_plan().step(step.id).pieces
        assert pieces[-1][1] - pieces[0][0] <= 4 * HOUR, step.id


def test_a_niche_cut_into_the_membrane_takes_watertight_back_until_it_is_sealed() -> None:
    job, plan = whole_bath(), first_plan()
    cut, seal = job.step(id_of("niche other walls/cut")), job.step(id_of("niche other walls/seal"))
    other_walls = job.step(id_of("wall-tile other walls/set"))
    assert takers_of(job, other_walls, "watertight") == [cut]
    assert given_again(job, cut, "watertight") == [seal]
    wait = given_wait(seal, "watertight")
    assert wait is not None and wait.purpose == "cover"
    tight_again = next(ready.at for ready in plan.step(seal.id).ready if ready.purpose == "cover")
    assert plan.step(other_walls.id).start >= tight_again


def test_ridges_are_collapsed_and_haze_comes_off_while_they_still_do() -> None:
    plan = first_plan()
    for earlier, later, within in [
        ("uncoupling-mat/bed", "uncoupling-mat/collapse", 20),
        ("grout/walls", "grout/polish walls", 60),
        ("grout/floor", "grout/polish floor", 60),
    ]:
        assert 0 < plan.step(id_of(later)).start - plan.step(id_of(earlier)).end <= within, later


def test_nobody_works_on_the_floor_between_its_last_tile_and_the_hour_it_bears_feet() -> None:
    plan, job = first_plan(), whole_bath()
    tile = plan.step(id_of("floor-tile-dry-laid/set"))
    bears = next(ready.at for ready in tile.ready if ready.purpose == "foot")
    for step in plan.steps:
        if step.id.startswith("bathroom/") and job.step(step.id).stands == "floor" and step.id != tile.id:
            assert step.end <= tile.start or step.start >= bears, step.id


def test_the_vanity_is_carried_in_by_two(tmp_path: Path) -> None:
    assert whole_bath().step(id_of("vanity/carry in")).hands == 2
    text = (FOLDER / "job.yaml").read_text(encoding="utf-8")
    (tmp_path / "job.yaml").write_text(text.replace("you: {hands: 2}", "you: {hands: 1}"), encoding="utf-8")
    with pytest.raises(Faulty, match="carry in"):
        read_job(tmp_path, date(2027, 4, 5))


def test_the_vanity_may_be_ordered_and_arrive_whatever_the_wall_tile_does() -> None:
    (vanity,) = (order for order in whole_bath().orders if order.name == "vanity")
    assert {whole_bath().step(id).use for id in vanity.for_steps} == {"vanity"}


def test_the_top_is_made_after_its_template_on_the_fixed_vanity() -> None:
    (top,) = (order for order in whole_bath().orders if order.name == "top")
    template, fit = (first_plan().step(id_of(f"stone-top/{name}")) for name in ("template", "fit"))
    days = [start for start, end in whole_bath().working_days if start > template.end and end <= fit.start]
    assert top.made_after == template.id and len(days) >= 10


def test_heat_sealer_and_a_second_look_at_the_sealant_come_after_hand_over() -> None:
    plan = first_plan()
    later = {(one.step, one.purpose): one.at - plan.finish for one in plan.still_to_come}
    for step, purpose, days in [
        ("heat-start/last reading", "heat", 0),
        ("heat-start/last reading", "full heat", 0),
        ("sealant-planes/seal", "recheck", 90),
        ("tiled-base/seal below", "recheck", 90),
    ]:
        assert later[(id_of(step), purpose)] > days * DAY, step
    assert plan.milestones["floor heat on"] > plan.finish


@pytest.mark.parametrize("order", ["before", "after"])
def test_paint_comes_before_or_after_tile_as_the_job_says(order: str, tmp_path: Path) -> None:
    text = (FOLDER / "job.yaml").read_text(encoding="utf-8")
    told = text.replace("paint: {before: wall-tile}", f"paint: {{{order}: wall-tile}}")
    (tmp_path / "job.yaml").write_text(told, encoding="utf-8")
    job = read_job(tmp_path, date(2027, 4, 5))
    paint, tile = id_of("paint/coat 2"), id_of("wall-tile first wall/set")
    links = {link.id for link in job.step(tile).links}
    assert (paint in links) == (order == "before")
    assert (id_of("wall-tile other walls/set") in {link.id for link in job.step(id_of("paint/prime")).links}) == (
        order == "after"
    )
