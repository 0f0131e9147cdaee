"""A lock on an open file that ends with its process, on every system."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable

if sys.platform == "win32":
    import msvcrt

    _FAR = 1 << 30
    """The byte that stands for the whole file: far behind its end, since Windows keeps readers from a locked byte."""

    def _take(handle: int) -> None:
        os.lseek(handle, _FAR, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)

    def let_go(handle: int) -> None:
        """Ends the lock."""
        os.lseek(handle, _FAR, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def _take(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)

    def let_go(handle: int) -> None:
        """Ends the lock."""
        fcntl.flock(handle, fcntl.LOCK_UN)


PATIENCE, FIRST_PAUSE, LONGEST_PAUSE = 30.0, 0.0002, 0.02
"""How long somebody else's lock is waited for, and how long between two tries, first and at most [s]."""


def locked(handle: int, take: Callable[[int], None] = _take, pause: Callable[[float], None] = time.sleep) -> None:
    """Takes the lock of an open file, as soon as nobody else has it. OSError if that takes too long."""
    waited, wait = 0.0, FIRST_PAUSE
    while True:
        try:
            return take(handle)
        except OSError:
            if waited >= PATIENCE:
                raise
        pause(wait)
        waited += wait
        wait = min(2 * wait, LONGEST_PAUSE)
