"""What decides among plans that hand over in the same half-day: each goal on a tiny job, in its order and another."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import pytest
from plans import orchard_row
from tiny_folder import TODAY, folder
from tiny_jobs import booking, broken, case_of, job, moment, network_of, solved, spans, step, trade, wait

from sequencer.audit import Times
from sequencer.audit.goals import counted, miscounted
from sequencer.files import read_job
from sequencer.network.rules.soonest import SPREAD
from sequencer.plan import Goal
from sequencer.solve import Answer, search_goals, solve
from sequencer.solve.between import Range
from sequencer.solve.grid import lay
from sequencer.solve.search import new_solver, run
from sequencer.solve.search_goals import model_of, settle, weights_of
from sequencer.terms.goal import (
    BACK_SOON,
    FEW_VISITS,
    HAND_OVER_GOAL,
    KEEP_TOLD,
    SOONEST_GOAL,
    TOLD_VISITS_MOVED,
    VISITS,
)
from sequencer.terms.house import House
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute
from sequencer.terms.told import Told, ToldVisit
from sequencer.views.weighed import weighed
from sequencer.writeup import times_of

FREE, LAST = "hall/u/free", "bath/u/last"
"""Two steps of the plumber: one any time, one on Wednesday at 8, behind two days of yours; you hand over at 10."""


MOST_APART = 4 * SPREAD
"""What the other order of two steps of an hour can cost more: four slots, by weights that lie so far apart."""


def two_visits(told: dict[str, str] | None = None, lived_in: bool = False, gives: str = "", **more: object) -> Job:
    """A job of these two. `told`: by step, what the plumber was told; steps told of one day are one visit."""
    steps = (
        step(FREE, by="plumber", gives=gives, one_go=True), step("a", 420), step("b", 420, after="a"),
        step("last", by="plumber", after="b"), step("c", after="last"),
    )  # fmt: skip
    plan = None if told is None else _told(told)
    return job(*steps, house=House(lived_in=lived_in), told=plan, **more)


def _told(told: dict[str, str]) -> Told:
    pieces = {id: spans(said) for id, said in told.items()}
    days: dict[str, list[str]] = {}
    for id, said in told.items():
        days.setdefault(said.split()[0], []).append(id)
    visits = (
        ToldVisit(f"plumber {n}", "plumber", min(pieces[id][0][0] for id in ids), tuple(ids))
        for n, ids in enumerate(days.values(), 1)
    )
    return Told(1, moment("Fri 16"), pieces, tuple(visits), {"plumber": len(days)})


def starts(of: Job) -> tuple[Minute, Minute, dict[str, int]]:
    """When the two steps start, and what the plan comes to."""
    answer = solved(network_of(of))
    assert sound(of, answer)
    assert all(goal.value == goal.bound for goal in answer.goals)
    return answer.starts[FREE], answer.starts[LAST], {goal.name: goal.value for goal in answer.goals}


def sound(of: Job, answer: Answer) -> bool:
    """True if the audit finds nothing, and counts the same for every goal."""
    times = times_of(network_of(of), answer)
    said = {goal.name: goal.value for goal in answer.goals}
    return broken(of, times) == () and miscounted(of, case_of(of).airs, times, said) == ()


def test_others_come_once_rather_than_twice_if_hand_over_does_not_suffer() -> None:
    """On Monday at 8 the free step would be earliest; on Tuesday it lies on the day before the other."""
    free, last, goals = starts(two_visits())
    assert (free, last) == (moment("Tue 8"), moment("Wed 8"))
    assert goals[VISITS] == 1


def test_a_told_visit_stays_though_others_then_come_twice() -> None:
    free, last, goals = starts(two_visits({FREE: "Mon 10-11", LAST: "Wed 8-9"}))
    assert (free, last) == (moment("Mon 10"), moment("Wed 8"))
    assert (goals[TOLD_VISITS_MOVED], goals[VISITS]) == (0, 2)


def test_a_told_visit_moves_where_hand_over_would_be_later() -> None:
    free, last, goals = starts(two_visits({FREE: "Mon 10-11", LAST: "Thu 8-9"}))
    assert (free, last) == (moment("Mon 10"), moment("Wed 8"))
    assert goals[TOLD_VISITS_MOVED] == 1


def test_two_steps_of_one_told_visit_move_as_one() -> None:
    free, _, goals = starts(two_visits({FREE: "Thu 8-9", LAST: "Thu 9-10"}))
    assert goals[TOLD_VISITS_MOVED] == 1
    assert free == moment("Tue 8")


def test_where_people_live_the_toilet_is_back_early_though_others_then_come_twice() -> None:
    free, _, goals = starts(two_visits(lived_in=True, gives="toilet back"))
    assert free == moment("Mon 8")
    assert (goals["toilet back"], goals[VISITS]) == (1, 2)


def test_where_nobody_lives_nobody_waits_for_the_toilet() -> None:
    free, _, goals = starts(two_visits(gives="toilet back"))
    assert free == moment("Tue 8")
    assert "toilet back" not in goals


def test_a_told_visit_stays_though_the_toilet_could_be_back_sooner() -> None:
    free, _, goals = starts(two_visits({FREE: "Tue 8-9", LAST: "Wed 8-9"}, lived_in=True, gives="toilet back"))
    assert free == moment("Tue 8")
    assert (goals[TOLD_VISITS_MOVED], goals["toilet back"]) == (0, 3)


@pytest.mark.parametrize(
    ("prefer", "free", "goals"),
    [
        ((FEW_VISITS, KEEP_TOLD, BACK_SOON), "Tue 8", {VISITS: 1, TOLD_VISITS_MOVED: 1, "toilet back": 3}),
        ((BACK_SOON, KEEP_TOLD, FEW_VISITS), "Mon 8", {"toilet back": 1, TOLD_VISITS_MOVED: 1, VISITS: 2}),
        ((BACK_SOON, FEW_VISITS, KEEP_TOLD), "Mon 8", {"toilet back": 1, VISITS: 2, TOLD_VISITS_MOVED: 1}),
        ((KEEP_TOLD, BACK_SOON, FEW_VISITS), "Mon 14", {TOLD_VISITS_MOVED: 0, "toilet back": 2, VISITS: 2}),
    ],
)
def test_what_a_job_prefers_decides_first(prefer: tuple[str, ...], free: str, goals: dict[str, int]) -> None:
    told = {FREE: "Mon 14-15", LAST: "Wed 8-9"}
    planned, _, reached = starts(two_visits(told, lived_in=True, gives="toilet back", prefer=prefer))
    assert planned == moment(free)
    assert list(reached.items())[1:-1] == list(goals.items())


def test_the_toilet_comes_before_the_first_shower() -> None:
    """Three hours of work each; whatever their names weigh, the toilet has the morning."""
    for first, second in (("x", "y"), ("y", "x")):
        toilet = step(first, 180, gives="toilet back")
        shower = step(second, 180, gives="first shower ready for water", waits=[wait("water", 1)])
        answer = solved(network_of(job(toilet, shower, step("z", 420, after="x, y"), house=House(lived_in=True))))
        assert answer.starts[f"bath/u/{first}"] == moment("Mon 8")
        assert {goal.name: goal.value for goal in answer.goals}["first shower"] == 2


def test_a_visit_booked_anew_is_told_as_it_is_booked() -> None:
    booked = (booking("last", "Thu 8", "plumber"),)
    _, last, goals = starts(two_visits({FREE: "Thu 10-11", LAST: "Wed 8-9"}, bookings=booked))
    assert last == moment("Thu 8")
    assert goals[TOLD_VISITS_MOVED] == 0


def test_a_visit_runs_over_days_its_trade_does_not_work() -> None:
    """Friday and Monday follow each other; so do Tuesday and Thursday of one who comes on these."""
    plumber = trade("plumber", days="Tue Thu")
    of = job(step("a", by="plumber"), step("b", 420, after="a"), step("c", by="plumber", after="b"), trades=[plumber])
    goals = {goal.name: goal.value for goal in solved(network_of(of)).goals}
    assert goals[VISITS] == 1


def test_the_audit_tells_a_goal_that_is_counted_wrongly() -> None:
    of = two_visits({FREE: "Mon 10-11", LAST: "Wed 8-9"}, lived_in=True, gives="toilet back")
    times = times_of(network_of(of), solved(network_of(of)))
    airs = case_of(of).airs
    right = counted(of, airs, times)
    assert right == {HAND_OVER_GOAL: 5, TOLD_VISITS_MOVED: 0, "toilet back": 1, VISITS: 2}
    for name in right:
        assert len(miscounted(of, airs, times, {**right, name: right[name] + 1})) == 1
    later = Times({**times.pieces, FREE: spans("Tue 10-11")}, times.hand_over)
    assert counted(of, airs, later) == {**right, TOLD_VISITS_MOVED: 1, "toilet back": 3, VISITS: 1}


def test_more_steps_than_the_solver_bears_are_counted_against_the_least_that_can_be(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(sys.modules["sequencer.solve.solve"], "MOST_TASKS", 1)
    goals = {goal.name: goal for goal in solved(network_of(two_visits())).goals}
    assert list(goals) == [HAND_OVER_GOAL, VISITS]
    assert goals[VISITS].bound == 1 <= goals[VISITS].value


@pytest.mark.parametrize("effort", [1e-5, 1e-3, 1.0])
def test_a_search_that_is_cut_short_rules_out_nothing_that_has_a_plan(effort: float) -> None:
    """What is proven of a goal holds for as little as was reached of the goals before it."""
    of = two_visits({FREE: "Mon 14-15", LAST: "Wed 8-9"}, lived_in=True, gives="toilet back")
    best = {goal.name: goal.value for goal in solved(network_of(of)).goals}
    cut = solve(network_of(of), effort)
    assert sound(of, cut)
    for goal in cut.goals:
        assert goal.bound <= best[goal.name] <= goal.value
        if goal.value > best[goal.name]:
            break


def test_goal_by_goal_comes_to_the_same_as_all_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    of = two_visits({FREE: "Mon 14-15", LAST: "Wed 8-9"}, lived_in=True, gives="toilet back")
    at_once = solved(network_of(of))
    monkeypatch.setattr(search_goals, "FARTHEST", 0)
    assert solved(network_of(of)) == at_once


def test_a_goal_that_a_search_behind_it_betters_is_counted_as_the_plan_comes_to(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(search_goals, "AT_ONCE_EFFORT", 0)
    monkeypatch.setattr(search_goals, "GOAL_EFFORT", 0)
    of = job(step(FREE, by="plumber", gives="toilet back"), step("a"), house=House(lived_in=True))
    problem = lay(network_of(of), moment("Fri 0"))
    within = Range(problem, len(problem.starts[problem.hand_over]) - 1, {})
    late = list(within.trimmed().last)
    met = settle(within, late, 1.0, lambda _: None)
    toilet = next(goal for goal in met.goals if goal.name == "toilet back")
    assert toilet.value == problem.goals[0].value(met.places) < problem.goals[0].value(late)


def test_one_of_a_goal_weighs_more_than_all_that_goals_behind_it_can_come_to() -> None:
    spread = [1, 3, 0, 2]
    weights = weights_of(spread)
    for at, weight in enumerate(weights):
        assert weight > sum(w * s for w, s in zip(weights[at + 1 :], spread[at + 1 :], strict=True))


def second_best(of: Job, answer: Answer) -> str:
    """What the solver says when asked for another plan that is as good by every goal."""
    problem = lay(network_of(of), of.horizon)
    limits = [goal.value for goal in answer.goals]
    last = int(problem.half_day.searchsorted(limits[0], side="right")) - 1
    model = model_of(Range(problem, last, {}, limits[1:-1]))
    slots = [(answer.starts[id] - problem.base) // problem.slot for id in problem.ids]
    late = sum(weight * variable.var for weight, variable in zip(problem.weights, model.start, strict=True))
    model.cp.add(late <= limits[-1])
    others = []
    for variable, slot in zip(model.start, slots, strict=True):
        other = model.cp.new_bool_var("")
        model.cp.add(variable.var != slot).only_enforce_if(other)
        others.append(other)
    model.cp.add_at_least_one(others)
    return run(new_solver(20.0), model)


@pytest.mark.parametrize("lived_in", [False, True])
def test_no_other_plan_is_as_good_by_every_goal(lived_in: bool) -> None:
    of = two_visits({FREE: "Mon 14-15", LAST: "Wed 8-9"}, lived_in=lived_in, gives="toilet back")
    assert second_best(of, solved(network_of(of))) == "INFEASIBLE"


def test_without_the_weights_of_the_steps_another_plan_would_be_as_good() -> None:
    """Two steps alike, one after the other in either order: only their weights tell the plans apart."""
    of = job(step("x"), step("y"))
    answer = solved(network_of(of))
    assert second_best(of, answer) == "INFEASIBLE"
    *others, last = answer.goals
    worse = replace(last, value=last.value + MOST_APART)
    assert second_best(of, replace(answer, goals=(*others, worse))) == "OPTIMAL"


def test_a_job_file_says_what_comes_first_and_the_rest_follows_as_usual(tmp_path: Path) -> None:
    of = read_job(folder(tmp_path, "17 C 65 %", more="prefer: few visits\n"), TODAY)
    assert of.prefer == (FEW_VISITS, KEEP_TOLD, BACK_SOON)
    assert read_job(folder(tmp_path, "17 C 65 %"), TODAY).prefer == (KEEP_TOLD, BACK_SOON, FEW_VISITS)


def test_the_foot_says_what_was_weighed_and_how_surely() -> None:
    """In the order it decided; the last goal only where it is not proven."""
    goals = (
        Goal(HAND_OVER_GOAL, 5, 5), Goal(TOLD_VISITS_MOVED, 0, 0), Goal("toilet back", 3, 3),
        Goal("first shower", 4, 3), Goal(VISITS, 9, 6), Goal(SOONEST_GOAL, 900, 900),
    )  # fmt: skip
    assert weighed(replace(orchard_row(), goals=goals)) == [
        "no visit moves that people were told of",
        "toilet back: a half-day sooner is not possible",
        "first shower: a half-day sooner is not ruled out",
        "others come 9 times; that 6 might do is not ruled out",
    ]
    more = (Goal(HAND_OVER_GOAL, 5, 5), Goal(TOLD_VISITS_MOVED, 3, 3), Goal(SOONEST_GOAL, 900, 800))
    assert weighed(replace(orchard_row(), goals=more)) == [
        "3 visits move that people were told of, the fewest possible",
        "that all else is as early as it can be is not proven",
    ]


@pytest.mark.parametrize(("fewest", "said"), [(0, "not known to be the fewest"), (1, "not known to be the fewest")])
def test_a_bound_that_says_nothing_is_not_told_as_if_it_did(fewest: int, said: str) -> None:
    """Several trades come, each at least once, whatever the plan."""
    goals = (Goal(HAND_OVER_GOAL, 5, 5), Goal(TOLD_VISITS_MOVED, 2, 0), Goal(VISITS, 11, fewest))
    assert weighed(replace(orchard_row(), goals=goals)) == [
        f"2 visits move that people were told of, {said}",
        f"others come 11 times, {said}",
    ]
