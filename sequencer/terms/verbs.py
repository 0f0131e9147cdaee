"""What people ask to do to a surface, and which purpose of a wait that asks about."""

from __future__ import annotations

from typing import Final

VERBS: Final[dict[str, str]] = {
    "walk": "foot",
    "stand": "foot",
    "step": "foot",
    "load": "load",
    "carry": "load",
    "wet": "water",
    "wash": "water",
    "fill": "water",
    "shower": "steam",
    "bathe": "steam",
    "heat": "heat",
    "touch": "touch",
    "hammer": "shaking",
    "drill": "shaking",
    "air": "draught",
    "sweep": "dust",
}
"""The verb in front of a surface: "walk floor", "wet wet walls". What is no verb here names a step."""

SMALL_WORDS: Final = frozenset({"i", "the", "a", "an", "on", "in", "my", "now", "we"})
"""Words that may stand between them and say nothing."""
