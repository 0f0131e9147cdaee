"""What a new job shall be: from flags, then from answers, then from what stands if nobody answers."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterable
from dataclasses import replace

from sequencer.answers.new_job.build_ups import ASKS, LAYERS, BuildUp
from sequencer.answers.new_job.questions import ROOM, Question
from sequencer.answers.new_job.text import lasting
from sequencer.answers.new_job.wishes import RoomWish, Wishes
from sequencer.cli.ask import ask, tell

Faults = Callable[[Wishes], list[str]]
"""What is wrong with the job that wishes make, in sentences."""


class NoAnswer(Exception):
    """A flag that says nothing the job can use; the text says what to write."""


def wishes_of(arguments: argparse.Namespace, known: tuple[Question, ...], asking: bool, faults: Faults) -> Wishes:
    """The wishes. NoAnswer where a flag cannot be read; `faults` tells whether an answer can stand."""
    said = {one.key: _said(one, _flag(arguments, one.key) or one.default) for one in known}
    people = dict(_pair(text, "--person") for text in arguments.person or ())
    rooms = _each_once(tuple(_room(text) for text in arguments.room or [ROOM.default]))
    wishes = _with_layers(Wishes(said, rooms, people), arguments)
    if not asking:
        return wishes
    for question in known:
        if _flag(arguments, question.key) is None:
            wishes = _answered(wishes, question, faults)
    if not arguments.room:
        wishes = replace(wishes, rooms=_rooms_asked(wishes, faults))
    for layer, build_ups in LAYERS.items():
        if _flag(arguments, layer) is None:
            wishes = replace(wishes, rooms=tuple(_layer_asked(room, layer, build_ups) for room in wishes.rooms))
    return wishes


def _flag(arguments: argparse.Namespace, key: str) -> str | None:
    value: str | None = getattr(arguments, key.replace("-", "_"))
    return value


def _said(question: Question, answer: str) -> str:
    heard = question.heard(answer)
    if heard is None:
        raise NoAnswer(f'"{answer}" is no answer to "{question.ask}?"; write {" or ".join(question.words)}')
    return heard


def _each_once(rooms: tuple[RoomWish, ...]) -> tuple[RoomWish, ...]:
    names = [room.name for room in rooms]
    if twice := [name for name in names if names.count(name) > 1]:
        raise NoAnswer(f'--room "{twice[0]}" stands twice; give each room a name of its own')
    return rooms


def _pair(text: str, flag: str) -> tuple[str, str]:
    name, colon, rest = text.partition(":")
    if not colon or not name.strip() or not rest.strip():
        raise NoAnswer(f'{flag} "{text}" has no name; write {flag} "NAME: ..."')
    return name.strip(), rest.strip()


def _room(text: str) -> RoomWish:
    title, size = _pair(text, "--room")
    usual = {layer: next(iter(build_ups)) for layer, build_ups in LAYERS.items()}
    return RoomWish(lasting(title), size, usual, title)


def _with_layers(wishes: Wishes, arguments: argparse.Namespace) -> Wishes:
    """The build-ups that flags name: `--floor tile` in every room, `--floor "en-suite: vinyl"` in one."""
    for layer, build_ups in LAYERS.items():
        for text in getattr(arguments, layer) or ():
            where, _, word = text.rpartition(":")
            if word.strip() not in build_ups:
                raise NoAnswer(f'--{layer} knows no "{word.strip()}"; write one of: {", ".join(build_ups)}')
            if where and lasting(where) not in [room.name for room in wishes.rooms]:
                raise NoAnswer(f'--{layer} names no room "{where.strip()}"; name one with --room')
            wishes = replace(
                wishes,
                rooms=tuple(
                    room.with_build_up(layer, word.strip()) if not where or lasting(where) == room.name else room
                    for room in wishes.rooms
                ),
            )
    return wishes


def _answered(wishes: Wishes, question: Question, faults: Faults) -> Wishes:
    def tried(answer: str) -> Wishes:
        return replace(wishes, said={**wishes.said, question.key: _said(question, answer)})

    def wrong(answer: str) -> list[str]:
        try:
            return faults(tried(answer))
        except NoAnswer as none:
            return [str(none)]

    return tried(ask(question.ask, question.default, question.reason, wrong))


def _rooms_asked(wishes: Wishes, faults: Faults) -> tuple[RoomWish, ...]:
    rooms: tuple[RoomWish, ...] = ()
    while True:
        question = ROOM if not rooms else replace(ROOM, ask="One more room, and its size", default="none", reason="")

        def wrong(answer: str, before: Iterable[RoomWish] = rooms) -> list[str]:
            if answer == "none":
                return []
            try:
                return faults(replace(wishes, rooms=_each_once((*before, _room(answer)))))
            except NoAnswer as none:
                return [str(none)]

        answer = ask(question.ask, question.default, question.reason, wrong)
        if answer == "none":
            return rooms
        rooms = (*rooms, _room(answer))


def _layer_asked(room: RoomWish, layer: str, build_ups: dict[str, BuildUp]) -> RoomWish:
    usual = next(iter(build_ups))
    tell([f"{word}: {one.title}" for word, one in build_ups.items()])
    question = ASKS[layer].format(room=room.title or room.name)
    wrong = f"write one of: {', '.join(build_ups)}"
    answer = ask(question, usual, build_ups[usual].reason, lambda said: [] if said in build_ups else [wrong])
    return room.with_build_up(layer, answer)
