"""Why a file is no YAML, in our own words. The library only tells about where it gave up."""

from __future__ import annotations

import re

from sequencer.files.brackets import unbalanced
from sequencer.terms.place import Fault, Place

_KEY = r"^\s*(?:- +)*(?P<key>[^\s#'\"\[\]{},:][^#:]*?)"
_NO_SPACE = re.compile(_KEY + r"(?P<colon>:)(?P<value>[^\s:].*)$")
_COLON_IN_TEXT = re.compile(_KEY + r": +(?P<value>[^\s'\"\[{|>#].*?)(?P<colon>:)(?: |$)")
_SIGN = re.compile(r"^\s*(?:- +)*(?:[^\s#'\":][^#:]*: +)?(?P<sign>[@`%|>*&!?])")
_AFTER_QUOTE = re.compile(r"(?:^|[:\[{,]|- )\s*(?:\"[^\"]*\"|'[^']*')\s*(?P<more>[^\s,\]}:#].*)$")
_INDENT = re.compile(r"^( *)(?=\S)(?!#)")


def tabs(text: str, file: str) -> list[Fault]:
    """Every line with a tab, remarks left out."""
    return [
        Fault(Place(file, number, line.index("\t") + 1), "a tab stands here", "write spaces instead")
        for number, line in enumerate(text.split("\n"), 1)
        if "\t" in re.sub(r"(?:^|\s)#.*", "", line)
    ]


def _in_line(line: str, file: str, number: int) -> Fault | None:
    if found := _AFTER_QUOTE.search(line):
        place = Place(file, number, found.start("more") + 1)
        return Fault(place, "more text follows the closing quote", "put the quotes around the whole text")
    if found := _SIGN.match(line):
        sign = found["sign"]
        place = Place(file, number, found.start("sign") + 1)
        return Fault(place, f"a text cannot begin with {sign} unless it is quoted", "leave it out, or quote the text")
    if found := _COLON_IN_TEXT.match(line):
        place = Place(file, number, found.start("colon") + 1)
        return Fault(place, "a colon and a space stand inside a text", "quote the whole text")
    if found := _NO_SPACE.match(line):
        place = Place(file, number, found.start("colon") + 1)
        return Fault(place, "no space follows the colon", f'write "{found["key"]}: {found["value"].strip()}"')
    return None


def _indent(lines: list[str], number: int, file: str) -> Fault | None:
    """The line is indented like none of the lines it could belong to."""
    indents: list[int] = []
    for line in lines[:number]:
        if found := _INDENT.match(line):
            width = len(found[1])
            known = not indents or width > indents[-1] or width in indents
            indents = [*(each for each in indents if each < width), width]
            last = (width, known)
    if not indents:
        return None
    width, known = last
    if known:
        return None
    place = Place(file, number, width + 1)
    return Fault(place, "the line is indented like none above it", "align it with its neighbours")


def diagnose(text: str, file: str, line: int, column: int) -> Fault:
    """The most likely reason. `line`, `column` from 0: where reading stopped."""
    lines = text.split("\n")
    number = min(line + 1, len(lines))
    if (fault := unbalanced(text, file)) is not None:
        return fault
    near = [number]
    near += [above for above in range(number - 1, 0, -1) if lines[above - 1].strip()][:2]
    for each in near:
        if (fault := _in_line(lines[each - 1], file, each)) is not None:
            return fault
    if (fault := _indent(lines, number, file)) is not None:
        return fault
    place = Place(file, number, min(column, len(lines[number - 1])) + 1)
    return Fault(
        place, "the file cannot be read on from here", "check indent, colons and quotes of this line and the last"
    )
