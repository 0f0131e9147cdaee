"""Tiny jobs made by hand, and plans of them in words: `job(step("a"), step("b", after="a"))`, `"Mon 8-12, Tue 8-9"`.

All hours are UTC. The first week starts on Monday 2 March 2026; `Tue2` is the Tuesday of the second week. The id of a
step is room/use/name; in words "a" stands for bath/u/a, "other/a" for bath/other/a, and "hall/u/a" for itself.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime
from typing import Any

from sequencer.audit import Times, audit
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.model import Network
from sequencer.planning import airs
from sequencer.solve import Answer, solve
from sequencer.terms.air import AirSaid, AirStatement
from sequencer.terms.arranged import Booking, Decision, Order
from sequencer.terms.house import Absence, House
from sequencer.terms.job import Job, Link, Room, Step, Surface, Trade, Workday
from sequencer.terms.minute import DAY, HOUR, Minute, Span, minute_of
from sequencer.terms.place import Place
from sequencer.terms.recipe import Closing, Given, Hours, Length, Named
from sequencer.terms.wait import Limit, Wait

HERE = Place("job.yaml")
MONDAY = minute_of(datetime(2026, 3, 2, tzinfo=UTC))
WEEK = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
WORKDAYS = "Mon Tue Wed Thu Fri"


def ident(words: str) -> str:
    """The id a step's words stand for."""
    return ("bath/u/", "bath/", "")[words.count("/")] + words


def moment(words: str) -> Minute:
    """The minute of `Mon 8`, `Tue2 8:30`."""
    day, clock = words.split()
    hour, _, minute = clock.partition(":")
    weeks = int(day[3:] or 1) - 1
    return MONDAY + (7 * weeks + WEEK.index(day[:3])) * DAY + int(hour) * HOUR + int(minute or 0)


def spans(words: str) -> tuple[Span, ...]:
    """The spans of `Mon 8-12, Tue 8-9:30`."""
    found = []
    for part in words.split(", "):
        day, clock = part.split()
        start, end = clock.split("-")
        found.append((moment(f"{day} {start}"), moment(f"{day} {end}")))
    return tuple(found)


def workdays(hours: str = "8-12, 13-16", days: str = WORKDAYS, weeks: int = 2) -> tuple[Workday, ...]:
    """Every working day of some weeks."""
    names = [f"{day}{week + 1}" for week in range(weeks) for day in days.split()]
    return tuple(Workday(spans(", ".join(f"{name} {part}" for part in hours.split(", ")))) for name in names)


def trade(name: str, hours: str = "8-12, 13-16", days: str = WORKDAYS, weeks: int = 2, **more: Any) -> Trade:
    """A trade with plain days."""
    return Trade(name, workdays(hours, days, weeks), HERE, **more)


def named(words: str | Iterable[str]) -> tuple[Named, ...]:
    """States by their words."""
    return tuple(Named(word, HERE) for word in ([words] if isinstance(words, str) else words) if word)


def ready_for(words: str) -> tuple[str, str | None]:
    """Splits `coat ready for foot` and `tiled ready for grout`."""
    head, _, purpose = words.partition(" ready for ")
    return head, purpose or None


def wait(purpose: str, hours: float, *limits: Limit, law: str = "fixed", **more: Any) -> Wait:
    """A wait, by the clock unless a law is named."""
    return Wait(purpose, law, hours, HERE, "c", limits=limits, **more)


def limit(kind: Any, **figures: float) -> Limit:
    """A limit of air."""
    return Limit(kind, HERE, **figures)


def keep_off(until: str) -> Closing:
    """Keep off until ready for a purpose, or `until X is done`."""
    return _closing("keep off", until)


def leave(until: str) -> Closing:
    """The same, for leave it."""
    return _closing("leave", until)


def _closing(grade: Any, until: str) -> Closing:
    done = until.removesuffix(" is done")
    return Closing(grade, until if done == until else None, None if done == until else done, HERE)


