"""The shape of a recipe file."""

from __future__ import annotations

import re
from typing import Annotated, Any

from sequencer.files.border import Model
from sequencer.files.cable_text import parse_cable
from sequencer.files.damp_text import parse_water
from sequencer.files.fields import (
    gathered,
    may_be_empty,
    one_of,
    parse_format,
    parse_name,
    parse_named,
    parse_yes,
    place_of,
    said,
    said_each,
    table_of,
    text_of,
    texts_of,
    told,
)
from sequencer.files.hours_text import parse_work
from sequencer.files.length_text import fumes_of, look_in_of
from sequencer.files.limits_text import parse_limits
from sequencer.files.quantities import parse_count
from sequencer.files.refs import Ref, parse_closing, parse_given, parse_ref
from sequencer.files.tree import Rows, pieces
from sequencer.files.vocabulary import MANNERS, SERVICES, STANDS, TOILET
from sequencer.files.wait_text import parse_wait
from sequencer.files.way_model import WayModel
from sequencer.files.wrong import Wrong
from sequencer.terms.practice import MAKES
from sequencer.terms.recipe import Cable, Closing, Given, Hours, Length, Named, Water
from sequencer.terms.wait import Limit, Wait
from sequencer.terms.words import SURFACES

_STEP_NAME = re.compile(r"[^\W_][\w '’+&.-]*")


def _hours(node: Any, context: dict[str, Any]) -> Hours:
    text = text_of(node)
    return parse_work(text, place_of(text), context["sources"])


def _air(node: Any, context: dict[str, Any]) -> tuple[Limit, ...]:
    text = text_of(node)
    limits, source = context["sources"].split(text)
    return parse_limits(limits, place_of(text), source)


def _water(node: Any, context: dict[str, Any]) -> Water:
    text = text_of(node)
    return parse_water(text, place_of(text), context["sources"])


def _cable(node: Any, context: dict[str, Any]) -> Cable:
    text = text_of(node)
    return parse_cable(text, place_of(text), context["sources"])


def _waits(node: Any, context: dict[str, Any]) -> tuple[Wait, ...]:
    table = table_of(node)

    def one(key: str) -> Wait:
        text = text_of(table[key])
        return parse_wait(key, text, place_of(text), context["sources"])

    return tuple(gathered(one, table))


def _manner(node: Any, context: dict[str, Any]) -> tuple[str, ...]:
    words = texts_of(node) if isinstance(node, Rows) else pieces(text_of(node))
    return tuple(map(str, gathered(one_of(MANNERS, "manner"), words)))


def _surfaces(node: Any, context: dict[str, Any]) -> tuple[str, ...]:
    surfaces = gathered(one_of(SURFACES, "surface"), texts_of(node))
    for at, surface in enumerate(surfaces):
        if surface in surfaces[:at]:
            raise Wrong(surface, f'"{surface}" stands here twice', "name it once")
    return tuple(str(surface) for surface in surfaces)


def parse_step_name(text: str) -> str:
    """A step's name: free words, but nothing a reference could not tell apart. Raises Wrong."""
    if not _STEP_NAME.fullmatch(text) or text in ("start", "next") or re.search(r" (ready|when|is) ", f" {text} "):
        raise Wrong(text, f'"{text}" cannot name a step', "use other words: letters, digits, spaces, hyphens")
    return text


Surfaces = Annotated[tuple[str, ...] | None, told(_surfaces)]
States = Annotated[tuple[Named, ...] | None, said_each(parse_named)]
Gives = Annotated[tuple[Given, ...] | None, said_each(parse_given)]
Lines = Annotated[tuple[str, ...] | None, said_each(str)]
Line = Annotated[str | None, said(str)]


class StepModel(Model):
    """A step as written, in a recipe or in a job's `change`: what is not said is None."""

    do: Line = None
    by: Annotated[str | None, said(str)] = None
    hours: Annotated[Hours | None, told(_hours)] = None
    works_on: Surfaces = None
    manner: Annotated[tuple[str, ...] | None, told(_manner)] = None
    makes: Annotated[tuple[str, ...] | None, said_each(one_of(MAKES, "disturbance"))] = None
    stands: Annotated[str | None, said(one_of(STANDS, "place to stand"))] = None
    place: Line = None
    hands: Annotated[int | None, said(parse_count)] = None
    after: Annotated[tuple[Ref, ...] | None, said_each(parse_ref)] = None
    needs: States = None
    follows: States = None
    gives: Gives = None
    takes_back: States = None
    air: Annotated[tuple[Limit, ...] | None, told(_air)] = None
    ready_for: Annotated[tuple[Wait, ...] | None, told(_waits)] = None
    water: Annotated[Water | None, told(_water)] = None
    why: Line = None
    keep_off: Annotated[Closing | None, said(lambda text: parse_closing(text, "keep off"))] = None
    leave_it: Annotated[Closing | None, said(lambda text: parse_closing(text, "leave"))] = None
    off: Annotated[tuple[str, ...] | None, said_each(one_of(SERVICES, "service"))] = None
    noise: Annotated[bool | None, said(parse_yes)] = None
    lift: Annotated[bool | None, said(parse_yes)] = None
    look_in: Annotated[Length | None, told(look_in_of)] = None
    fumes: Annotated[Length | None, told(fumes_of)] = None
    toilet: Annotated[str | None, said(one_of(TOILET, "word for the toilet"))] = None
    hold: Line = None
    kind: Annotated[str | None, said(one_of(("measure", "look"), "kind of step"))] = None
    if_failed: States = None
    if_too_late: Line = None
    record: Lines = None
    cautions: Lines = None


class RecipeModel(Model):
    """A recipe file as written."""

    format: Annotated[str, said(parse_format)]
    recipe: Annotated[str, said(parse_name)]
    title: Annotated[str, said(str)]
    covers: Line = None
    works_on: Surfaces = None
    needs: States = None
    follows: States = None
    gives: Gives = None
    takes_back: States = None
    sources: Any = None
    cautions: Lines = None
    open_framing: Annotated[bool | None, said(parse_yes)] = None
    cable: Annotated[Cable | None, told(_cable)] = None
    ways: dict[str, WayModel] = {}
    steps: dict[str, Annotated[StepModel, may_be_empty]]
