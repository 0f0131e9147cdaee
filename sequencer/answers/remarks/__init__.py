"""What could be better in recipes that are not faulty: one module a remark, each a Fault at its place."""

from __future__ import annotations

from collections.abc import Iterable

from sequencer.answers.remarks import brands, dangers, ranges, states, windows
from sequencer.terms.place import Fault
from sequencer.terms.recipe import Recipe


def remarks(recipes: Iterable[Recipe], library: Iterable[Recipe]) -> tuple[Fault, ...]:
    """Remarks on `recipes`, in file order; `library`: all that a job can use, for states that recipes share."""
    all_of_them = tuple(library)
    found: set[Fault] = set()
    for recipe in recipes:
        for about in (ranges, windows, dangers, brands):
            found.update(about.remarks(recipe))
        found.update(states.remarks(recipe, all_of_them))
    return tuple(sorted(found))
