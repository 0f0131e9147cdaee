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
    "wet surface",
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

TAKING_WATER: tuple[str, ...] = ("sealant",)
"""The laws of layers that take water out of the air: they cure by it."""

WET_SURFACE = "wet surface"
"""The law by which water leaves a layer whose own law is not one of drying."""
