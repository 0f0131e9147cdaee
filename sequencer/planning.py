"""The one door to a plan: files in, an audited plan out. Every answer is a fresh plan on changed inputs."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path

from sequencer.air.rooms import airs
from sequencer.audit import BrokenPlan, Times, audit, miscounted
from sequencer.brought_forward import Ends, brought_forward
from sequencer.causes.no_order import no_order_fits
from sequencer.causes.no_plan import NONE_FOUND, TOO_DAMP, NoOrderFits, first_sentences
from sequencer.files import read_job, read_jobs
from sequencer.firm_visits import kept
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.drying import as_they_dry, moved_by_others
from sequencer.network.elsewhere import rules as elsewhere_rules
from sequencer.network.model import Network
from sequencer.network.past import past_of
from sequencer.plan import AIR_AT_ONCE, DRIER_AIR, Plan, Plans
from sequencer.settling import ROUNDS, SETTLING, Cases, in_own_air, no_surer
from sequencer.solve import Answer, NoAnswer, first_answer, solve
from sequencer.terms.away_everywhere import away_everywhere
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute, Span
from sequencer.terms.with_facts import as_made, with_past
from sequencer.together import planned_together
from sequencer.writeup import times_of, write
from sequencer.writeup.given_up import without_given_up
from sequencer.writeup.timed import Timed

DAMPER = "the air is taken to be damper than wet layers make it in the end: no plan settles it"
"""What a plan says whose layers go round in circles."""

MORE_EFFORT = "Only a first plan was looked for (--effort 0); with more effort one may be found."
"""Said where something has happened: which rules collide then, only a whole search tells."""

Tell = Callable[[str], None]
_Solved = tuple[Case, Network, Answer, Times, tuple[str, ...], bool, str]
"""A plan, what is assumed of its air, whether the audit has found it sound already, and in which air it is the best."""

__all__ = [
    "BrokenPlan", "NoOrderFits", "airs", "plan_for", "plan_of", "plans_for", "plans_of", "settled",
    "timed",
]  # fmt: skip


def plan_for(folder: Path, today: date | None = None, effort: float = 1.0, told: Tell = lambda _: None) -> Plan:
    """The plan of the job in a folder (or of a job file). `effort` scales the solver's limits, 0: a first plan alone.

    Faulty with every fault of the files; NoOrderFits if no plan exists or none was found.
    """
    return plan_of(read_job(folder, today), effort, told)


def plans_for(folder: Path, today: date | None = None, effort: float = 1.0, told: Tell = lambda _: None) -> Plans:
    """The plans of the jobs in a folder of jobs, made together. Faulty, NoOrderFits as for one job."""
    return plans_of(read_jobs(folder, today), effort, told)


def plans_of(
    jobs: Iterable[Job],
    effort: float = 1.0,
    told: Tell = lambda _: None,
    first: str | None = None,
    tidy: bool = True,
) -> Plans:
    """The plans of jobs that share people, already read. `first`: the job that comes before the others.

    Without `tidy` only hand-overs count: enough to know what an order of the jobs would bring.
    """
    alone = [settled(replace(job, beside=()), effort, told) for job in away_everywhere(tuple(jobs))]
    return kept(alone, lambda jobs, tidy: planned_together(jobs, effort, told, first, tidy), tidy)


def plan_of(job: Job, effort: float = 1.0, told: Tell = lambda _: None, tidy: bool = True) -> Plan:
    """The plan of a job already read.

    Where air begins with the end of a step, the plan is made again until that end is where the air took it to be; if it
    does not settle, the air is taken to change as late as any of these plans had it, and the plan says so. What is
    proven for that air alone is not called the shortest: the first of these plans has the new air from the job's start,
    and no hand-over it allows is ruled out. Where some are left, plans are tried that bring the new air sooner. A job
    that shares people with others is planned together with them. Where nothing fits any more because of what has
    happened, what lies behind may be followed late, and the plan says what its recipe says then. The cushion before a
    firm visit is used up before the visit is given up. Without `tidy` only hand-over counts: enough to know how early
    it can be, but where air begins with a step.
    """
    if job.beside:
        return plans_of((job, *job.beside), effort, told, tidy=tidy).of(job.name)
    job = settled(job, effort, told)
    return kept([job], lambda jobs, tidy: _in_time_or_late(jobs[0], effort, told, tidy), tidy)


def _in_time_or_late(job: Job, effort: float, told: Tell, tidy: bool) -> Plan:
    try:
        return _plan_alone(job, effort, told, tidy)
    except NoOrderFits as none:
        if not job.past or job.visits_stand:
            raise
        try:
            return _plan_alone(replace(job, followed_late=True), effort, told, tidy)
        except NoOrderFits:
            raise none from None


def _plan_alone(job: Job, effort: float, told: Tell, tidy: bool) -> Plan:
    tidy = tidy or bool(job.switches)
    ends = {step: job.start for switch in job.switches for step in switch.steps}
    answers: list[Answer] = []
    for again in range(SETTLING):
        made = _solved(job.with_air_from(ends), effort, told, tidy)
        answers.append(made[2])
        here = _ends_of(made, ends)
        if here == ends or (again >= ROUNDS and all(here[step] <= ends[step] for step in here)):
            break
        if answers[-1].interrupted:
            raise KeyboardInterrupt
        ends = {step: max(at, ends.get(step, at)) for step, at in here.items()} if again + 1 >= ROUNDS else here
    else:
        raise NoOrderFits((NONE_FOUND, *_late(job, ends)))
    if ends and any(goal.value > goal.bound for goal in _no_surer(made[2], answers[0]).goals[:1]):
        made, ends = _brought_forward(job, made, ends, effort, told)
    case, network, answer, times, damper, sound, air = made
    here = _ends_of(made, ends)
    late = _late(job, (step for step in here if here[step] < ends[step]))
    if _is_bound_by(answer, answers[0]):
        air = AIR_AT_ONCE
    return _audited(case, network, _no_surer(answer, answers[0]), times, (*late, *damper), sound, air)


def _brought_forward(job: Job, made: _Solved, ends: Ends, effort: float, told: Tell) -> tuple[_Solved, Ends]:
    """The better of a plan and of plans that are done sooner with the steps that bring other air."""

    def plan_by(by: Ends) -> tuple[_Solved, Ends] | None:
        try:
            found = _solved(job.with_air_from(by, done_by=True), effort, told)
            here = _ends_of(found, by)
            return (found, by) if here == by else (_solved(job.with_air_from(here, done_by=True), effort, told), here)
        except NoOrderFits:
            return None

    def better(one: tuple[_Solved, Ends], other: tuple[_Solved, Ends]) -> bool:
        mine, theirs = (tuple(goal.value for goal in solved[2].goals) for solved, _ in (one, other))
        return len(mine) == len(theirs) and mine < theirs

    return brought_forward(job, _ends_of(made, ends), (made, ends), plan_by, better)


def _ends_of(made: _Solved, steps: Iterable[str]) -> Ends:
    """When steps end in a plan."""
    return {step: made[3].pieces[step][-1][1] for step in steps}


def settled(
    job: Job, effort: float = 1.0, told: Tell = lambda _: None, made: Mapping[str, tuple[Span, ...]] | None = None
) -> Job:
    """The job with the past of its steps worked out: by the facts of its site book, and by the plan that people were
    told, or else the plan as it was made before the work began (`made`: its spans of work, where they are known)."""
    if not job.facts or job.past is not None:
        return job
    try:
        made = job.told.pieces if job.told else plan_of(as_made(job), effort, told).pieces if made is None else made
    except NoOrderFits:
        made = {}
    ends = {id: spans[-1][1] for id, spans in made.items()}
    in_this_air = job.with_air_from(ends)
    return with_past(job, past_of(as_they_dry(Case(in_this_air, airs(in_this_air)), ends), made), made)


def _no_surer(answer: Answer, other: Answer) -> Answer:
    """An answer that rules out nothing which another does not rule out: goal by goal, as long as they agree."""
    at_best = min(answer.hand_over_at_best, other.hand_over_at_best)
    return replace(answer, goals=no_surer(answer.goals, other.goals), hand_over_at_best=at_best)


def _is_bound_by(answer: Answer, other: Answer) -> bool:
    """Whether an answer is not proven to be the best because another is, which has an earlier hand-over."""
    mine, theirs = answer.goals[0], other.goals[0]
    return theirs.value <= theirs.bound <= mine.bound and theirs.bound < mine.value


def _solved(job: Job, effort: float, told: Tell, tidy: bool = True) -> _Solved:
    """The plan of a job in the air that its own layers make; what is assumed of that air, in sentences.

    The first plan is made as if no layer wetted the air of another step; nothing that it rules out is possible, but for
    windows that move with a layer: without them hardly anything is ruled out. Where somebody has stopped it, the plan
    at hand settles in its air in the order it has.
    """

    near: dict[str, Minute] = {}
    stopped = False

    def made(cases: Cases) -> _Made:
        nonlocal stopped
        found = _made(cases[job.name], 0.0 if stopped else effort, told, near, tidy)
        stopped = stopped or found.answer.interrupted
        found = replace(found, answer=replace(found.answer, interrupted=stopped))
        near.update(found.answer.starts)
        return found

    def times(made: _Made) -> dict[str, Times]:
        return {job.name: made.times}

    def sound(cases: Cases, made: _Made) -> bool:
        kept, _ = without_given_up(job, made.answer.released)
        return not audit(kept, cases[job.name].airs, made.times)

    plan = in_own_air({job.name: Case(job, airs(job))}, made, times, sound)
    case = plan.cases[job.name]
    answer = plan.made.answer if plan.made is plan.first else _no_surer(plan.made.answer, plan.first.answer)
    air = DRIER_AIR if _is_bound_by(plan.made.answer, plan.first.answer) else ""
    moved = moved_by_others(case)
    if moved:
        free = plan.first.network.without_bookings(answer.released)
        answer = _no_surer(answer, first_answer(free.without_windows(moved)))
    network = build(case) if case.drying else plan.made.network
    return case, network, answer, plan.made.times, (DAMPER,) * len(plan.damper), plan.sound, air


@dataclass(frozen=True)
class _Made:
    network: Network
    answer: Answer
    times: Times


def _made(case: Case, effort: float, told: Tell, near: Mapping[str, Minute], tidy: bool) -> _Made:
    """`near`: the starts of a plan made in nearly the same air; none: there is none."""
    network = build(case)
    try:
        answer = solve(network, effort, told, near, tidy) if effort else first_answer(network, near)
    except NoAnswer as none:
        if case.drying:
            raise NoOrderFits((NONE_FOUND, TOO_DAMP)) from none
        said = first_sentences(case.job, none)
        if not effort and case.job.past and not none.certain:
            raise NoOrderFits((*said, MORE_EFFORT)) from none
        raise NoOrderFits(said, partial(no_order_fits, case.job, case.airs)) from none
    return _Made(network, answer, times_of(network, answer))


def _late(job: Job, steps: Iterable[str]) -> tuple[str, ...]:
    """Air that is taken to change later than the step it begins with is done, in sentences."""
    return tuple(f"air after {job.step(id).title} ({id}) taken to begin later: no plan settles it" for id in steps)


def timed(job: Job, plan: Plan) -> Timed:
    """A job beside the times of its plan, for whoever asks what held its steps up."""
    ends = {step.id: step.end for step in plan.steps}
    settled = replace(job, cushion_used=frozenset(plan.cushions_used)).with_air_from(ends)
    case = as_they_dry(Case(settled, airs(settled)), ends)
    network = build(case)
    network = replace(network, rules=(*network.rules, *elsewhere_rules(job, plan.elsewhere)))
    return Timed(case, network, Times({step.id: step.pieces for step in plan.steps}, plan.finish))


def _audited(
    case: Case, network: Network, answer: Answer, times: Times, assumed: tuple[str, ...], sound: bool, air: str
) -> Plan:
    """The plan, once the audit has found nothing against it; `sound`: of its rules it has, so its goals are left."""
    job, given_up = without_given_up(case.job, answer.released)
    said = {goal.name: goal.value for goal in answer.goals}
    broken = (*(() if sound else audit(job, case.airs, times)), *miscounted(case.job, case.airs, times, said))
    if broken:
        raise BrokenPlan("\n".join(broken))
    plan = write(Case(job, case.airs, case.drying) if given_up else case, network, answer, times)
    at_best_in = "" if plan.proven else air
    return replace(plan, released=given_up, assumed=(*plan.assumed, *assumed), at_best_in=at_best_in)
