"""A recipe: an assembly as a list of steps with their waits, as its file says it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from sequencer.terms.place import Place
from sequencer.terms.wait import Limit, Wait

Kind = Literal["work", "hold", "measure", "look"]
Grade = Literal["keep off", "leave"]
Stand = Literal["floor", "plank", "door", "elsewhere"]
Toilet = Literal["off", "off for the day", "back"]


@dataclass(frozen=True)
class Hours:
    """Hands-on time: `fixed` [min] plus `per_area` [min/m2], at least `least` [min]; range as factors."""

    fixed: float
    per_area: float
    least: float
    low: float
    high: float
    source: str
    place: Place

    def minutes(self, area: float) -> int:
        """Whole minutes of work for an area [m2], rounded up, middle of the range."""
        return max(1, -int(-max(self.least, self.fixed + self.per_area * area) // 1))


@dataclass(frozen=True)
class Water:
    """Water a layer gives off until it is ready for `purpose`: `fixed` [kg] plus `per_area` [kg/m2]."""

    fixed: float
    per_area: float
    purpose: str
    source: str
    place: Place


@dataclass(frozen=True)
class Length:
    """A length of time [min] and where it comes from."""

    minutes: int
    source: str
    place: Place


@dataclass(frozen=True)
class Cable:
    """A heating cable, which cannot be cut: it keeps `margin` [m] off the walls."""

    margin: float
    source: str
    place: Place


@dataclass(frozen=True)
class Closing:
    """A surface stays closed after the step: until it is ready for `purpose`, or until step `until_done` is done."""

    grade: Grade
    purpose: str | None
    until_done: str | None
    place: Place


@dataclass(frozen=True)
class Given:
    """A state a step gives: at its end, or only when the layer is ready for `purpose`."""

    state: str
    purpose: str | None
    place: Place


@dataclass(frozen=True)
class Named:
    """A word with its place: a state needed, a step named."""

    word: str
    place: Place


@dataclass(frozen=True)
class RecipeStep:
    """One step as its recipe says it. `after` None: it follows the step above it. `why`: what its waits are for.

    `look_in`: how long what it leaves behind may be left alone, until its recipe goes on. `fumes`: how long they stay
    after the work. `lift`: it carries by the lift. `toilet`: it takes the toilet away, or gives it back.
    """

    name: str
    title: str
    place: Place
    kind: Kind
    trade: str
    hours: Hours
    surfaces: tuple[str, ...]
    one_go: bool = False
    wet_film: bool = False
    makes: tuple[str, ...] = ()
    stands: Stand = "floor"
    hands: int = 1
    where: str | None = None
    after: tuple[tuple[str, str | None, Place], ...] | None = None
    needs: tuple[Named, ...] = ()
    follows: tuple[Named, ...] = ()
    gives: tuple[Given, ...] = ()
    takes_back: tuple[Named, ...] = ()
    air: tuple[Limit, ...] = ()
    waits: tuple[Wait, ...] = ()
    water: Water | None = None
    why: str | None = None
    closing: Closing | None = None
    services_off: tuple[str, ...] = ()
    noisy: bool = False
    lift: bool = False
    look_in: Length | None = None
    fumes: Length | None = None
    toilet: Toilet | None = None
    hold: str | None = None
    if_failed: tuple[Named, ...] = ()
    if_too_late: str | None = None
    record: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Costs:
    """What a way of doing something costs more than the usual one, less if under 0, in the money of the job."""

    more: float
    source: str
    place: Place


@dataclass(frozen=True)
class Way:
    """Another way of doing a recipe, faster as a rule. `steps`: those that differ, as they then are."""

    name: str
    title: str
    place: Place
    steps: tuple[RecipeStep, ...]
    costs: Costs | None = None


@dataclass(frozen=True)
class Recipe:
    """A recipe file, checked. `sources` maps a short letter to the source's full words. `ways`: how else it is done."""

    name: str
    title: str
    place: Place
    steps: tuple[RecipeStep, ...]
    covers: str = ""
    sources: dict[str, str] = field(default_factory=dict)
    cautions: tuple[str, ...] = ()
    open_framing: bool = False
    cable: Cable | None = None
    ways: tuple[Way, ...] = ()

    def done(self, way: str) -> Recipe:
        """The recipe done another way. KeyError if it has no such way."""
        others = {one.name: one for one in self.ways}[way]
        steps = {step.name: step for step in others.steps}
        return replace(self, steps=tuple(steps.get(step.name, step) for step in self.steps))
