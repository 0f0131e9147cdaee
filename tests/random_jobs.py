"""Tiny random jobs, written as files: two recipes of four or five steps, and calendars of an hour or two a day."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from random import Random

PLACES = (
    ("Europe/London", date(2025, 12, 1)),
    ("America/Halifax", date(2026, 3, 6)),
    ("Europe/London", date(2026, 3, 26)),
    ("America/Halifax", date(2026, 10, 29)),
)
"""Winter time, and the weeks in which the clocks change."""

HOURS = {
    "hours: 08:00-09:00": ("08:00", "08:20"),
    "hours: 07:30-10:00, break: 08:15-09:30": ("07:30", "09:30"),
    "hours: 11:00-13:15, break: 11:45-12:30": ("11:00", "11:10", "12:45"),
    "hours: 08:00-16:00, break: 08:30-15:15, set up: 15 min": ("08:15", "15:23"),
    "hours: 09:00-10:15, clean up: 15 min": ("09:00", "09:30"),
    "hours: 09:00-11:00, hour known: no": ("09:00",),
}
"""How somebody works, the last one an inspector, and hours at which a visit may be booked."""

DAYS = ("Mon to Sun", "Mon to Fri", "Mon to Sat", "[Mon, Wed, Fri, Sun]", "Tue to Sat")
AIR = (
    "air: 17 C 65 %",
    "air: 18 C 06:00-10:00, 6 C otherwise, 70 %",
    "air: {{{start}: 12 C 85 %, {third}: heated to 22 C}}",
    "air: 21 C 09:00-12:00, 3 C otherwise, 55 %",
)
LAWS = (
    "fixed", "at 20 C, cement law", "at 21 C 50 %, water film law", "at 21 C, rapid cement law", "at 20 C, epoxy law",
)  # fmt: skip
SURFACES = ("[floor]", "[wet walls]", "[ceiling]", "[floor, wet walls]", "[shower floor]", "[]")


FURTHER = 1000
"""The first seed whose job may ask for more: see Further."""


VISITS = 2000
"""The first seed whose job has somebody with notice and, if it can be, a firm visit."""


class Further:
    """What a house asks for and what has to be decided, drawn apart, from the seed `FURTHER` on."""

    def __init__(self, seed: int) -> None:
        self.random = Random(f"{seed} further")
        asks = [word for word in ("access", "lift", "toilet", "look in", "fumes", "decision") if self.maybe(0.25)]
        self.asks = asks if seed >= FURTHER else []

    def maybe(self, chance: float) -> bool:
        return self.random.random() < chance

    def step(self, number: int, place: int, following: str) -> list[str]:
        found = []
        if "lift" in self.asks and self.maybe(0.3):
            found.append("    lift: yes")
        if "look in" in self.asks and following and self.maybe(0.5):
            found.append(f"    look in: every {self.random.choice((7, 16, 24, 40))} h (c)")
        if "fumes" in self.asks and self.maybe(0.4):
            found.append(f"    fumes: for {self.random.choice((1, 2, 5))} h (c)")
        if "toilet" in self.asks and number == 0 and place == 0 and following:
            found.append(f"    toilet: {self.random.choice(('off', 'off', 'off for the day'))}")
        if "toilet" in self.asks and number == 0 and place and not following:
            found.append("    toilet: back")
        return found

    def house(self, start: date) -> list[str]:
        found = []
        if "access" in self.asks:
            every_day, week = "08:15-11:30", "[Mon to Fri 07:30-12:15, Sat 09:00-12:00, Sun 08:30-11:00]"
            found.append(f"access: {self.random.choice((every_day, week))}")
        if "lift" in self.asks:
            days = [start + timedelta(days=number) for number in sorted(self.random.sample(range(7), 4))]
            hours = ("07:30-09:30", "08:00-12:00", "09:00-13:15")
            found.append(f"lift: [{', '.join(f'{day.isoformat()} {self.random.choice(hours)}' for day in days)}]")
        if "toilet" in self.asks:
            nights = self.random.choice((0, 1, 1, 2, 3))
            without = f", {nights} nights without at most" if nights else ""
            found.append(f'only toilet: "back every evening{without}"')
        if "fumes" in self.asks and self.maybe(0.5):
            found.append(f"fumes: gone by {self.random.choice(('14:00', '20:00'))}")
        return found

    def waited_for(self, orders: list[str]) -> list[str]:
        """The job's orders, perhaps looked at or hanging on a decision, and the decision."""
        if "decision" not in self.asks:
            return orders
        days = self.random.choice((1, 2))
        decided = ["decisions:", f"  colour: {{before: r1 s0, ask by: {days} working day{'s' * (days > 1)}}}"]
        more = self.random.choice(("", ", once decided: colour", ", check: 20 min", ", check: 2 h"))
        orders = [line.replace("}", f"{more}}}") for line in orders]
        tiles = any("tiles:" in line for line in orders)
        return [*orders, *decided, *(["must haves: {r0: tiles}"] if tiles and self.maybe(0.4) else [])]


