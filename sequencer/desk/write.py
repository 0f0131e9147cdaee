"""Writing a file whole or not at all."""

from __future__ import annotations

import os
import tempfile
from errno import ENOENT
from pathlib import Path

USUAL_MODE = 0o666

HALF = ".new"
"""How the name of a file ends that is being written; it starts with a dot."""


def write_whole(path: Path, content: bytes) -> bool:
    """Puts `content` into a file; a reader sees the old file or the new one, never half. False if it held that already.

    Links are followed; what is no plain file (a pipe, a device) is written straight into. OSError if it cannot be done;
    the old file then stands untouched.
    """
    target = Path(os.path.realpath(path))
    if target.exists() and not target.is_file():
        with target.open("wb") as stream:
            stream.write(content)
        return True
    if target.is_file() and target.read_bytes() == content:
        return False
    if not target.parent.is_dir():
        raise FileNotFoundError(ENOENT, "there is no such folder", str(path.parent))
    mode = target.stat().st_mode & 0o7777 if target.exists() else USUAL_MODE & ~_umask()
    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", suffix=HALF, dir=target.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        beside.chmod(mode)
        beside.replace(target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    return True


def write_new(path: Path, content: bytes) -> bool:
    """Puts `content` into a file that is not there yet, in a folder made for it if need be. False if it is there."""
    if path.exists():
        return False
    path.parent.mkdir(parents=True, exist_ok=True)
    return write_whole(path, content)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
