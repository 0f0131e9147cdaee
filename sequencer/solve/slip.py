"""How much later each task may start before hand-over moves, with the order of work kept as it is in the plan.

What is behind a task moves with it; what is in front of it stays, so a layer that must be followed in time binds.
"""

from __future__ import annotations

from dataclasses import replace

from sequencer.solve.problem import Arc, Group, Problem, SlotClaim
from sequencer.solve.trim import trim


def slips(problem: Problem, places: list[int]) -> list[int]:
    """Slots each task may slip, every hand-over staying at its own start. Claims keep their order in the plan."""
    kept = [arc for group in problem.groups for arc in _in_order(problem, group, places)]
    ends = {end.task: places[end.task] for end in problem.ends}
    trimmed = trim(replace(problem, arcs=(*problem.arcs, *kept), groups=()), places[problem.hand_over], ends)
    last = places if trimmed is None else trimmed.last
    slots = [int(starts[late]) for starts, late in zip(problem.starts, last, strict=True)]
    for latest in problem.latests:
        slots[latest.after] = min(slots[latest.after], int(latest.latest[places[latest.before]]))
    planned = [int(starts[place]) for starts, place in zip(problem.starts, places, strict=True)]
    return [max(0, late - start) for late, start in zip(slots, planned, strict=True)]


def _in_order(problem: Problem, group: Group, places: list[int]) -> list[Arc]:
    """An arc from each claim to the one that takes its place: claims are dealt to as many lanes as may run at once."""
    arcs = []
    claims = sorted(group.claims, key=lambda claim: int(problem.starts[claim.task][places[claim.task]]))
    lanes: list[SlotClaim | None] = [None] * group.n
    for claim in claims:
        start = int(problem.starts[claim.task][places[claim.task]])
        free = [lane for lane, last in enumerate(lanes) if last is None or _until(last, places) <= start]
        for lane in free[: claim.amount]:
            last = lanes[lane]
            if last is not None and last.last != claim.task:
                arcs.append(Arc(last.last, claim.task, last.until))
            lanes[lane] = claim
    return arcs


def _until(claim: SlotClaim, places: list[int]) -> int:
    return int(claim.until[places[claim.last]])
