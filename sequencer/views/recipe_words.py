"""A step of a recipe in words: hours, waits, the limits air sets it, with the letter of each number's source."""

from __future__ import annotations

from collections.abc import Callable

from sequencer.terms.recipe import Closing, Given, Hours, Length, Named, RecipeStep, Water
from sequencer.terms.wait import Limit, Wait
from sequencer.terms.words import MARKS, say_ready
from sequencer.views.clock import length, whole_days
from sequencer.waits.words import limit_words

STANDS = {"plank": "stands on a plank", "door": "stands at the door", "elsewhere": "stands elsewhere"}
TOILET = {
    "off": "takes the toilet away",
    "off for the day": "takes the toilet away, and it is back the same day",
    "back": "gives the toilet back",
}


def step_words(step: RecipeStep, sources: dict[str, str]) -> list[str]:
    """The sentences of a step, in the order one asks for them. `sources` by letter, as the recipe has them."""
    cited = _Cited(sources)
    said = [f"{step.trade}, {cited.hours(step.hours)}", _list("works on", step.surfaces)]
    said += [_names("needs", step.needs), _names("follows", step.follows), _names("takes back", step.takes_back)]
    said += [_after(step), *map(cited.limit, step.air), *map(cited.wait, step.waits), cited.water(step.water)]
    said += [f"why it stands: {step.why}" if step.why else ""]
    said += [_closing(step.closing)]
    said += [_list("gives", tuple(map(_given, step.gives))), *_manner(step), _list("makes", step.makes)]
    said += [_list("off meanwhile", step.services_off), "noisy: only in the hours the house allows" * step.noisy]
    said += ["carries by the lift" * step.lift, TOILET.get(step.toilet or "", "")]
    said += [cited.length("somebody looks in every", step.look_in), cited.length("fumes for", step.fumes)]
    said += [f"inspected: {step.hold}; nothing that covers it starts before it passes" if step.hold else ""]
    said += [_names("if it fails, again", step.if_failed), f"if too late: {step.if_too_late}" * bool(step.if_too_late)]
    said += [_list("write down", step.record), *(f"take care: {text}" for text in step.cautions)]
    return [text for text in said if text]


class _Cited:
    """Numbers in words, each with the letter of its source."""

    def __init__(self, sources: dict[str, str]) -> None:
        self.letters = {words: letter for letter, words in sources.items()}

    def _source(self, words: str) -> str:
        return f" ({self.letters.get(words, words)})" if words else ""

    def hours(self, hours: Hours) -> str:
        """2 h and 15 min a m2 of work, least 1 h, 0.8 to 1.6 times (c)"""
        parts = [length(round(hours.fixed))] * (hours.fixed > 0)
        parts += [f"{length(round(hours.per_area))} a m2"] * (hours.per_area > 0)
        least = f", least {length(round(hours.least))}" if hours.least else ""
        return f"{' and '.join(parts)} of work{least}{_range(hours.low, hours.high)}{self._source(hours.source)}"

    def wait(self, wait: Wait) -> str:
        """ready for water: after 48 h at 21 C 50 %, water film, never under 24 h (c)"""
        said = f"ready {say_ready(wait.purpose)}: {_stage(wait)}"
        said += "".join(f", then {_stage(stage).removeprefix('after ')}" for stage in wait.then)
        if wait.floor_hours is not None:
            said += f", never under {wait.floor_hours:g} h"
        if wait.within_minutes is not None:
            said += f", no later than {whole_days(wait.within_minutes)}{' of ready' * wait.within_of_ready}"
        said += "".join(f", {_LIMITS[limit.kind](limit)}" for limit in wait.limits if limit.kind != "stops")
        return said + _range(wait.low, wait.high) + self._source(wait.source)

    def water(self, water: Water | None) -> str:
        """gives off 1.2 kg/m2 of water until it is ready to be painted (c)"""
        if water is None:
            return ""
        kilograms = f"{water.per_area:.3g} kg/m2" if water.per_area else f"{water.fixed:.3g} kg"
        return f"gives off {kilograms} of water until ready {say_ready(water.purpose)}{self._source(water.source)}"

    def length(self, what: str, length: Length | None) -> str:
        """somebody looks in every 8 h (c)"""
        return f"{what} {whole_days(length.minutes)}{self._source(length.source)}" if length else ""

    def limit(self, limit: Limit) -> str:
        """air while working: 10 to 32 C, at most 85 % (c)"""
        return _LIMITS[limit.kind](limit) + self._source(limit.source)


def _stage(wait: Wait) -> str:
    """after 48 h at 21 C 50 %, water film, 2 mm deep"""
    air = "" if wait.at_temperature is None else f" at {round(wait.at_temperature, 1):g} C"
    air += "" if wait.at_humidity is None else f" {round(100 * wait.at_humidity)} %"
    said = f"after {whole_days(round(60 * wait.hours))}{air}, {wait.law}"
    if wait.strength is not None:
        said += f", {round(100 * wait.strength)} % of its strength"
    if wait.thickness is not None:
        said += f", {round(wait.thickness, 1):g} mm deep"
    return said + "".join(f", {_LIMITS[limit.kind](limit)}" for limit in wait.limits if limit.kind == "stops")


_LIMITS: dict[str, Callable[[Limit], str]] = {
    "while working": lambda limit: f"air while working: {limit_words(limit)}",
    "before": lambda limit: f"air while working and {limit.hours_before:g} h before: {limit_words(limit)}",
    "stops": lambda limit: f"goes on only at {limit_words(limit)}",
    "spoils": lambda limit: f"spoiled unless {limit_words(limit)}",
}


def _range(low: float, high: float) -> str:
    return "" if (low, high) == (1, 1) else f", {low:g} to {high:g} times"


def _list(word: str, texts: tuple[str, ...]) -> str:
    return f"{word}: {', '.join(texts)}" if texts else ""


def _names(word: str, names: tuple[Named, ...]) -> str:
    return _list(word, tuple(named.word for named in names))


def _given(given: Given) -> str:
    return f"{given.state} when ready {say_ready(given.purpose)}" if given.purpose else given.state


def _after(step: RecipeStep) -> str:
    if step.after is None:
        return ""
    named = tuple(f"{name} ready {say_ready(purpose)}" if purpose else name for name, purpose, _ in step.after)
    return _list("after", named or ("nothing of this recipe",))


def _closing(closing: Closing | None) -> str:
    if closing is None:
        return ""
    until = f"{closing.until_done} is done" if closing.until_done else f"ready {say_ready(closing.purpose or 'next')}"
    return f"{MARKS[closing.grade].asks} until {until}"


def _manner(step: RecipeStep) -> list[str]:
    return [
        "in one go, within one day" * step.one_go,
        "a wet film: no dust until it has set" * step.wet_film,
        STANDS.get(step.stands, ""),
        f"takes {step.hands} people" * (step.hands > 1),
        f"done at: {step.where}" if step.where else "",
    ]
