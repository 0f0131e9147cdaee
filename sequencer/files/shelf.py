"""Where the recipes and the demo that come with the program stand."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def _shelf(installed: str, in_repository: str) -> Path:
    beside = _PACKAGE / "shelf" / installed
    return beside if beside.is_dir() else _PACKAGE.parent / in_repository


def recipes_folder() -> Path:
    """The folder of the recipes that come with the program."""
    return _shelf("recipes", "recipes")


DEMOS = ("demo", "demo-2", "demo-3")
"""A whole bathroom; an en-suite without a curb, with floor heat, stone top and glass; a powder room refreshed."""


def demo_folder(name: str = DEMOS[0]) -> Path:
    """The folder of a demo job."""
    return _shelf(name, f"docs/{name}")
