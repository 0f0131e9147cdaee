"""Arrays as plain sequences of ints: a single value is looked up far quicker there, and nothing is copied."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray


class Lists:
    """The sequences of arrays; an array that many tasks share has one."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[NDArray[np.int64], Sequence[int]]] = {}

    def of(self, array: NDArray[np.int64]) -> Sequence[int]:
        """The sequence of an array."""
        if id(array) not in self._known:
            self._known[id(array)] = (array, array.data)
        return self._known[id(array)][1]
