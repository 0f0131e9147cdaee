"""Plans built by hand for the tests of the views: an invented bathroom, and small ones for single questions."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

from sequencer.plan import (
    After,
    Closed,
    Goal,
    Plan,
    PlannedOrder,
    PlannedStep,
    Ready,
    StillToCome,
    Visit,
    WaitedFor,
)
from sequencer.terms.place import Place

HALIFAX = "America/Halifax"
ROOM = "bathroom"


def t(words: str, zone: str = HALIFAX) -> int:
    """UTC minute of local words like "9 March 08:00", in 2026."""
    local = datetime.strptime(f"2026 {words}", "%Y %d %B %H:%M").replace(tzinfo=ZoneInfo(zone))
    return int(local.timestamp() // 60)


def spans(*words: str, zone: str = HALIFAX) -> tuple[tuple[int, int], ...]:
    """Spans of "9 March 08:00-12:00"."""
    found = []
    for word in words:
        day, hours = word.rsplit(" ", 1)
        first, last = hours.split("-")
        found.append((t(f"{day} {first}", zone), t(f"{day} {last}", zone)))
    return tuple(found)


def ready(
    purpose: str,
    at: str,
    *listeners: str,
    law: str = "fixed",
    hours: float = 24.0,
    reference: float = 24.0,
    latest: str | None = None,
    floor: float | None = None,
) -> Ready:
    """A wait of the invented job."""
    return Ready(
        purpose=purpose,
        at=t(at),
        latest=None if latest is None else t(latest),
        law=law,
        hours=hours,
        reference_hours=reference,
        floor_hours=floor,
        source="common practice, no source",
        working=f"{reference:g} h at 20 C; at 17 C 65 % here, {hours:g} h",
        place=Place("recipes/wetroom-membrane.yaml", 31, 14),
        listeners=tuple(listeners),
    )


def step(
    recipe: str,
    name: str,
    title: str,
    pieces: tuple[tuple[int, int], ...],
    surfaces: tuple[str, ...] = (),
    trade: str = "you",
    room: str = ROOM,
    **more: object,
) -> PlannedStep:
    """A step whose id is "room/recipe/name"."""
    plain = PlannedStep(
        id=f"{room}/{recipe}/{name}",
        title=title,
        kind="work",
        room=room,
        recipe=recipe,
        step=name,
        trade=trade,
        surfaces=surfaces,
        start=pieces[0][0],
        end=pieces[-1][1],
        pieces=pieces,
        work_minutes=sum(last - first for first, last in pieces),
        place=Place(f"recipes/{recipe}.yaml", 12, 3),
    )
    return replace(plain, **more)  # type: ignore[arg-type]


ALL = ("floor", "wet walls", "dry walls", "ceiling")
WET = ("floor", "wet walls")
B = f"{ROOM}/"


def orchard_row() -> Plan:
    """The invented job: a family bathroom that crosses a change of the clocks, Good Friday and an inspector."""
    steps = (
        step(
            "strip-out",
            "fixtures",
            "Fixtures out, water capped",
            spans("2 March 08:00-12:00"),
            ALL,
            waited_for=WaitedFor("start", None, "the job starts here", Place("job.yaml", 6, 8)),
            cautions=("Shut the house water off and prove it before cutting a pipe",),
        ),
        step(
            "strip-out",
            "walls",
            "Walls and floor stripped",
            spans("2 March 12:00-16:00", "3 March 08:00-16:00", "4 March 08:00-12:00"),
            ALL,
            after=(After(B + "strip-out/fixtures", None),),
            waited_for=WaitedFor("people", B + "strip-out/fixtures", "follows fixtures out", None),
        ),
        step(
            "rough-plumbing",
            "pipes",
            "Pipes and drain run",
            spans("5 March 08:00-15:00"),
            ("floor", "wet walls"),
            "plumber",
            after=(After(B + "strip-out/walls", None),),
            waited_for=WaitedFor("people", None, "the plumber comes Tue and Thu", Place("job.yaml", 12, 12)),
            room_for_a_slip=0,
        ),
        step(
            "rough-electrical",
            "cables",
            "Cables and boxes",
            spans("6 March 08:00-14:00"),
            ("wet walls", "dry walls", "ceiling"),
            "electrician",
            after=(After(B + "strip-out/walls", None),),
            room_for_a_slip=0,
            cautions=("A licensed electrician does this; the local code decides",),
        ),
        step(
            "floor-level",
            "pour",
            "Floor levelled",
            spans("6 March 14:30-16:00"),
            ("floor",),
            ready=(
                ready("foot", "6 March 22:00", hours=6, reference=5),
                ready(
                    "cover",
                    "9 March 02:00",
                    B + "wetroom-membrane/coat 1",
                    law="screed",
                    hours=57,
                    reference=48,
                ),
            ),
            record=("thickness",),
        ),
        step(
            "rough-inspection",
            "look",
            "Rough-in seen",
            spans("9 March 09:00-15:00"),
            ("wet walls", "dry walls", "ceiling"),
            "inspector",
            kind="hold",
            after=(After(B + "rough-plumbing/pipes", None), After(B + "rough-electrical/cables", None)),
            waited_for=WaitedFor(
                "inspection",
                None,
                "the inspector comes at some hour from 09:00 to 15:00",
                Place("job.yaml", 14, 14),
            ),
            room_for_a_slip=0,
        ),
        step(
            "board",
            "hang",
            "Boards hung and fixed",
            spans("9 March 15:00-16:00", "10 March 08:00-16:00"),
            ("wet walls", "dry walls", "ceiling"),
            after=(After(B + "rough-inspection/look", None),),
            waited_for=WaitedFor(
                "inspection",
                B + "rough-inspection/look",
                "nothing covers it before it passes",
                Place("recipes/rough-inspection.yaml", 9, 5),
            ),
            room_for_a_slip=0,
        ),
        step(
            "joint-compound",
            "tape",
            "Tape coat",
            spans("11 March 08:00-10:00"),
            ("dry walls", "ceiling"),
            after=(After(B + "board/hang", None),),
            ready=(
                ready(
                    "coat 2",
                    "13 March 15:00",
                    B + "joint-compound/coat 2",
                    law="joint compound",
                    hours=53,
                    reference=24,
                ),
            ),
        ),
        step(
            "wetroom-membrane",
            "coat 1",
            "First coat, corners and drain taped",
            spans("13 March 08:00-10:00"),
            WET,
            after=(After(B + "board/hang", None), After(B + "floor-level/pour", "cover")),
            ready=(
                ready(
                    "coat 2",
                    "13 March 14:45",
                    B + "wetroom-membrane/coat 2",
                    law="water film",
                    hours=4.75,
                    reference=4,
                    latest="14 March 10:00",
                ),
            ),
            if_too_late="Wash the first coat and put it on again",
            waited_for=WaitedFor("people", None, "you are elsewhere on Thu 12 March", Place("job.yaml", 11, 8)),
        ),
        step(
            "wetroom-membrane",
            "coat 2",
            "Second coat",
            spans("13 March 14:45-16:00"),
            WET,
            after=(After(B + "wetroom-membrane/coat 1", "coat 2"),),
            ready=(
                ready("foot", "14 March 06:15", law="water film", hours=14.25, reference=12),
                ready(
                    "water",
                    "16 March 01:00",
                    B + "wetroom-membrane/fill",
                    law="water film",
                    hours=57,
                    reference=48,
                    floor=24.0,
                ),
            ),
            waited_for=WaitedFor(
                "material",
                B + "wetroom-membrane/coat 1",
                "the first coat stands 4 h 45 min until it is ready for coat 2",
                Place("recipes/wetroom-membrane.yaml", 20, 7),
            ),
            record=("wet thickness", "air"),
            room_for_a_slip=0,
        ),
        step(
            "wetroom-membrane",
            "fill",
            "Drain plugged, filled to the mark",
            spans("16 March 08:00-08:30"),
            WET,
            after=(After(B + "wetroom-membrane/coat 2", "water"),),
            ready=(
                ready(
                    "read",
                    "17 March 08:30",
                    B + "wetroom-membrane/read",
                    law="flood wait",
                    latest="19 March 08:30",
                ),
            ),
            waited_for=WaitedFor(
                "material",
                B + "wetroom-membrane/coat 2",
                "the second coat stands 57 h until it is ready for water",
                Place("recipes/wetroom-membrane.yaml", 31, 7),
            ),
            record=("level", "time"),
            room_for_a_slip=0,
        ),
        step(
            "joint-compound",
            "coat 2",
            "Second coat of compound",
            spans("16 March 08:30-10:00"),
            ("dry walls", "ceiling"),
            after=(After(B + "joint-compound/tape", "coat 2"),),
            ready=(ready("next", "18 March 12:00", B + "paint/primer", law="joint compound", hours=50, reference=24),),
        ),
        step(
            "wetroom-membrane",
            "read",
            "Flood test read",
            spans("17 March 09:00-15:00"),
            WET,
            "inspector",
            if_failed=(B + "wetroom-membrane/drain", B + "wetroom-membrane/coat 2", B + "wetroom-membrane/fill"),
            kind="hold",
            after=(After(B + "wetroom-membrane/fill", "read"),),
            room_for_a_slip=0,
            waited_for=WaitedFor(
                "inspection",
                None,
                "the inspector comes at some hour from 09:00 to 15:00",
                Place("job.yaml", 14, 14),
            ),
        ),
        step(
            "wetroom-membrane",
            "drain",
            "Test drained",
            spans("17 March 15:00-15:30"),
            WET,
            after=(After(B + "wetroom-membrane/read", None),),
            room_for_a_slip=0,
            waited_for=WaitedFor(
                "inspection",
                B + "wetroom-membrane/read",
                "nothing goes on before it passes",
                Place("recipes/wetroom-membrane.yaml", 40, 5),
            ),
        ),
        step(
            "wall-tile",
            "set",
            "Wall tile set",
            spans("18 March 08:00-16:00", "19 March 08:00-16:00", "20 March 08:00-12:00"),
            ("wet walls",),
            after=(After(B + "wetroom-membrane/drain", None),),
            room_for_a_slip=0,
            ready=(ready("grout", "21 March 17:00", B + "grout/wipe", law="cement", hours=29),),
        ),
        step(
            "floor-tile",
            "lay",
            "Floor tile laid",
            spans("20 March 12:30-16:00"),
            ("floor",),
            after=(After(B + "wetroom-membrane/drain", None),),
            room_for_a_slip=0,
            ready=(
                ready("foot", "21 March 21:00", law="cement", hours=29),
                ready("grout", "21 March 21:00", B + "grout/wipe", law="cement", hours=29),
            ),
        ),
        step(
            "grout",
            "wipe",
            "Grout in, first wipe",
            spans("23 March 08:00-11:00"),
            WET,
            after=(After(B + "wall-tile/set", "grout"), After(B + "floor-tile/lay", "grout")),
            ready=(
                ready(
                    "polish",
                    "23 March 11:30",
                    B + "grout/polish",
                    latest="23 March 12:00",
                    hours=0.5,
                    reference=0.5,
                ),
            ),
            room_for_a_slip=0,
        ),
        step(
            "grout",
            "polish",
            "Haze polished off",
            spans("23 March 11:30-12:15"),
            WET,
            after=(After(B + "grout/wipe", "polish"),),
            room_for_a_slip=15,
            ready=(
                ready("foot", "24 March 16:15", law="cement", hours=28, reference=24),
                ready("steam", "20 April 12:15", law="cement", hours=672, reference=672),
            ),
        ),
        step(
            "paint",
            "primer",
            "Primer",
            spans("25 March 08:00-10:00"),
            ("dry walls", "ceiling"),
            ready=(ready("coat", "25 March 14:00", B + "paint/coat", law="paint", hours=4, reference=3),),
            after=(After(B + "joint-compound/coat 2", "next"),),
            room_for_a_slip=480,
        ),
        step(
            "paint",
            "coat",
            "Two coats of paint",
            spans("26 March 08:00-12:00"),
            ("dry walls", "ceiling"),
            after=(After(B + "paint/primer", "coat"),),
            room_for_a_slip=480,
        ),
        step(
            "glass-screen",
            "measure",
            "Screen measured on the tile",
            spans("25 March 10:00-10:30"),
            ("wet walls",),
            kind="measure",
            room_for_a_slip=0,
        ),
        step(
            "fixtures",
            "set",
            "Toilet, vanity and taps set",
            spans("2 April 08:00-15:00"),
            WET,
            "plumber",
            waited_for=WaitedFor("people", None, "the plumber comes Tue and Thu", Place("job.yaml", 12, 12)),
            room_for_a_slip=0,
        ),
        step(
            "glass-screen",
            "fit",
            "Screen fitted",
            spans("7 April 08:00-10:00"),
            ("wet walls",),
            after=(After(B + "glass-screen/measure", None),),
            room_for_a_slip=0,
            waited_for=WaitedFor("delivery", None, "the glass is on site Tue 7 April 08:00", Place("job.yaml", 60, 3)),
        ),
        step(
            "sealant",
            "joints",
            "Joints sealed",
            spans("7 April 10:00-12:00"),
            WET,
            after=(After(B + "glass-screen/fit", None), After(B + "fixtures/set", None)),
            ready=(ready("water", "8 April 17:00", B + "fixtures/hand over", law="sealant", hours=29),),
            room_for_a_slip=0,
        ),
        step(
            "fixtures",
            "hand over",
            "Look round with the client; say what may be used from when",
            spans("9 April 08:00-09:00"),
            kind="look",
            after=(After(B + "sealant/joints", "water"),),
            waited_for=WaitedFor(
                "material",
                B + "sealant/joints",
                "the joints stand 29 h until they are ready for water",
                Place("recipes/sealant.yaml", 14, 7),
            ),
        ),
    )

    def shut(
        surfaces: tuple[str, ...],
        grade: str,
        first: str,
        last: str,
        name: str,
        how: str = "sets",
        why: str = "",
    ) -> tuple[Closed, ...]:
        return tuple(
            Closed(ROOM, surface, grade, t(first), t(last), why or f"{name} {how}", B + name, how)  # type: ignore[arg-type]
            for surface in surfaces
        )

    closed = (
        *shut(("floor",), "keep off", "6 March 16:00", "6 March 22:00", "floor-level/pour"),
        *shut(WET, "keep off", "13 March 10:00", "13 March 14:45", "wetroom-membrane/coat 1"),
        *shut(WET, "keep off", "13 March 16:00", "14 March 06:15", "wetroom-membrane/coat 2"),
        *shut(WET, "keep off", "16 March 08:30", "17 March 15:30", "wetroom-membrane/fill", "water on"),
        *shut(("wet walls",), "leave", "20 March 12:00", "21 March 17:00", "wall-tile/set"),
        *shut(("floor",), "keep off", "20 March 16:00", "21 March 21:00", "floor-tile/lay"),
        *shut(("floor",), "keep off", "23 March 12:15", "24 March 16:15", "grout/polish"),
        *shut(("wet walls",), "leave", "23 March 12:15", "24 March 16:15", "grout/polish"),
        *shut(WET, "leave", "7 April 12:00", "8 April 17:00", "sealant/joints"),
    )
    return Plan(
        job="orchard-row",
        title="Family bathroom, Orchard Row",
        zone=HALIFAX,
        words="US",
        as_of=t("2 March 00:00"),
        start=t("2 March 00:00"),
        promise=t("25 April 00:00"),
        finish=t("9 April 09:00"),
        at_best=t("9 April 09:00"),
        goals=(Goal("hand-over", 77, 77), Goal("as early as can be", 1000, 990)),
        steps=tuple(sorted(steps, key=lambda one: (one.start, one.id))),
        closed=tuple(sorted(closed, key=lambda one: (one.start, one.surface))),
        visits=(
            Visit(
                "v1",
                "plumber",
                t("5 March 08:00"),
                t("5 March 15:00"),
                (B + "rough-plumbing/pipes",),
                "firm",
                None,
            ),
            Visit(
                "v2",
                "electrician",
                t("6 March 08:00"),
                t("6 March 14:00"),
                (B + "rough-electrical/cables",),
                "pencilled",
                t("27 February 16:00"),
            ),
            Visit(
                "v3",
                "inspector",
                t("9 March 09:00"),
                t("9 March 15:00"),
                (B + "rough-inspection/look",),
                "pencilled",
                t("8 March 15:00"),
            ),
            Visit(
                "v4",
                "inspector",
                t("17 March 09:00"),
                t("17 March 15:00"),
                (B + "wetroom-membrane/read",),
                "pencilled",
                t("16 March 15:00"),
            ),
            Visit(
                "v5",
                "plumber",
                t("2 April 08:00"),
                t("2 April 15:00"),
                (B + "fixtures/set",),
                "pencilled",
                t("26 March 16:00"),
            ),
        ),
        orders=(
            PlannedOrder(
                "floor tile",
                "floor tile",
                None,
                t("6 March 08:00"),
                t("20 March 12:30"),
                (B + "floor-tile/lay",),
                "ordered",
            ),
            PlannedOrder(
                "glass",
                "glass",
                t("25 March 10:30"),
                t("7 April 08:00"),
                t("7 April 08:00"),
                (B + "glass-screen/fit",),
                "to order",
            ),
        ),
        still_to_come=(StillToCome(B + "grout/polish", "steam", t("20 April 12:15")),),
        milestones={"toilet back": t("2 April 15:00"), "hand over": t("9 April 09:00")},
        assumed=("bathroom: 18 C 60 % from Mon 30 March on, because nothing says otherwise",),
        cautions=(
            (None, "Local code, the data sheet and licensed trades decide; this is only a plan"),
            (B + "strip-out/fixtures", "Shut the house water off and prove it before cutting a pipe"),
            (B + "rough-electrical/cables", "A licensed electrician does this; the local code decides"),
        ),
        room_titles={ROOM: "Family bathroom"},
        room_surfaces={ROOM: ("floor", "wet walls", "dry walls", "ceiling")},
        air_words={ROOM: "17 C 65 % on site"},
        finish_waited_for=WaitedFor(
            "material",
            B + "sealant/joints",
            "the joints stand 29 h until they are ready for water",
            Place("recipes/sealant.yaml", 14, 7),
        ),
        closed_days={t("3 April 00:00"): "Good Friday", t("6 April 00:00"): "Easter Monday"},
    )


def two_rooms() -> Plan:
    """A bathroom and a hall, one step each."""
    one = step("paint", "coat", "Paint", spans("2 March 08:00-12:00"), ("ceiling",))
    two = step("floor-tile", "lay", "Tile laid", spans("3 March 08:00-12:00"), ("floor",), room="hall")
    return replace(
        orchard_row(),
        steps=(one, two),
        closed=(),
        visits=(),
        orders=(),
        still_to_come=(),
        milestones={},
        assumed=(),
        cautions=(),
        promise=None,
        finish=t("3 March 12:00"),
        at_best=t("3 March 04:00"),
        goals=(Goal("hand-over", 4, 3),),
        room_titles={ROOM: "Bathroom", "hall": "Hall"},
        room_surfaces={ROOM: ("floor", "ceiling"), "hall": ("floor", "dry walls")},
        air_words={ROOM: "17 C 65 %", "hall": "14 C 75 %"},
    )
