"""Brackets and quotes that do not pair."""

from __future__ import annotations

from sequencer.terms.place import Fault, Place

_CLOSER = {"[": "]", "{": "}"}


def _quoted_to(line: str, start: int, quote: str) -> int | None:
    """Index after the closing quote of a text that begins at `start`, None if it does not close in this line."""
    at = start
    while at < len(line):
        if quote == '"' and line[at] == "\\" or line[at] == quote and quote == "'" and line[at + 1 : at + 2] == "'":
            at += 2
        elif line[at] == quote:
            return at + 1
        else:
            at += 1
    return None


class _Scan:
    def __init__(self, file: str) -> None:
        self.file = file
        self.opened: list[tuple[str, Place]] = []
        self.quote: tuple[str, Place] | None = None

    def line(self, line: str, number: int) -> Fault | None:
        """Read one line on; a fault if a bracket closes what is not open."""
        at = 0
        if self.quote is not None:
            end = _quoted_to(line, 0, self.quote[0])
            if end is None:
                return None
            self.quote, at = None, end
        begins = at == 0
        while at < len(line):
            sign = line[at]
            if sign == "#" and (at == 0 or line[at - 1] == " "):
                return None
            place = Place(self.file, number, at + 1)
            if begins and sign in "\"'":
                end = _quoted_to(line, at + 1, sign)
                if end is None:
                    self.quote = (sign, place)
                    return None
                at, begins = end, False
                continue
            if sign in "[{" and (begins or self.opened):
                self.opened.append((sign, place))
                begins = True
            elif sign in "]}" and self.opened:
                opener, _ = self.opened.pop()
                if _CLOSER[opener] != sign:
                    return Fault(place, f'"{opener}" is closed by "{sign}"', f'write "{_CLOSER[opener]}"')
                begins = False
            elif sign in "]}" and begins:
                return Fault(place, f'"{sign}" closes nothing', "delete it, or quote the text")
            elif sign == "," and self.opened:
                begins = True
            elif sign != " ":
                begins = sign in ":-" and line[at + 1 : at + 2] in (" ", "")
            at += 1
        return None


def unbalanced(text: str, file: str) -> Fault | None:
    """The first bracket or quote without its partner, None if all pair."""
    scan = _Scan(file)
    for number, line in enumerate(text.split("\n"), 1):
        if (fault := scan.line(line, number)) is not None:
            return fault
    if scan.quote is not None:
        quote, place = scan.quote
        return Fault(place, "the quote that begins here is never closed", f"close it with {quote}")
    if scan.opened:
        opener, place = scan.opened[-1]
        return Fault(place, f'"{opener}" is never closed', f'close it with "{_CLOSER[opener]}"')
    return None
