"""Why a file is no YAML, in our own words. The library only tells about where it gave up."""

from __future__ import annotations

import re

from sequencer.files.brackets import unbalanced
from sequencer.terms.place import Fault, Place

_KEY = r"^\s*(?:- +)*(?P<key>[^\s#'\"\[\]{},:][^#:]*?)"
_NO_SPACE = re.compile(_KEY + r"(?P<colon>:)(?P<value>[^\s:].*)$", re.MULTILINE)
_COLON_IN_TEXT = re.compile(_KEY + r": +(?P<value>[^\s'\"\[{|>#].*?)(?P<colon>:)(?: |$)")
_SIGN = re.compile(r"^\s*(?:- +)*(?:[^\s#'\":][^#:]*: +)?(?P<sign>[@`%|>*&!?])")
_AFTER_QUOTE = re.compile(r"(?:^|[:\[{,]|- )\s*(?:\"[^\"]*\"|'[^']*')\s*(?P<more>[^\s,\]}:#].*)$")
_ESCAPE = re.compile(r"(?:^|[:\[{,]|- )\s*\"[^\"\\]*(?P<sign>\\)")
_NOTHING_IN_BRACES = re.compile(r"[{,]\s*(?P<key>[^\s{}\[\],:\"'][^{}\[\],:\"']*)(?P<colon>:)(?=[},])")
_INDENT = re.compile(r"^ *(?=\S)(?!#)")
_VALUE = re.compile(r"^\s*[^\s#'\":][^#:]*: +[^\s#]")
_PAIR = re.compile(r"^\s*(?:- |[^#:]+:(?: |$))")

_SIGNS = {
    ":": ("a colon and a space stand inside a text", "quote the whole text"),
    ",": ("there is a comma too many", "delete it, or quote the text"),
    "]": ('"]" closes nothing', "delete it, or quote the text"),
    "}": ('"}" closes nothing', "delete it, or quote the text"),
    "-": ("an item with a dash cannot stand here", "write it below its key, in a list of its own, or quote the text"),
}


def tabs(text: str, file: str) -> list[Fault]:
    """Every line with a tab, remarks left out."""
    if "\t" not in text:
        return []
    return [
        Fault(Place(file, number, line.index("\t") + 1), "a tab stands here", "write spaces instead")
        for number, line in enumerate(text.split("\n"), 1)
        if "\t" in re.sub(r"(?:^|\s)#.*", "", line)
    ]


def _in_line(line: str, file: str, number: int) -> Fault | None:
    if found := _AFTER_QUOTE.search(line):
        place = Place(file, number, found.start("more") + 1)
        return Fault(place, "more text follows the closing quote", "put the quotes around the whole text")
    if found := _ESCAPE.search(line):
        place = Place(file, number, found.start("sign") + 1)
        return Fault(place, "a backslash stands between double quotes", "use single quotes")
    if found := _SIGN.match(line):
        sign = found["sign"]
        place = Place(file, number, found.start("sign") + 1)
        return Fault(place, f"a text cannot begin with {sign} unless it is quoted", "leave it out, or quote the text")
    if found := _NOTHING_IN_BRACES.search(line):
        place = Place(file, number, found.start("colon") + 1)
        write = f'write "{found["key"]}: " with a space behind the colon, or each key on a line of its own'
        return Fault(place, "in braces a space follows every colon", write)
    if found := _COLON_IN_TEXT.match(line):
        place = Place(file, number, found.start("colon") + 1)
        return Fault(place, "a colon and a space stand inside a text", "quote the whole text")
    return no_space(line, file, number)


def no_space(line: str, file: str, number: int = 1) -> Fault | None:
    """A key whose colon stands close to its value, at the start of a line."""
    found = _NO_SPACE.match(line)
    if found is None:
        return None
    place = Place(file, number, found.start("colon") + 1)
    return Fault(place, "no space follows the colon", f'write "{found["key"]}: {found["value"].strip()}"')


def _indent(lines: list[str], number: int, file: str) -> Fault | None:
    """What is wrong with how far the line stands in, compared with the lines it could belong to."""
    written = [line for line in lines[:number] if _INDENT.match(line)]
    if not written or written[-1] is not lines[number - 1]:
        return None
    *above, line = written
    width = len(line) - len(line.lstrip())
    place = Place(file, number, width + 1)
    open_widths: list[int] = []
    for other in above:
        other_width = len(other) - len(other.lstrip())
        open_widths = [*(each for each in open_widths if each < other_width), other_width]
    if open_widths and width < open_widths[-1] and width not in open_widths:
        return Fault(place, "the line is indented like none above it", "align it with its neighbours")
    if open_widths and width > open_widths[-1] and _VALUE.match(above[-1]):
        return Fault(place, "the line stands below a line that has its value already", "align it with the line above")
    if not _PAIR.match(line):
        return Fault(
            place, "the line is neither a key with a colon nor an item with a dash", "write key: value, or quote"
        )
    return None


def diagnose(text: str, file: str, line: int, column: int) -> Fault:
    """The most likely reason. `line`, `column` from 0: where reading stopped."""
    lines = text.split("\n")
    number = min(line + 1, len(lines))
    if (fault := unbalanced(text, file)) is not None:
        return fault
    near = [number]
    near += [above for above in range(number - 1, 0, -1) if lines[above - 1].strip()][:2]
    found = [_in_line(lines[each - 1], file, each) for each in near]
    found += [_indent(lines, each, file) for each in near]
    if fault := next((each for each in found if each is not None), None):
        return fault
    at = min(column, len(lines[number - 1]))
    sign = lines[number - 1][at : at + 1] or lines[number - 1][at - 1 : at]
    what, write = _SIGNS.get(sign, ("the file cannot be read on from here", "check the indent, colons and quotes here"))
    return Fault(Place(file, number, at + 1), what, write)
