"""Hours that are alike: what is worked out of them is worked out once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from sequencer.air.moist import Floats

Places = NDArray[np.int64]


def alike(figures: Sequence[Floats]) -> tuple[Places, Places]:
    """One hour of each kind, by its place, and for each hour the number of its kind: alike in all figures."""
    first, run = _runs(figures)
    order = np.lexsort([figure[first] for figure in figures])
    sorted_first, kind = _runs([figure[first[order]] for figure in figures])
    kinds = np.empty_like(run, shape=len(first))
    kinds[order] = kind
    return first[order[sorted_first]], kinds[run]


def _runs(figures: Sequence[Floats]) -> tuple[Places, Places]:
    """The first of every run of hours that are alike, and for each hour the number of its run."""
    unlike = np.zeros(len(figures[0]), np.bool_)
    unlike[:1] = True
    for figure in figures:
        unlike[1:] |= figure[1:] != figure[:-1]
    return np.flatnonzero(unlike), np.cumsum(unlike) - 1
