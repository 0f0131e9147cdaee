"""A bathroom, an en-suite and a laundry whose drains are tied in together under one floor, as files."""

from __future__ import annotations

from pathlib import Path

DRAIN = """format: 1
recipe: drain
title: Drain run and tied in
works on: [floor]
sources: {c: "common practice, no source"}
steps:
  open: {do: Floor opened, hours: 2 h (c)}
  run: {do: Drain run to the stack, hours: 3 h (c), by: plumber, gives: [drain run]}
  tie in: {do: Drain tied in, hours: 1 h (c), by: plumber, off: [house drain], gives: [drain in]}
"""
CLOSE = """format: 1
recipe: close-floor
title: Subfloor closed
works on: [floor]
needs: [drain in]
sources: {c: "common practice, no source"}
steps:
  close:
    do: Subfloor glued and screwed down
    hours: 3 h (c)
    gives: [floor closed]
    ready for: {foot: "after 12 h, fixed (c)"}
    keep off: until ready for foot
  look: {do: Floor walked over, hours: 30 min (c), after: close ready for foot}
"""
JOB = """format: 1
job: gable-house
title: Three rooms at Gable House
place: {zone: Europe/London}
words: UK
start: Mon 2 March 2026
promise: Fri 20 March 2026
hand over needs: [foot]
people:
  plumber: {days: Tue and Thu}
air: 18 C 60 %
rooms:
  bathroom:
    size: 2 m by 3 m, 2.4 m high
    recipes:
      drain: {change: {tie in: {needs: [RUN]}}}
      close-floor: {change: {close: {needs: [IN]}}}
  en-suite:
    size: 2 m by 2 m, 2.4 m high
    recipes:
      drain: {change: {tie in: {needs: [RUN]}}}
      close-floor: {change: {close: {needs: [IN]}}}
  laundry:
    size: 2 m by 2 m, 2.4 m high
    recipes:
      drain: {change: {tie in: {needs: [RUN]}}}
      close-floor: {change: {close: {needs: [IN]}}}
"""
ROOMS = ("bathroom", "en-suite", "laundry")


def tied_rooms(folder: Path, rooms: tuple[str, ...] = ROOMS) -> Path:
    """Writes the job; a drain is tied in when all are run, a subfloor is closed when those of `rooms` are in."""
    (folder / "recipes").mkdir(parents=True)
    (folder / "recipes" / "drain.yaml").write_text(DRAIN, encoding="utf-8")
    (folder / "recipes" / "close-floor.yaml").write_text(CLOSE, encoding="utf-8")
    run = ", ".join(f'"{room}: drain run"' for room in ROOMS)
    tied = ", ".join(f'"{room}: drain in"' for room in rooms)
    (folder / "job.yaml").write_text(JOB.replace("RUN", run).replace("IN", tied), encoding="utf-8")
    return folder
