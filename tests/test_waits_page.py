"""docs/waits.md is the table of laws, written out."""

from __future__ import annotations

from pathlib import Path

from sequencer.terms.laws import LAW_NAMES
from sequencer.waits.markdown import laws_as_markdown

PAGE = Path(__file__).parent.parent / "docs" / "waits.md"


def test_the_page_of_laws_is_what_the_table_says() -> None:
    """If this fails, write what `laws_as_markdown` returns to the page."""
    assert PAGE.read_text(encoding="utf-8") == laws_as_markdown()


def test_every_law_has_its_section_with_source_spread_and_check() -> None:
    sections = laws_as_markdown().split("\n## ")[1:]
    assert [section.splitlines()[0] for section in sections] == list(LAW_NAMES)
    for section in sections:
        for fact in ("| spread | ", "| source | ", "| checked against | ", "| law | "):
            assert fact in section
