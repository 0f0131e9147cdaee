"""A file's bytes as text, or why they are none."""

from __future__ import annotations

import re
from pathlib import Path

from sequencer.terms.place import Fault, Faulty, Place

LARGEST = 2_000_000
"""No file a person writes is larger [bytes]; a guard against reading the wrong thing."""

_NO_TEXT = re.compile("[^\t\n\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")


def place_at(text: str, index: int, file: str) -> Place:
    """The place of a letter, by its index."""
    line = text.count("\n", 0, index) + 1
    return Place(file, line, index - text.rfind("\n", 0, index))


def read_text(path: Path, file: str) -> str:
    """The text of a file, line ends as `\\n`, without a byte order mark. `file`: its name in places. Raises Faulty."""
    head = Place(file)
    try:
        if path.is_dir():
            raise Faulty([Fault(head, "this is a folder, not a file", "name the file inside it")])
        with path.open("rb") as stream:
            data = stream.read(LARGEST + 1)
    except FileNotFoundError:
        raise Faulty([Fault(head, "there is no such file", "check the name, or write the file")]) from None
    except (OSError, ValueError):
        raise Faulty([Fault(head, "the file cannot be opened", "check who may read it")]) from None
    return text_of(data, file)


def text_of(data: bytes, file: str) -> str:
    """The text of some bytes. Raises Faulty if they are empty, too many, not UTF-8, or hold control characters."""
    head = Place(file)
    if len(data) > LARGEST:
        raise Faulty([Fault(head, "the file is larger than 2 MB", "check that it is the right file")])
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise Faulty([Fault(head, "the file is UTF-16, not UTF-8", "save it as UTF-8")])
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8-sig", "replace").replace("\r\n", "\n").replace("\r", "\n")
        place = place_at(before, len(before), file)
        raise Faulty([Fault(place, "this letter is not UTF-8", "save the file as UTF-8")]) from None
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if not text.strip():
        raise Faulty([Fault(head, "the file is empty", "start it with: format: 1")])
    strange = [
        Fault(place_at(text, found.start(), file), f"a letter no file may hold (U+{ord(found[0]):04X})", "delete it")
        for found in _NO_TEXT.finditer(text)
    ]
    if strange:
        raise Faulty(strange[:20])
    return text
