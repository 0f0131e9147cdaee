"""Where list passes find no plan: the solver looks to the end of the calendars, and says no more than it knows."""

from __future__ import annotations

from dataclasses import replace
from importlib import import_module

import pytest
from planned_jobs import planned
from tiny_jobs import booking, job, moment, network_of, solved, step, wait

from sequencer.causes.no_plan import NO_ORDER, NONE_FOUND, first_sentences
from sequencer.solve import NoAnswer, solve
from sequencer.solve.give_up import GivenUp
from sequencer.solve.grid import lay
from sequencer.solve.look import Look
from sequencer.solve.search import Found, fewest_released, new_solver
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY
from sequencer.views.foot import foot_of

SOLVE, SEARCH = (import_module(f"sequencer.solve.{name}") for name in ("solve", "search"))


def hurried(count: int) -> Job:
    """So many layers of an hour, each by somebody else; a finish of three hours by one, within five hours of each."""
    layers = [step(f"l{n}", by=f"t{n}", waits=[wait(f"f{n}", 1, within_minutes=300)]) for n in range(count)]
    finishes = [step(f"f{n}", 180, by="you", after=f"l{n} ready for f{n}, meet") for n in range(count)]
    return job(*layers, step("meet", 15, after=", ".join(f"l{n}" for n in range(count))), *finishes)


def none_for(of: Job, effort: float) -> NoAnswer:
    with pytest.raises(NoAnswer) as raised:
        solve(network_of(of), effort)
    return raised.value


def test_the_solver_alone_finds_a_plan_of_many_weeks(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(SOLVE, "PASSES", 0)
    of = job(step("a", waits=[wait("b", 80 * 24)]), step("b", after="a ready for b"), weeks=14)
    assert solved(network_of(of)).starts["hand over"] - moment("Mon 9") >= 80 * DAY


def test_where_it_is_not_certain_that_nothing_fits_the_windows_missed_are_named() -> None:
    of = hurried(3)
    said = first_sentences(of, none_for(of, effort=0.0))
    assert said[0] == NONE_FOUND
    assert any(text.startswith("f2 must follow l2 in time, and came too late again and again: ") for text in said)


def test_where_it_is_certain_no_window_is_blamed() -> None:
    of = hurried(3)
    said = first_sentences(of, none_for(of, effort=0.2))
    assert said[0] == NO_ORDER
    assert not any("too late" in text for text in said)


@pytest.mark.parametrize("whole", [True, False])
def test_visits_given_up_are_the_fewest_only_where_that_is_proven(whole: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """Six visits, two of one trade at each hour: three have to be given up; a search may end with its first plan."""

    def cut_short(effort: float) -> object:
        solver = new_solver(effort)
        solver.parameters.stop_after_first_solution = not whole
        return solver

    monkeypatch.setattr(SEARCH, "new_solver", cut_short)
    names = [f"s{number}" for number in range(6)]
    visits = tuple(booking(name, f"Tue {8 + number // 2}", "plumber") for number, name in enumerate(names))
    network = network_of(job(*(step(name, by="plumber") for name in names), bookings=visits))
    found = fewest_released(lay(network, network.horizon, keep_bookings=False), 1.0)
    assert found is not None
    assert found.fewest == whole
    assert len(found.tasks) == 3 or not whole


def test_a_plan_with_all_visits_that_only_the_search_for_fewer_finds_gives_up_none(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    of = job(step("a"), step("b", by="plumber", after="a"), bookings=(booking("b", "Wed 9", "plumber"),))
    network, look_at = network_of(of), SOLVE.look_at
    looks = iter([Look(lay(network, network.horizon), None, 0, ())])
    monkeypatch.setattr(SOLVE, "look_at", lambda *seen: next(looks, None) or look_at(*seen[:2]))
    monkeypatch.setattr(SEARCH, "minimise_half_day", lambda *_: Found(None, 0, 0))
    answer = solved(network)
    assert answer.released == ()
    assert answer.starts["bath/u/b"] == moment("Wed 9")


@pytest.mark.parametrize("fewest", [True, False])
def test_a_plan_says_where_the_visits_given_up_are_only_the_fewest_found(
    fewest: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(SOLVE, "given_up", lambda *_: GivenUp((), False))
    monkeypatch.setattr(SEARCH, "fewest_released", lambda *of: replace(found(*of), fewest=fewest))
    found = fewest_released
    visits = (booking("b", "Mon 9", "plumber"),)
    _, plan = planned(job(step("a", 480), step("b", by="plumber", after="a"), bookings=visits))
    said = "\n".join(text for section in foot_of(plan) for text in section.texts)
    assert ("with all visits firm no order of work fits" in said) == fewest
    assert ("These are the fewest found; fewer may do." in said) == (not fewest)
