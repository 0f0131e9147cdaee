"""The names a recipe may give a wait's law. What each law is stands in `waits/table.py`."""

from __future__ import annotations

LAW_NAMES: tuple[str, ...] = (
    "fixed",
    "cement",
    "rapid cement",
    "slow cement",
    "nurse-saul cement",
    "two-branch cement",
    "model code cement",
    "epoxy",
    "setting compound",
    "joint compound",
    "paint",
    "water film",
    "sealant",
    "screed",
    "calcium sulfate screed",
    "slab",
    "flood wait",
)

DEPTH_LAWS: tuple[str, ...] = (
    "joint compound",
    "paint",
    "water film",
    "sealant",
    "screed",
    "calcium sulfate screed",
    "slab",
)
"""The laws that know what a layer's depth does to its wait."""
