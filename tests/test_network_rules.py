"""Every rule of the network in its own tiny job: it speaks, the plan keeps it, and without it the plan goes wrong."""

from __future__ import annotations

import pkgutil
from dataclasses import dataclass
from importlib import import_module

import numpy as np
import pytest
from tiny_jobs import (
    HERE,
    air,
    booking,
    case_of,
    decision,
    for_so_long,
    ident,
    job,
    keep_off,
    leave,
    limit,
    moment,
    named,
    network_of,
    nights,
    order,
    room,
    solved,
    spans,
    step,
    toilet,
    trade,
    wait,
)

from sequencer.audit import Times, audit
from sequencer.network import build, rules
from sequencer.network.model import (
    HAND_OVER,
    AllowedStarts,
    AtMost,
    CountedCost,
    Network,
    OneAtATime,
    Order,
    WaitFor,
    Window,
)
from sequencer.planning import airs
from sequencer.terms.air import AirSaid, AirSwitch
from sequencer.terms.house import House
from sequencer.terms.job import Job
from sequencer.terms.practice import MAKES
from sequencer.writeup import times_of

WET = step("wet", on="floor", waits=[wait("foot", 3)], closing=keep_off("foot"))


@dataclass(frozen=True)
class Row:
    """`module` emits a `primitive` that says `text`; without it the audit finds exactly `breaks` in the plan."""

    module: str
    job: Job
    primitive: type
    text: str
    breaks: tuple[str, ...]


