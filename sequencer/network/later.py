"""So much later by the clock: one function for each length, so that steps alike share it."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from sequencer.network.model import MinuteFunction, Minutes


@lru_cache(maxsize=64)
def later(minutes: int) -> MinuteFunction:
    """A moment so many minutes after another [min]."""

    def after(ends: Minutes) -> Minutes:
        return np.asarray(ends + minutes)

    return after