def step(
    name: str,
    minutes: int = 60,
    *,
    on: str = "",
    by: str = "you",
    after: str = "",
    needs: str = "",
    follows: str = "",
    gives: str = "",
    takes_back: str = "",
    waits: Iterable[Wait] = (),
    why: str = "recipe",
    **more: Any,
) -> Step:
    """A step. `on`: `floor, wet walls/left`; `after`: `a, other/b ready for foot`; `gives`: `tiled ready for grout`."""
    id = ident(name)
    room, use, own = id.split("/")
    links = [ready_for(words) for words in after.split(", ") if words]
    given = [ready_for(words) for words in gives.split(", ") if words]
    return Step(
        id=id, title=own, room=room, use=use, recipe=use, name=own, kind=more.pop("kind", "work"), trade=by,
        minutes=minutes, hours=Hours(minutes, 0, 0, 1, 1, "c", HERE), place=HERE,
        surfaces=tuple(Surface(*words.split("/")) for words in on.split(", ") if words),
        links=tuple(Link(ident(giver), purpose, why, HERE) for giver, purpose in links),
        needs=named(needs.split(", ")), follows=named(follows.split(", ")), takes_back=named(takes_back.split(", ")),
        gives=tuple(Given(state, purpose, HERE) for state, purpose in given), waits=tuple(waits), **more,
    )  # fmt: skip


def room(name: str, **more: Any) -> Room:
    """A room."""
    return Room(name, name, HERE, {}, **more)


def air(*periods: tuple[str, str, float, float]) -> AirSaid:
    """Air in periods: from, until, temperature [C], humidity [0..1]."""
    return AirSaid(tuple(AirStatement(moment(a), moment(b), t, h, "stated", HERE) for a, b, t, h in periods))


def order(words: str, arrives: str = "", made_after: str = "", lead: int = 0, check: int = 0) -> Order:
    """An order for a step: on site at a moment, or made after a measuring step."""
    at = moment(arrives) if arrives else None
    after = ident(made_after) if made_after else None
    return Order("tiles", "tiles", (ident(words),), HERE, lead, None, at, after, check=check)


def decision(words: str, stands: str, by: str = "client") -> Decision:
    """A decision a step waits for."""
    return Decision("colour", by, (ident(words),), HERE, 0, moment(stands))


def nights(weeks: int = 2) -> tuple[Span, ...]:
    """Every night from ten to six."""
    evenings = [MONDAY + day * DAY + 22 * HOUR for day in range(-1, 7 * weeks)]
    return tuple((evening, evening + 8 * HOUR) for evening in evenings)


def toilet(off: str, back: str, allowed: int = 0) -> House:
    """A house whose only toilet is away between two steps."""
    return House(nights=nights(), absences=(Absence(ident(off), ident(back), allowed, HERE),))


def for_so_long(hours: float) -> Length:
    """A length of time."""
    return Length(round(hours * HOUR), "c", HERE)


def booking(words: str, at: str, by: str = "you") -> Booking:
    """A firm visit."""
    return Booking(by, moment(at), ident(words), HERE)


def job(
    *steps: Step, trades: Iterable[Trade] = (), rooms: Iterable[Room] = (), weeks: int = 2, now: str = "", **more: Any
) -> Job:
    """A job of these steps; a trade or room that is not given is a plain one."""
    people = {name: trade(name, weeks=weeks) for name in ("you", *(one.trade for one in steps))}
    people |= {one.name: one for one in trades}
    places = {name: room(name) for name in dict.fromkeys(one.room for one in steps)} | {one.name: one for one in rooms}
    horizon = MONDAY + 7 * weeks * DAY
    days = [(at, at + DAY) for at in range(MONDAY, horizon, DAY) if (at - MONDAY) // DAY % 7 < 5]
    return Job(
        name="tiny", title="tiny", place=HERE, zone="UTC", start=MONDAY, now=moment(now) if now else MONDAY,
        horizon=horizon, promise=None, half_days=tuple(range(MONDAY, horizon + 1, DAY // 2)), working_days=tuple(days),
        closed_days={}, rooms=tuple(places.values()), trades=people, steps=tuple(steps), recipes={},
        house=more.pop("house", House()), **more,
    )  # fmt: skip


def times(plan: dict[str, str], over: str = "Fri2 15") -> Times:
    """A plan in words: the spans of every step, and hand-over."""
    return Times({ident(words): spans(said) for words, said in plan.items()}, moment(over))


def broken(of: Job, plan: Times) -> tuple[str, ...]:
    """What the audit says of a plan."""
    return audit(of, airs(of), plan)


def case_of(of: Job) -> Case:
    """The job in its air."""
    return Case(of, airs(of))


def network_of(of: Job) -> Network:
    """The job's network."""
    return build(case_of(of))


def solved(network: Network) -> Answer:
    """The shortest plan."""
    return solve(network, effort=0.2)