ROWS = {
    "a step follows the end of another": Row(
        "order", job(step("a"), step("b", after="a", by="tiler"), rooms=[room("bath", at_once=2)]),
        Order, "a: done no sooner", ("bath/u/b starts before bath/u/a is done",),
    ),
    "a step follows the ready of another": Row(
        "order", job(step("a", waits=[wait("next", 24)]), step("b", after="a ready for next")),
        WaitFor, "a: has to stand first", ("bath/u/b starts before bath/u/a is ready for next",),
    ),
    "a state is given first": Row(
        "order", job(step("a", by="tiler", gives="dry"), step("hall/u/b", needs="bath: dry")),
        Order, "a: done no sooner",
        ("hall/u/b starts before bath/u/a is done", "hall/u/b needs bath: dry, which nobody has given by then"),
    ),
    "a layer is followed in time": Row(
        "within",
        job(
            step("a", waits=[wait("next", 2, within_minutes=240)]), step("b", after="a ready for next", by="tiler"),
            trades=[trade("tiler", days="Wed")],
        ),
        Window, "b must follow a in time", ("bath/u/b starts too late after bath/u/a",),
    ),
    "a state that is away keeps others out": Row(
        "taken_back",
        job(
            step("niche/cut", takes_back="tight", on="wet walls"),
            step("niche/mend", after="niche/cut", gives="tight", on="wet walls", by="tiler"),
            step("set", needs="tight", on="wet walls/left", by="setter"), trades=[trade("tiler", days="Tue")],
            rooms=[room("bath", already=named("tight"))],
        ),
        OneAtATime, "cut takes back tight", ("bath/u/set needs tight while bath/niche/cut has taken it back",),
    ),
    "one step a surface": Row(
        "surfaces",
        job(step("a", on="wet walls"), step("b", on="wet walls", by="tiler"), rooms=[room("bath", at_once=2)]),
        OneAtATime, "the wet walls",
        ("bath/u/a and bath/u/b meet on a surface that is closed to one of them",),
    ),
    "one step a room": Row(
        "standing", job(step("a", on="wet walls"), step("b", on="ceiling", by="tiler")),
        OneAtATime, "the bath", ("bath/u/a, bath/u/b are in the bath at once",),
    ),
    "so many steps a room": Row(
        "standing", job(step("a"), step("b", by="tiler"), step("c", by="setter"), rooms=[room("bath", at_once=2)]),
        AtMost, "at most 2 steps at once in the bath", ("bath/u/a, bath/u/b, bath/u/c are in the bath at once",),
    ),
    "nobody on a closed floor": Row(
        "standing", job(WET, step("b", after="wet", on="ceiling")),
        OneAtATime, "the bath", ("bath/u/b stands on a floor that bath/u/wet keeps closed",),
    ),
    "nobody over the closed floor of another room": Row(
        "standing",
        job(
            step("hall/u/a", on="floor", waits=[wait("foot", 3)], closing=keep_off("foot")), step("b", by="tiler"),
            rooms=[room("hall"), room("bath", reached_through="hall")],
        ),
        OneAtATime, "the bath", ("bath/u/b stands on a floor that hall/u/a keeps closed",),
    ),
    "dust keeps off what is wet": Row(
        "disturbances", job(step("a", makes=("machine dust",)), step("b", waits=[wait("dust", 1)], by="tiler")),
        OneAtATime, "b does not bear dust yet", ("bath/u/a makes dust, which bath/u/b does not bear yet",),
    ),
    **{
        f"{made} keeps off what does not bear it": Row(
            "disturbances", job(step("a", makes=(made,), after="b"), step("b", waits=[wait(word, 1)], by="tiler")),
            OneAtATime, f"b does not bear {word} yet", (f"bath/u/a makes {word}, which bath/u/b does not bear yet",),
        )
        for made, (word, _) in MAKES.items()
    },
    "a wet film keeps dust out until its surface opens": Row(
        "disturbances",
        job(
            step("a", makes=("hand dust",), on="ceiling", after="b"),
            step("b", wet_film=True, on="wet walls", waits=[wait("cover", 4)], closing=leave("cover"), by="tiler"),
        ),
        OneAtATime, "b does not bear dust yet", ("bath/u/a makes dust, which bath/u/b does not bear yet",),
    ),
    "one pair of hands": Row(
        "trades", job(step("a"), step("hall/u/b")),
        OneAtATime, "your time",
        ("bath/u/a needs more hands of you than there are", "hall/u/b needs more hands of you than there are"),
    ),
    "three people": Row(
        "trades", job(step("a", hands=2), step("hall/u/b", hands=2), trades=[trade("you", hands=3)]),
        AtMost, "your time",
        ("bath/u/a needs more hands of you than there are", "hall/u/b needs more hands of you than there are"),
    ),
    "time to travel": Row(
        "trades",
        job(
            step("a", where="shop"), step("b", after="a"), trades=[trade("you", travel=30)]
        ),
        OneAtATime, "you are on the way", ("you has no time to travel between bath/u/a and bath/u/b",),
    ),
    "a cushion behind the work in front": Row(
        "cushion", job(step("a"), step("b", after="a", by="plumber"), trades=[trade("plumber", cushion=240)]),
        WaitFor, "plumber is kept a cushion behind a",
        ("bath/u/b comes less than the cushion of plumber behind bath/u/a",),
    ),
    "notice": Row(
        "notice",
        job(step("a", by="plumber"), trades=[trade("plumber", earliest=moment("Thu 0"), notice_words="3 days notice")]),
        AllowedStarts, "plumber needs 3 days notice", ("bath/u/a comes sooner than the notice of plumber allows",),
    ),
    "asking in time": Row(
        "notice",
        job(
            step("a", by="office", kind="hold"), now="Mon 7:30",
            trades=[trade("office", weeks=1, hour_known=False, ask_by=tuple(
                moment(words) for words in ("Mon 7", "Tue 7", "Wed 7", "Thu 7", "Fri 7")
            ))],
        ),
        AllowedStarts, "too late to ask office", ("bath/u/a: it is too late to ask office for that day",),
    ),
    "a firm visit": Row(
        "bookings", job(step("a"), bookings=(booking("a", "Tue 9"),)),
        AllowedStarts, "you is booked for a", ("bath/u/a is not at the hour it is booked for",),
    ),
    "no visit under the shortest": Row(
        "shortest_visit",
        job(step("a", 240, by="plumber"), now="Mon 15", trades=[trade("plumber", shortest_visit=120)]),
        AllowedStarts, "plumber does not come for less than 2 h",
        ("bath/u/a brings plumber for less than the shortest visit",),
    ),
    "air that forbids work": Row(
        "air",
        job(
            step("a", air=(limit("while working", coldest=10.0),)),
            rooms=[room("bath", air=air(("Mon 0", "Tue 0", 5.0, 0.5), ("Tue 0", "Sun2 0", 15.0, 0.5)))],
        ),
        AllowedStarts, "the air in the room does not allow a", ("bath/u/a is done in air it does not allow",),
    ),
    "air that was wrong before": Row(
        "air",
        job(
            step("a", air=(limit("before", coldest=10.0, hours_before=24.0),)), now="Tue 8",
            rooms=[room("bath", air=air(("Mon 0", "Tue 0", 5.0, 0.5), ("Tue 0", "Sun2 0", 15.0, 0.5)))],
        ),
        AllowedStarts, "the air in the room does not allow a", ("bath/u/a has had the wrong air before it",),
    ),
    "air that spoils a layer": Row(
        "air",
        job(
            step("a", waits=[wait("load", 24, limit("spoils", coldest=10.0))]),
            rooms=[room("bath", air=air(("Mon 0", "Mon 20", 15.0, 0.5), ("Mon 20", "Tue 0", 5.0, 0.5)))],
        ),
        AllowedStarts, "the air would spoil a", ("bath/u/a is spoilt by the air before it is ready for load",),
    ),
    "heat that is to be on by then": Row(
        "changing_air",
        job(
            step("a", 300), step("b"),
            rooms=[room("bath", air=AirSaid(switches=(AirSwitch((ident("a"),), (), HERE, moment("Mon 14"), True),)))],
        ),
        AllowedStarts, "a brings the air that what follows needs",
        ("the air of the bath is taken to change before bath/u/a is done",),
    ),
    "material that comes": Row(
        "deliveries", job(step("a"), orders=(order("a", arrives="Wed 0"),)),
        AllowedStarts, "tiles is not on site before", ("bath/u/a starts before tiles is on site",),
    ),
    "material that is made": Row(
        "deliveries", job(step("m"), step("a", after="m"), orders=(order("a", made_after="m", lead=2),)),
        WaitFor, "tiles is not on site before", ("bath/u/a starts before tiles is on site",),
    ),
    "a service that must be back": Row(
        "house",
        job(step("a", 90, services_off=("house water",)), now="Mon 11", house=House(services={"house water": 120})),
        AllowedStarts, "house water may be off for 120 min at a time",
        ("bath/u/a takes the house water off for longer than the house allows",),
    ),
    "carrying while the lift is booked": Row(
        "lift", job(step("a", lift=True), house=House(lift=spans("Mon 15-17, Tue 9-11"))),
        AllowedStarts, "the lift is not booked for a sooner", ("bath/u/a carries while the lift is not booked",),
    ),
    "fumes in the room": Row(
        "fumes",
        job(step("a", fumes=for_so_long(2)), step("b", by="tiler"), rooms=[room("bath", at_once=2)]),
        OneAtATime, "a: fumes in the room", ("bath/u/b is done in the fumes of bath/u/a",),
    ),
    "fumes in the evening": Row(
        "fumes",
        job(
            step("a", fumes=for_so_long(9)), now="Mon 13",
            house=House(fumes_gone=spans("Mon 20-24, Tue 20-24")),
        ),
        AllowedStarts, "fumes of a have to be gone by", ("bath/u/a leaves fumes in the house for too long",),
    ),
    "a toilet that comes back": Row(
        "toilet", job(step("a"), step("b", after="a", by="plumber"), trades=[trade("plumber", days="Wed")],
                      house=toilet("a", "b", 1)),
        Window, "a: the house is without its toilet for 1 night at most",
        ("bath/u/a takes the toilet away for 2 nights",),
    ),
    "a test that is looked after": Row(
        "look_in",
        job(step("a", look_in=for_so_long(20)), step("b", after="a", by="tiler"), now="Thu 13",
            trades=[trade("tiler", days="Mon")]),
        Window, "a: somebody has to look in every 20 h", ("bath/u/a is left alone for too long before bath/u/b",),
    ),
    "who lives there sleeps at night": Row(
        "look_in",
        job(step("a", look_in=for_so_long(7)), step("b", after="a", by="tiler"),
            trades=[trade("tiler", "8-9"), trade("you", "8-9")], house=House(lived_in=True, nights=nights())),
        Window, "a: somebody has to look in every 7 h", ("bath/u/a is left alone for too long before bath/u/b",),
    ),
    "a decision": Row(
        "decisions", job(step("a"), decisions=(decision("a", "Tue 0"),)),
        AllowedStarts, "client has not decided on colour before", ("bath/u/a starts before client decides on colour",),
    ),
    "material that is looked at": Row(
        "deliveries", job(step("a"), orders=(order("a", arrives="Mon 8", check=60),)),
        AllowedStarts, "tiles is not on site and checked before", ("bath/u/a starts before tiles is on site",),
    ),
    "hand-over": Row(
        "hand_over", job(step("a", waits=[wait("load", 24)]), hand_over_needs=("load",)),
        WaitFor, "a: ready for load no sooner",
        ("hand-over comes before bath/u/a is done", "hand-over comes before bath/u/a is ready for load"),
    ),
}  # fmt: skip


