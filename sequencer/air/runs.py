"""Hours that follow one another and are alike: what is worked out of them is worked out once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from sequencer.air.moist import Floats


def runs(figures: Sequence[Floats]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """The first hour of every run of hours that are alike in all figures, and for each hour the number of its run."""
    unlike = np.zeros(len(figures[0]), np.bool_)
    unlike[:1] = True
    for figure in figures:
        unlike[1:] |= figure[1:] != figure[:-1]
    return np.flatnonzero(unlike), np.cumsum(unlike) - 1
