"""YAML becomes texts, tables and lists; every one knows its line and column as an editor shows them."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from sequencer.files import yaml_tree
from sequencer.files.text import text_of
from sequencer.files.tree import Rows, Table, Text
from sequencer.files.yaml_tree import read_tree
from sequencer.terms.place import Fault, Faulty, Place


@pytest.fixture(params=["with C", "without C"], autouse=True)
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    if request.param == "without C":
        monkeypatch.setattr(yaml_tree, "LOADER", yaml.SafeLoader)


def table(text: str) -> Table:
    faults: list[Fault] = []
    found = read_tree(text_of(text.encode(), "x.yaml"), "x.yaml", faults)
    assert found is not None and not faults, faults
    return found


def test_every_scalar_stays_text() -> None:
    found = table("a: 1\nb: yes\nc: 2026-03-02\nd: 08:00\ne: null\nf: ~\ng: 0x10\nh: 1_000\ni: .5\n")
    assert list(found.values()) == ["1", "yes", "2026-03-02", "08:00", "null", "~", "0x10", "1_000", ".5"]


def test_keys_and_values_know_their_places() -> None:
    found = table('a: 1\nb:\n  c: [x, "y z"]\n')
    inner = found["b"]
    assert isinstance(inner, Table)
    rows = inner["c"]
    assert isinstance(rows, Rows)
    x, y = rows
    assert isinstance(x, Text) and isinstance(y, Text)
    assert [found.place_of("b"), inner.place_of("c"), x.place, y.place] == [
        Place("x.yaml", 2, 1),
        Place("x.yaml", 3, 3),
        Place("x.yaml", 3, 7),
        Place("x.yaml", 3, 10),
    ]


def test_a_part_of_a_quoted_text_knows_its_column_behind_the_quote() -> None:
    text = table('a: "1 h, 2 x"\n')["a"]
    assert isinstance(text, Text)
    assert text.cut(5).place == Place("x.yaml", 1, 10)


def test_a_part_of_a_text_over_several_lines_has_the_place_of_the_whole() -> None:
    text = table("a: one\n  two\n")["a"]
    assert isinstance(text, Text)
    assert (text, text.cut(4).place) == ("one two", Place("x.yaml", 1, 4))


def test_letters_beyond_ascii_count_as_one_column() -> None:
    text = table("é: {ü: ä, b: c}\n")["é"]
    assert isinstance(text, Table)
    assert text.place_of("b") == Place("x.yaml", 1, 11)


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
def test_line_ends_of_all_systems_count_the_same(ends: str) -> None:
    assert table(ends.join(["a: 1", "b: 2", "c: 3"])).place_of("c") == Place("x.yaml", 3, 1)


def test_a_byte_order_mark_is_no_column() -> None:
    assert table("\ufeffa: 1\n").place_of("a") == Place("x.yaml", 1, 1)


def test_a_remark_needs_a_space_and_then_it_is_one() -> None:
    assert table("# a remark\na: text # a remark\nb: a#b  # another\n#c\n") == {"a": "text", "b": "a#b"}


def test_an_apostrophe_inside_a_word_is_no_quote() -> None:
    assert table("a: the client's yes\nb: 'the client''s'\n") == {"a": "the client's yes", "b": "the client's"}


def test_a_start_of_document_is_no_second_one() -> None:
    assert table("---\na: 1\n") == {"a": "1"}


def test_a_table_of_the_deepest_kind_is_read_and_one_deeper_is_told() -> None:
    deepest = "a: " + "[" * (yaml_tree.DEEPEST - 1) + "x" + "]" * (yaml_tree.DEEPEST - 1) + "\n"
    table(deepest)
    faults: list[Fault] = []
    assert read_tree(deepest.replace("x", "[x]"), "x.yaml", faults) is None
    assert [fault.what for fault in faults] == ["the file nests too deep"]


def test_a_file_of_the_wrong_kind_is_too_large(tmp_path: Path) -> None:
    with pytest.raises(Faulty, match="larger than 2 MB"):
        text_of(b"a" * 3_000_000, "x.yaml")


def test_in_braces_the_quick_reader_needs_a_space_behind_every_colon() -> None:
    text, faults = "recipes: {strip-out: , grout:}\n", list[Fault]()
    if yaml_tree.LOADER is yaml.SafeLoader:
        assert table(text) == {"recipes": {"strip-out": "", "grout": ""}}
    else:
        assert read_tree(text, "x.yaml", faults) is None
        assert [(fault.what, fault.place.column) for fault in faults] == [("in braces a space follows every colon", 29)]
