"""Arrays as plain lists of ints: a single value is looked up far quicker there."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray


class Lists:
    """The lists of arrays; an array that many tasks share has one."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[NDArray[np.int64], list[int]]] = {}

    def of(self, array: NDArray[np.int64]) -> list[int]:
        """The list of an array."""
        if id(array) not in self._known:
            self._known[id(array)] = (array, array.tolist())
        return self._known[id(array)][1]