def plan(of: Job, network: Network) -> Times:
    """The solver's times."""
    return times_of(network, solved(network))


def without(module: str, of: Job, monkeypatch: pytest.MonkeyPatch) -> Network:
    """The job's network with one rule of the trade left out."""
    left_out = import_module(f"sequencer.network.rules.{module}")
    assert left_out in build.RULES
    monkeypatch.setattr(build, "RULES", tuple(rule for rule in build.RULES if rule is not left_out))
    return network_of(of)


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_a_rule_says_what_it_asks(row: Row) -> None:
    emitted = list(import_module(f"sequencer.network.rules.{row.module}").rules(case_of(row.job)))
    assert any(isinstance(rule, row.primitive) and row.text in rule.why.text for rule in emitted)


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_with_the_rule_the_plan_is_sound_and_without_it_the_audit_refuses_it(
    row: Row, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert audit(row.job, airs(row.job), plan(row.job, network_of(row.job))) == ()
    astray = plan(row.job, without(row.module, row.job, monkeypatch))
    assert tuple(dict.fromkeys(audit(row.job, airs(row.job), astray))) == row.breaks


def test_without_its_cost_nothing_is_moved_early(monkeypatch: pytest.MonkeyPatch) -> None:
    tiny = job(step("a", after=""), step("b", by="tiler"), step("hall/u/c", by="plumber"))
    network = network_of(tiny)
    assert {rule.task for rule in network.of(CountedCost)} == {*network.tasks}
    assert len({rule.weight for rule in network.of(CountedCost)}) == len(network.tasks)
    soon = plan(tiny, network)
    assert soon.pieces["hall/u/c"] == spans("Mon 8-9")
    assert {soon.pieces["bath/u/a"], soon.pieces["bath/u/b"]} == {spans("Mon 8-9"), spans("Mon 9-10")}
    assert without("soonest", tiny, monkeypatch).of(CountedCost) == []


def test_every_rule_has_a_row() -> None:
    modules = {info.name for info in pkgutil.iter_modules(rules.__path__)}
    assert {row.module for row in ROWS.values()} | {"soonest"} == modules
    assert {f"sequencer.network.rules.{name}" for name in modules} == {rule.__name__ for rule in build.RULES}


def test_hand_over_comes_last_and_a_name_of_its_own() -> None:
    network = network_of(job(step("a")))
    assert list(network.tasks) == ["bath/u/a", HAND_OVER]


def test_a_state_that_only_a_repair_gives_is_waited_for() -> None:
    tiny = job(
        step("niche/cut", takes_back="tight", on="wet walls"),
        step("niche/mend", after="niche/cut", gives="tight", on="wet walls", by="tiler"),
        step("set", needs="tight", on="wet walls/left", by="setter"),
        trades=[trade("tiler", days="Tue")],
    )
    found = plan(tiny, network_of(tiny))
    assert audit(tiny, airs(tiny), found) == ()
    assert found.pieces["bath/u/set"] == spans("Tue 9-10")


def test_a_firm_visit_that_is_given_up_takes_along_what_was_to_be_done_on_its_day() -> None:
    tiny = job(
        step("a", by="plumber"), step("b", by="plumber"), bookings=(booking("a", "Tue 9", "plumber"),),
        trades=[trade("plumber", earliest=moment("Thu 0"))],
    )  # fmt: skip
    kept, given_up = network_of(tiny), network_of(tiny).without_bookings((ident("a"),))
    assert plan(tiny, kept).pieces[ident("b")] == spans("Tue 8-9")
    assert {*plan(tiny, given_up).pieces.values()} == {spans("Thu 8-9"), spans("Thu 9-10")}


def test_firm_visits_that_are_given_up_one_after_the_other_are_given_up_together() -> None:
    tiny = job(
        step("a", by="plumber"), step("b", by="plumber"), step("c", by="plumber"),
        bookings=(booking("a", "Tue 9", "plumber"), booking("b", "Wed 9", "plumber")),
        trades=[trade("plumber", earliest=moment("Thu 0"))],
    )  # fmt: skip
    one_by_one = network_of(tiny).without_bookings((ident("a"),)).without_bookings((ident("b"),))
    assert min(plan(tiny, one_by_one).pieces.values()) == spans("Thu 8-9")


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_the_later_an_end_the_later_what_hangs_on_it(row: Row) -> None:
    network = network_of(row.job)
    ends = np.arange(network.start, network.horizon, 5, dtype=np.int64)
    functions = [rule.ready for rule in network.of(WaitFor)] + [rule.latest for rule in network.of(Window)]
    claims = [claim for kind in (OneAtATime, AtMost) for rule in network.of(kind) for claim in rule.claims]
    for function in functions + [claim.until for claim in claims if claim.until is not None]:
        assert (np.diff(function(ends)) >= 0).all()
