"""Plans of jobs that share people: joined, solved as one, audited together, written up job by job."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.air.rooms import airs
from sequencer.audit import BrokenPlan, Times, audit_several, counted_together, miscounted
from sequencer.causes.no_order import no_order_fits
from sequencer.causes.no_plan import NONE_FOUND, TOO_DAMP, NoOrderFits, first_sentences
from sequencer.network.across import own_id
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.elsewhere import rules as elsewhere_rules
from sequencer.network.join import joined
from sequencer.network.model import HAND_OVER, End, Network
from sequencer.plan import Beside, Elsewhere, Goal, Plans
from sequencer.settling import NOTHING_RULED_OUT, ROUNDS, SETTLING, Cases, in_own_air, no_surer
from sequencer.solve import Alone, AnswerOfAll, NoAnswer, alone, solve_several
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute
from sequencer.writeup import times_of, write
from sequencer.writeup.given_up import without_given_up

Tell = Callable[[str], None]
Ends = dict[str, dict[str, Minute]]
"""For each job, when the steps are done with which its air changes."""

DAMPER = "the air is taken to be damper than wet layers make it in the end: no plan settles it"
"""What a plan says whose layers go round in circles."""


@dataclass(frozen=True)
class _Made:
    """Plans of jobs by name, with their networks; `alone`: what each could have by itself."""

    networks: dict[str, Network]
    alone: dict[str, Alone]
    answer: AnswerOfAll
    times: dict[str, Times]


@dataclass(frozen=True)
class _Settled:
    """Plans that keep every rule in the air their own layers make; `damper`: jobs whose air was taken to be damper."""

    cases: dict[str, Case]
    made: _Made
    answer: AnswerOfAll
    damper: tuple[str, ...]

    @property
    def jobs(self) -> list[Job]:
        return [case.job for case in self.cases.values()]


def planned_together(
    jobs: Sequence[Job],
    effort: float = 1.0,
    told: Tell = lambda _: None,
    first: str | None = None,
    tidy: bool = True,
) -> Plans:
    """The plans of jobs that share people: fewest days late against promises, then the least sum of hand-overs.

    `first`: the job whose own hand-over comes before all that. Without `tidy` only hand-overs count. NoOrderFits if no
    plans exist or none were found. Where air begins with the end of a step, plans are made again until it settles, as
    for one job.
    """
    jobs = sorted(jobs, key=lambda job: job.name)
    ends: Ends = {job.name: {step: job.start for switch in job.switches for step in switch.steps} for job in jobs}
    maker = _Maker(effort, told, first, tidy)
    tries: list[_Settled] = []
    for again in range(SETTLING):
        made = maker.settled([job.with_air_from(ends[job.name]) for job in jobs])
        tries.append(made)
        here = {name: {step: made.made.times[name].pieces[step][-1][1] for step in ends[name]} for name in ends}
        if here == ends or (again >= ROUNDS and not _sooner(ends, here)):
            break
        if made.answer.interrupted:
            raise KeyboardInterrupt
        ends = _later(ends, here) if again + 1 >= ROUNDS else here
    else:
        raise NoOrderFits((NONE_FOUND, *(said for job in jobs for said in _late(job, ends[job.name], here[job.name]))))
    assumed = {job.name: (*_late(job, ends[job.name], here[job.name]), *(DAMPER,) * (job.name in made.damper))
               for job in jobs}  # fmt: skip
    return _written(made, _no_surer(made.answer, tries[0].answer), assumed, first)


class _Maker:
    """Makes plans of the same jobs, in one air after the other."""

    def __init__(self, effort: float, told: Tell, first: str | None, tidy: bool) -> None:
        self.effort, self.told, self.first, self.tidy = effort, told, first, tidy
        self._known: dict[str, Alone] = {}
        self._stopped = False

    def settled(self, jobs: Sequence[Job]) -> _Settled:
        """The plans in the air that the jobs' own layers make."""

        def sound(cases: Cases, made: _Made) -> bool:
            return not audit_several(*_kept(cases, made.answer), made.times)

        found = in_own_air({job.name: Case(job, airs(job)) for job in jobs}, self.made, lambda made: made.times, sound)
        made = found.made
        answer = made.answer if made is found.first else _no_surer(made.answer, found.first.answer)
        networks = {name: build(case) if case.drying else made.networks[name] for name, case in found.cases.items()}
        return _Settled(found.cases, replace(made, networks=networks), answer, found.damper)

    def made(self, cases: Cases) -> _Made:
        """The plans in the air of these cases. KeyboardInterrupt where somebody has stopped those before."""
        if self._stopped:
            raise KeyboardInterrupt
        networks = {name: build(case) for name, case in cases.items()}
        jobs = [case.job for case in cases.values()]
        by_itself = {name: self._alone(case, networks[name]) for name, case in cases.items()}
        network = joined(jobs, networks)
        try:
            answer = solve_several(network, by_itself, self.effort, self.told, self.first, self.tidy)
        except NoAnswer as none:
            if any(case.drying for case in cases.values()):
                raise NoOrderFits((NONE_FOUND, TOO_DAMP)) from none
            raise NoOrderFits(_sentences(jobs, none), lambda: _colliding(cases)) from none
        self._stopped = answer.interrupted
        times = {name: times_of(network, answer.answers[name]) for name, network in networks.items()}
        return _Made(networks, by_itself, answer, times)

    def _alone(self, case: Case, network: Network) -> Alone:
        """What a job could have by itself; kept while its air does not change."""
        if case.job.switches or case.drying:
            return alone(network, self.effort)
        if case.job.name not in self._known:
            self._known[case.job.name] = alone(network, self.effort)
        return self._known[case.job.name]


