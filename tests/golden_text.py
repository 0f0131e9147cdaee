"""Golden texts: what a view gave and somebody read. `GOLDEN=write pytest ...` writes them anew, to be read again."""

from __future__ import annotations

import os
from pathlib import Path

FOLDER = Path(__file__).parent / "golden"


def same_as_golden(name: str, text: str) -> None:
    """Fails unless the text is the golden one, letter by letter."""
    file = FOLDER / name
    if os.environ.get("GOLDEN") == "write":
        file.write_bytes(text.encode())
    assert text == file.read_bytes().decode(), f"differs from tests/golden/{name}"
