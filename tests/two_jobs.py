"""Two tiny jobs that share people, drawn at random, and a search through all their plans with the audit as judge.

All lengths, hours, waits and ways are whole hours, so the earliest plans lie on the hour.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from random import Random

from tiny_jobs import HERE, booking, job, moment, room, step, trade, wait

from sequencer.audit import Times, audit, audit_several
from sequencer.audit.across import broken
from sequencer.network.model import End
from sequencer.planning import NoOrderFits, airs, plans_of
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import DAY, HOUR, Minute, Span
from sequencer.terms.recipe import Recipe

SHARED = frozenset({"you", "plumber"})
HOURS = ("8-10", "8-9, 10-11", "9-11", "11-13")
EFFORT = 0.3
DAYS = ("Mon Tue Wed Thu Fri", "Mon Wed Fri", "Mon Tue Wed Thu Fri Sat Sun")


def shared(*jobs: Job, people: frozenset[str] = SHARED, **promises: str) -> tuple[Job, ...]:
    """The jobs, named a, b, c, and the people they share; `promises`: the moments promised, by name."""
    found = []
    for name, each in zip("abc", jobs, strict=False):
        promise = moment(promises[name]) if name in promises else None
        recipes = {one.recipe: Recipe(one.recipe, one.recipe, HERE, ()) for one in each.steps}
        found.append(replace(each, name=name, title=name.upper(), shared=people, promise=promise, recipes=recipes))
    return tuple(found)


def drawn(seed: int) -> tuple[Job, ...]:
    """Two jobs of two or three steps; the same seed draws the same."""
    random = Random(seed)
    people = [
        trade("you", random.choice(HOURS), random.choice(DAYS)),
        trade(
            "plumber", random.choice(HOURS), random.choice(DAYS), hands=random.choice((1, 1, 1, 2)),
            travel=random.choice((0, 0, HOUR)),
        ),
    ]  # fmt: skip
    jobs = [_job(random, people) for _ in "ab"]
    promises = {name: f"{random.choice(('Tue', 'Wed', 'Thu'))} 0" for name in "ab" if random.random() < 0.7}
    return shared(*jobs, **promises)


def _job(random: Random, people: list) -> Job:  # type: ignore[type-arg]
    steps: list[Step] = []
    for name in "xyz"[: random.choice((2, 2, 3))]:
        after = f"{steps[-1].name} ready for next" if steps and steps[-1].waits else steps[-1].name if steps else ""
        stands = [wait("next", random.choice((1, 2, 15, 24)))] if random.random() < 0.4 and name != "z" else []
        steps.append(step(
            name, HOUR * random.choice((1, 1, 2)), by=random.choice(("plumber", "plumber", "you")),
            after=after if random.random() < 0.7 else "", waits=stands,
            where="shop" if random.random() < 0.15 else None,
        ))  # fmt: skip
    heard = {link.id for each in steps for link in each.links if link.purpose}
    steps = [replace(each, waits=each.waits if each.id in heard else ()) for each in steps]
    firm = [booking("x", "Tue 9", steps[0].trade)] if random.random() < 0.2 and _works(people, steps[0]) else []
    rooms = [room("bath", at_once=random.choice((1, 2)))]
    return _cut(job(*steps, trades=people, rooms=rooms, bookings=tuple(firm)), random.choice((4, 5)))


def _works(people: list, one: Step) -> bool:  # type: ignore[type-arg]
    days = next(trade.days for trade in people if trade.name == one.trade)
    return any(a <= moment("Tue 9") < b for day in days for a, b in day.spans)


def _cut(one: Job, days: int) -> Job:
    """The job with its calendars ended after some days."""
    end = one.start + days * DAY
    trades = {
        name: replace(trade, days=tuple(day for day in trade.days if day.spans[-1][1] <= end))
        for name, trade in one.trades.items()
    }
    return replace(one, trades=trades, horizon=end)


def compare(seed: int) -> tuple[tuple[int, int] | None, tuple[int, int] | None]:
    """Days late and half-days: of the plans, and of all orders of work tried; on the firm visits the plans keep."""
    jobs = drawn(seed)
    try:
        plans = plans_of(jobs, EFFORT)
    except NoOrderFits as none:
        assert str(none).startswith("No order of work fits")
        return None, best(tuple(each.with_bookings(()) for each in jobs))
    assert plans.proven
    gone = {plan.job: {each.step for each in plan.released} for plan in plans.plans}
    kept = tuple(
        each.with_bookings(tuple(b for b in each.bookings if b.step not in gone[each.name])) for each in jobs
    )
    return (plans.days_late, plans.goals[1].value), best(kept)


def best(jobs: tuple[Job, ...]) -> tuple[int, int] | None:
    """Days late and half-days of all hand-overs in the best plans of two jobs; None if none keep all rules."""
    tried = [list(_plans(one)) for one in jobs]
    costs = [[(*_cost(one, times), times) for times in plans] for one, plans in zip(jobs, tried, strict=True)]
    pairs = sorted(product(*costs), key=lambda pair: (sum(c[0] for c in pair), sum(c[1] for c in pair)))
    for pair in pairs:
        times = {one.name: cost[2] for one, cost in zip(jobs, pair, strict=True)}
        if not list(broken(jobs, times)):
            assert not audit_several(jobs, {one.name: airs(one) for one in jobs}, times)
            return sum(cost[0] for cost in pair), sum(cost[1] for cost in pair)
    return None


def _cost(one: Job, times: Times) -> tuple[int, int]:
    end = End("", one.half_days, one.promise)
    return int(end.days_late(times.hand_over)), int(end.half_day(times.hand_over))  # type: ignore[arg-type]


def _plans(one: Job) -> Iterator[Times]:
    """Every plan of a job by itself that keeps all rules, handed over as early as can be."""
    air = airs(one)
    places = [list(_places(one, each)) for each in one.steps]
    moments = [at for day in one.trades["you"].days for a, b in day.spans for at in range(a, b + 1, HOUR)]
    for chosen in product(*places):
        pieces = {each.id: spans for each, spans in zip(one.steps, chosen, strict=True)}
        last = max(spans[-1][1] for spans in chosen)
        over = min((at for at in moments if at >= last), default=None)
        if over is not None and not audit(one, air, Times(pieces, over)):
            yield Times(pieces, over)


def _places(one: Job, each: Step) -> Iterator[tuple[Span, ...]]:
    """Every run of work of a step, from each hour its trade works on through the hours that follow."""
    hours = [at for day in one.trades[each.trade].days for a, b in day.spans for at in range(a, b, HOUR)]
    need = each.minutes // HOUR
    for number in range(len(hours) - need + 1):
        yield tuple(_joined(hours[number : number + need]))


def _joined(hours: list[Minute]) -> Iterator[Span]:
    start = hours[0]
    for hour, after in zip(hours, [*hours[1:], None], strict=True):
        if after != hour + HOUR:
            yield start, hour + HOUR
            if after is not None:
                start = after
