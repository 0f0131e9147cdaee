"""Whatever stands in the files: faults are told, nothing else is raised, and nothing hangs."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from time import monotonic

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from test_files_faulty import SHELF, VALID

from sequencer.files import library, read_job
from sequencer.files.recipe import recipe_of
from sequencer.files.text import text_of
from sequencer.terms.place import Fault, Faulty

TODAY = date(2026, 2, 23)
LONGEST = 5.0
"""No file takes the reader longer [s]; they take milliseconds, the rest is for a busy machine."""

PATIENT = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
RECIPES = {path.stem: path.read_text() for path in SHELF.glob("*.yaml")}
SIGNS = [*"{}[],:#&*!|>'\"%@`-? \n\t", ": ", " #x", "\n  ", "((", "0", "/", "é", "\x00", "until", "ready for", "start"]


@pytest.fixture(autouse=True)
def own_shelf(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(library, "recipes_folder", lambda: SHELF)


def only_faults(read: Callable[[], object]) -> tuple[Fault, ...]:
    """What is told; anything raised but Faulty fails, and so does a long wait."""
    began = monotonic()
    try:
        read()
        told: tuple[Fault, ...] = ()
    except Faulty as faulty:
        told = faulty.faults
        assert told
    assert monotonic() - began < LONGEST
    return told


def read_recipe(data: bytes) -> None:
    faults: list[Fault] = []
    file = recipe_of(text_of(data, "x.yaml"), "x.yaml", faults)
    if file is not None:
        file.made(faults)
    elif not faults:
        raise AssertionError("no recipe and no fault")
    if faults:
        raise Faulty(faults)


def job_of(folder: Path, data: bytes) -> Callable[[], object]:
    (folder / "job.yaml").write_bytes(data)
    return lambda: read_job(folder, TODAY)


def inside(faults: tuple[Fault, ...], data: bytes) -> None:
    """Every place told lies in the file."""
    lines = data.decode("utf-8-sig", "replace").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for fault in faults:
        assert 1 <= fault.place.line <= len(lines)
        assert 1 <= fault.place.column <= len(lines[fault.place.line - 1]) + 2


@given(st.binary(max_size=200))
@PATIENT
def test_any_bytes_are_told_at_a_place_inside_them(data: bytes) -> None:
    inside(only_faults(lambda: read_recipe(data)), data)


@given(st.text("abc: -\n[]{}#&*!|>'\"%@`?,\t0é", max_size=120))
@PATIENT
def test_any_signs_of_yaml_are_told_at_a_place_inside_them(text: str) -> None:
    inside(only_faults(lambda: read_recipe(text.encode())), text.encode())


@pytest.mark.parametrize(
    "sign", ["[", "{", "- ", "a: ", "? ", "'", "[{a: ", "!a ", "&a ", "*a ", "\n", "{a: [", "#", "|\n"]
)
def test_the_same_sign_over_and_over_does_not_hang_the_reader(sign: str) -> None:
    only_faults(lambda: read_recipe((sign * 20_000).encode()))


def mutated(text: str, seed: int) -> str:
    """A file after a few slips of the hand: letters and lines lost, doubled, swapped, signs put in, indents moved."""
    slips = random.Random(seed)
    for _ in range(slips.randint(1, 3)):
        lines = text.split("\n")
        at = slips.randrange(len(lines))
        place = slips.randrange(len(text))
        slip = slips.randrange(7)
        if slip == 0:
            text = text[:place] + text[place + slips.randint(1, 8) :]
        elif slip == 1:
            text = text[:place] + slips.choice(SIGNS) + text[place:]
        elif slip == 2:
            text = "\n".join(lines[:at] + lines[at + 1 :])
        elif slip == 3:
            text = "\n".join([*lines[: at + 1], *lines[at:]])
        elif slip == 4:
            lines[at] = " " * slips.randint(0, 8) + lines[at].strip()
            text = "\n".join(lines)
        elif slip == 5:
            other = slips.randrange(len(lines))
            lines[at], lines[other] = lines[other], lines[at]
            text = "\n".join(lines)
        else:
            words = text.split(" ")
            one, two = slips.randrange(len(words)), slips.randrange(len(words))
            words[one], words[two] = words[two], words[one]
            text = " ".join(words)
        text = text or "a"
    return text


def other_words(text: str, seed: int) -> str:
    """A file of the same shape in which a few words and numbers stand where others belong."""
    slips = random.Random(seed)
    parts = re.split(r"([\w.-]+)", text)
    for _ in range(slips.randint(1, 3)):
        at, other = slips.randrange(1, len(parts), 2), slips.randrange(1, len(parts), 2)
        parts[at] = slips.choice([parts[other], "0", "99", "25:00", "start", "next", "%"])
    return "".join(parts)


@given(st.sampled_from(sorted(RECIPES)), st.integers(0, 10**6))
@PATIENT
def test_a_recipe_with_other_words_is_read_or_told(name: str, seed: int) -> None:
    data = other_words(RECIPES[name], seed).encode()
    inside(only_faults(lambda: read_recipe(data)), data)


@given(seed=st.integers(0, 10**6))
@PATIENT
def test_a_job_with_other_words_is_read_or_told(tmp_path: Path, seed: int) -> None:
    data = other_words(RICH, seed).encode()
    inside(only_faults(job_of(tmp_path, data)), data)


@given(st.sampled_from(sorted(RECIPES)), st.integers(0, 10**6))
@PATIENT
def test_a_recipe_with_slips_of_the_hand_is_read_or_told(name: str, seed: int) -> None:
    data = mutated(RECIPES[name], seed).encode()
    inside(only_faults(lambda: read_recipe(data)), data)


@given(seed=st.integers(0, 10**6))
@PATIENT
def test_a_job_with_slips_of_the_hand_is_read_or_told(tmp_path: Path, seed: int) -> None:
    data = mutated(RICH, seed).encode()
    inside(only_faults(job_of(tmp_path, data)), data)


def test_the_job_that_slips_are_made_in_is_valid(tmp_path: Path) -> None:
    assert only_faults(job_of(tmp_path, RICH.encode())) == ()


RICH = VALID.replace(
    "people:\n", "people:\n  you: {break: 12:00-12:30, away: 24 March to 26 March, ask by: 15:00 the day before}\n"
)
RICH = RICH.replace(
    "      paint:\n", "      paint: {parts: [door half, far half], after: tile, change: {first: {hours: 2 h}}}\n"
)
RICH += """orders:
  panes: {for: glass fit, made after: glass measure, lead: 10 working days}
booked:
  - plumber, Tue 10 March 08:00, bathroom pipes
house: {people live here: yes, noise: 08:00-15:00, water off: 2 h at a time}
air:
  2 March: 14 C 08:00-16:00, 9 C otherwise, 75 %
  16 March: heated to 20 C
closed: [3 April, 10 April to 12 April]
promise: Fri 24 April 2026
hand over needs: [foot, water]
"""
