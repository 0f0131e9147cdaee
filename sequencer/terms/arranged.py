"""What is arranged with others: orders, firm visits, decisions, and the ways a recipe can be done."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.terms.minute import Minute
from sequencer.terms.place import Place
from sequencer.terms.recipe import Way


@dataclass(frozen=True)
class Order:
    """Something ordered for steps. It is on site at `arrives`, or a lead after `made_after` ends.

    `lead_days` [working days of the place]; `arrives` None: made to measure after step `made_after`.
    `ordered`: the day it was ordered, None if it is still to be ordered. `delivered`: when it was seen on site.
    `check` [min]: of your working hours before it is used. `decision`: the one it hangs on.
    """

    name: str
    item: str
    for_steps: tuple[str, ...]
    place: Place
    lead_days: int
    ordered: Minute | None = None
    arrives: Minute | None = None
    made_after: str | None = None
    delivered: Minute | None = None
    check: int = 0
    decision: str | None = None


@dataclass(frozen=True)
class Booking:
    """A firm visit: the step starts at this minute."""

    trade: str
    at: Minute
    step: str
    place: Place


@dataclass(frozen=True)
class Decision:
    """Something `by` somebody decides before steps start: not before `stands` [Minute].

    `ask_days` [working days of the place]: how long before it is asked for. `decided`: it is known already.
    """

    name: str
    by: str
    for_steps: tuple[str, ...]
    place: Place
    ask_days: int
    stands: Minute
    decided: bool = False


@dataclass(frozen=True)
class Choice:
    """The ways a recipe in a room can be done besides its usual one, with the job's costs; `used` None: the usual one.

    `key`: where the recipe stands in the job; its `use:` says the way.
    """

    room: str
    use: str
    recipe: str
    ways: tuple[Way, ...]
    used: str | None
    key: Place