def _sooner(ends: Ends, here: Ends) -> bool:
    return any(here[name][step] > at for name, steps in ends.items() for step, at in steps.items())


def _later(ends: Ends, here: Ends) -> Ends:
    return {name: {step: max(at, here[name][step]) for step, at in steps.items()} for name, steps in ends.items()}


def _late(job: Job, ends: Mapping[str, Minute], here: Mapping[str, Minute]) -> tuple[str, ...]:
    steps = (id for id, at in ends.items() if here[id] < at)
    return tuple(f"air after {job.step(id).title} ({id}) taken to begin later: no plan settles it" for id in steps)


def _sentences(jobs: Sequence[Job], none: NoAnswer) -> tuple[str, ...]:
    blocked, windows = [own_id(id) for id in none.blocked], none.windows
    of_each = [
        NoAnswer(
            none.certain,
            tuple(id for name, id in blocked if name == job.name),
            tuple(window for window in windows if own_id(window.before)[0] == job.name),
        )
        for job in jobs
    ]
    said = [first_sentences(job, each) for job, each in zip(jobs, of_each, strict=True)]
    return (said[0][0], *(f"{job.title}: {one}" for job, each in zip(jobs, said, strict=True) for one in each[1:]))


def _colliding(cases: Cases) -> tuple[str, ...]:
    """What collides in jobs that do not even fit by themselves; else that the people they share do not suffice."""
    told = [f"{case.job.title}: {said}" for case in cases.values() for said in no_order_fits(case.job, case.airs)]
    return tuple(told) or ("Each job fits by itself; for all of them together there are too few people.",)


def _kept(cases: Cases, answer: AnswerOfAll) -> tuple[list[Job], dict[str, dict[str, RoomAir]]]:
    """The jobs without the firm visits given up, and their airs by name."""
    kept = [without_given_up(case.job, answer.answers[name].released)[0] for name, case in cases.items()]
    return kept, {name: case.airs for name, case in cases.items()}


def _no_surer(answer: AnswerOfAll, other: AnswerOfAll) -> AnswerOfAll:
    """Answers that rule out nothing which others do not rule out."""
    if answer is other:
        return answer
    mine, theirs = ((*one.goals, *one.behind) for one in (answer, other))
    goals = no_surer(mine, theirs)
    settled = {goal.name for goal in goals if goal.value <= goal.bound}
    answers = {}
    for name, one in answer.answers.items():
        own, *rest = one.goals
        bound = min(own.bound, other.answers[name].goals[0].bound)
        behind = (replace(g, bound=g.value if g.name in settled else NOTHING_RULED_OUT) for g in rest)
        at_best = min(one.hand_over_at_best, other.answers[name].hand_over_at_best)
        answers[name] = replace(one, goals=(replace(own, bound=bound), *behind), hand_over_at_best=at_best)
    parted = len(answer.goals)
    return replace(answer, goals=goals[:parted], behind=goals[parted:], answers=answers)


def _written(
    settled: _Settled, answer: AnswerOfAll, assumed: Mapping[str, tuple[str, ...]], first: str | None
) -> Plans:
    made, jobs = settled.made, settled.jobs
    broken = audit_several(*_kept(settled.cases, answer), made.times)
    if broken:
        raise BrokenPlan("\n".join(broken))
    late, half_days = (goal.value for goal in answer.goals[-2:])
    if (late, half_days) != (counted := counted_together(jobs, made.times)):
        raise BrokenPlan(f"{late} days late and {half_days} half-days are counted, and there are {counted}")
    for case in settled.cases.values():
        said = {goal.name: goal.value for goal in answer.answers[case.job.name].goals}
        if wrong := miscounted(case.job, case.airs, made.times[case.job.name], said):
            raise BrokenPlan("\n".join(f"{case.job.name}: {one}" for one in wrong))
    beside = {job.name: _beside(job, made.times[job.name]) for job in jobs}
    plans = []
    for name, case in settled.cases.items():
        job, given_up = without_given_up(case.job, answer.answers[name].released)
        away = elsewhere(job, jobs, made.times)
        network = made.networks[name]
        network = replace(network, rules=(*network.rules, *elsewhere_rules(job, away)))
        plan = write(Case(job, case.airs, case.drying), network, answer.answers[name], made.times[name])
        others = tuple(one for other, one in beside.items() if other != name)
        plan = replace(plan, released=given_up, assumed=(*plan.assumed, *assumed[name]), beside=others)
        by_itself = job.half_days[max(0, made.alone[name].half_day - 1)]
        plans.append(replace(plan, elsewhere=away, days_late=beside[name].days_late, alone=by_itself))
    goals, behind = ([Goal(g.name, g.value, g.bound) for g in some] for some in (answer.goals, answer.behind))
    return Plans(tuple(plans), tuple(goals), first, tuple(behind))


def _beside(job: Job, times: Times) -> Beside:
    moment = np.array([times.hand_over], dtype=np.int64)
    late = int(End(HAND_OVER, job.half_days, job.promise).days_late(moment)[0])
    return Beside(job.name, job.title, job.zone, job.promise, times.hand_over, late)


def elsewhere(job: Job, jobs: Sequence[Job], times: Mapping[str, Times]) -> tuple[Elsewhere, ...]:
    """The people of a job at the steps of others, by start."""
    found = []
    for other in jobs:
        for step in other.steps if other.name != job.name else ():
            if step.trade in job.shared & other.shared and other.trades[step.trade].hour_known:
                pieces = times[other.name].pieces[step.id]
                at = (pieces[0][0], pieces[-1][1])
                found.append(Elsewhere(step.trade, other.title, step.id, step.title, *at, step.hands, step.where))
    return tuple(sorted(found, key=lambda one: (one.start, one.trade, one.job, one.step)))