class RandomJob:
    """The texts of one job; the same seed writes the same files. With a `start` it lies in steady air and plain UTC."""

    def __init__(self, seed: int, start: date | None = None) -> None:
        self.random = Random(seed)
        self.further = Further(seed)
        self.visits = Random(f"{seed} visits") if seed >= VISITS else None
        self.start = start
        self.mended = self.maybe(0.2)
        self.sizes = (1, 2, 1) if self.mended else self.random.choice(((2, 2), (3, 1), (3, 2), (2, 3)))
        self.apart = not self.mended and self.maybe(0.25)
        self.days = self.random.choice((7, 9, 12))
        self.trades: dict[tuple[int, int], str] = {}
        *common, inspector = HOURS
        self.hours = {"you": self.pick(*common), "tiler": self.pick(*common), "inspector": inspector}

    def maybe(self, chance: float) -> bool:
        return self.random.random() < chance

    def pick(self, *words: str) -> str:
        return self.random.choice(words)

    def write(self, folder: Path) -> None:
        """Writes job.yaml and its recipes."""
        (folder / "recipes").mkdir(parents=True, exist_ok=True)
        for number in range(len(self.sizes)):
            (folder / "recipes" / f"r{number}.yaml").write_text(self.recipe(number), "utf-8")
        (folder / "job.yaml").write_text(self.job(), "utf-8")

    def wait(self, listener: str) -> str:
        law = self.pick(*LAWS)
        hours = self.random.choice((2, 5, 16, 24, 40))
        said = f"after {hours} h {law}" if law.startswith("at") else f"after {hours} h, {law}"
        if self.maybe(0.15):
            said += f", never under {hours + self.random.choice((-1, 8))} h"
        if self.maybe(0.3):
            within = self.random.choice((4, 20, 30, 50))
            said += f", within {within} h of ready" if self.maybe(0.5) else f", within {hours + 10 + within} h"
        if self.maybe(0.15):
            said += self.pick(", stops below 8 C", ", spoils below 4 C", ", stops above 80 %")
        return f"{listener}: {said} (c)"

    def step(self, number: int, place: int, name: str, following: str) -> list[str]:
        """One step; `following` is the step below it, or empty for the last."""
        minutes = self.random.choice((15, 20, 30, 30, 45, 60, 75))
        held = self.maybe(0.12)
        self.trades[number, place] = "inspector" if held else self.pick("you", "you", "tiler")
        lines = [f"    do: Step {place} of {number}", f"    hours: {minutes} min (c)"]
        lines.append(f"    by: {self.trades[number, place]}")
        surfaces = ("[wet walls]", "[floor, wet walls]", "[]") if self.mended else SURFACES
        works_on = self.pick(*surfaces)
        lines.append(f"    works on: {works_on}")
        if held:
            lines.append("    hold: a look behind the wall")
        waits = [self.wait(self.pick("next", following))] if following and self.maybe(0.6) else []
        if works_on != "[]" and self.maybe(0.4):
            purpose = self.pick("foot", "cover")
            waits.append(self.wait(purpose))
            lines.append(f"    {self.pick('keep off', 'leave it')}: until ready for {purpose}")
        if place == 0 and number == 0 and following and self.maybe(0.2) and not any("until" in line for line in lines):
            lines.append(f"    keep off: until s{self.sizes[0] - 1} is done")
        if self.maybe(0.25):
            waits.append(self.wait(self.pick("dust", "dust", "shaking")))
        if self.maybe(0.15):
            waits.append(self.wait("load"))
        if self.mended and number == 1:
            lines += ["    gives: [done]"] if not following else ["    takes back: [done]"]
        if number == 0 and not following:
            given = "done"
            if self.maybe(0.5) and not any(wait.startswith("cover") for wait in waits):
                waits.append(self.wait("cover"))
                given = "done when ready for cover"
            lines.append(f"    gives: [{given}]")
        if waits:
            lines += ["    ready for:", *(f"      {wait}" for wait in waits)]
        lines += self.extras(held, minutes, any("until" in line or "dust:" in line for line in lines))
        lines += self.further.step(number, place, following)
        return [f"  {name}:", *lines]

    def extras(self, held: bool, minutes: int, tender: bool) -> list[str]:
        found = [
            ("    makes: [machine dust]", 0.15), ("    makes: [hand dust]", 0.15),
            ("    manner: wet film", 0.2 if tender else 0.0),
            ("    stands: on a plank", 0.1), ("    stands: at the door", 0.05), ("    air: at least 8 C (c)", 0.15),
            ("    air: 4 h before at least 5 C (c)", 0.05), ("    noise: yes", 0.0 if held else 0.15),
            ("    off: [house water]", 0.1 if minutes < 60 else 0.0), ("    place: shop", 0.05),
            ("    kind: look", 0.0 if held else 0.07), ("    makes: [shaking]", 0.1),
        ]  # fmt: skip
        chosen: dict[str, str] = {}
        for line, chance in found:
            if self.maybe(chance):
                chosen.setdefault(line.split(":")[0], line)
        if "    manner" not in chosen and minutes <= 30 and not held and self.maybe(0.3):
            chosen["    manner"] = "    manner: in one go"
        return list(chosen.values())

    def recipe(self, number: int) -> str:
        names = [f"s{place}" for place in range(self.sizes[number])]
        lines = ["format: 1", f"recipe: r{number}", f"title: R{number}", 'sources: {c: "common practice, no source"}']
        if number == 2 or (number == 1 and self.maybe(0.5)):
            lines.append("needs: ['bath: done']" if self.apart else "needs: [done]")
        if self.maybe(0.1):
            lines.append("open framing: yes")
        lines.append("steps:")
        for place, name in enumerate(names):
            lines += self.step(number, place, name, names[place + 1] if place + 1 < len(names) else "")
        return "\n".join(lines) + "\n"

    def job(self) -> str:
        zone, start = self.random.choice(PLACES)
        air = self.pick(*AIR)
        if self.start is not None:
            zone, start, air = "Etc/UTC", self.start, AIR[0]
        third = start + timedelta(days=2)
        tiler = [f"days: {self.pick(*DAYS)}", self.hours["tiler"]]
        for key, chance in (
            ("cushion: 30 min", 0.15), ("shortest visit: 30 min", 0.15), ("notice: 1 working day", 0.15),
            ("hands: 2", 0.1), ("travel: 30 min", 0.2),
        ):  # fmt: skip
            tiler += [key] if self.maybe(chance) else []
        if self.visits is not None and not any("notice" in key for key in tiler):
            tiler.append(f"notice: {self.visits.choice((1, 2, 3))} working days")
        inspector = [f"days: {self.pick('Mon to Fri', 'Mon to Sun')}", self.hours["inspector"]]
        inspector += ["ask by: 15:00 the day before"] if self.maybe(0.5) else []
        lines = ["format: 1", "job: tiny", f"place: {{zone: {zone}}}", f"start: {start.isoformat()}"]
        lines += ["hand over needs: [load]"] if self.maybe(0.7) else []
        lines += ["people:", f"  you: {{days: {self.pick(*DAYS)}, {self.hours['you']}}}"]
        lines += [f"  tiler: {{{', '.join(tiler)}}}", f"  inspector: {{{', '.join(inspector)}}}"]
        house = [
            *self.further.house(start),
            *(["people live here: yes"] if self.maybe(0.3) else []),
            *(["noise: 08:15-12:45"] if self.maybe(0.5) else []),
            *(["water off: 1 h at a time"] if self.maybe(0.3) else []),
        ]  # fmt: skip
        lines += [f"house: {{{', '.join(house)}}}"] if house else []
        lines.append(air.format(start=start.isoformat(), third=third.isoformat()))
        lines += ["rooms:", "  bath:", *self.room("r0", "" if self.apart else "r1")]
        if self.apart:
            lines += ["  hall:", *self.room("r1", "")]
            lines += ["    reached through: bath"] if self.maybe(0.4) else []
        orders, booked = self.further.waited_for(self.orders()), self.booked(start)
        if self.visits is not None and (theirs := [at for at, trade in self.trades.items() if trade == "tiler"]):
            number, place = self.visits.choice(theirs)
            day = start + timedelta(days=self.visits.randrange(1, 5))
            visit = f"r{number} s{place}"
            line = f"  - tiler, {day.isoformat()} {self.visits.choice(HOURS[self.hours['tiler']])}, {visit}"
            booked = ["booked:", line, *(other for other in booked[1:] if not other.endswith(visit))]
        return "\n".join([*lines, *orders, *booked]) + "\n"

    def room(self, first: str, second: str) -> list[str]:
        lines = ["    areas: {floor: 4 m2, shower floor: 1 m2, wet walls: 6 m2, ceiling: 4 m2}"]
        lines += ["    at once: 2"] if self.maybe(0.3) else []
        lines += ["    recipes:", f"      {first}:"]
        if second:
            order = self.pick("", "", "{after: r0 s0}", "{before: r0}", "{after: r0}")
            lines += [f"      {second}: {order}".rstrip(), *(["      r2:"] if self.mended else [])]
        return lines

    def orders(self) -> list[str]:
        if self.maybe(0.2):
            return ["orders:", f"  tiles: {{for: r1 s{self.random.randrange(self.sizes[1])}, lead: 1 working day}}"]
        if self.maybe(0.15):
            return ["orders:", "  glass: {for: r1 s1, made after: r1 s0, lead: 1 working day}"]
        return []

    def booked(self, start: date) -> list[str]:
        if not self.maybe(0.15):
            return []
        found = ["booked:"]
        for number in self.random.sample((0, 1), self.random.choice((1, 1, 2))):
            at = start + timedelta(days=self.random.randrange(1, 4))
            trade = self.trades[number, 0]
            found.append(f"  - {trade}, {at.isoformat()} {self.pick(*HOURS[self.hours[trade]])}, r{number} s0")
        return found
