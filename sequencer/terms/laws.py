"""The names a recipe may give a wait's law. What each law is stands in `waits/table.py`."""

from __future__ import annotations

LAW_NAMES: tuple[str, ...] = (
    "fixed",
    "cement",
    "rapid cement",
    "slow cement",
    "epoxy",
    "setting compound",
    "joint compound",
    "paint",
    "water film",
    "sealant",
    "screed",
    "slab",
    "flood gate",
)
