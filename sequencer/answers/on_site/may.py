"""May this be done now: a step, with everything in front of it as the plan has it; or a use of a surface."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from sequencer.answers.on_site.last_start import last_start, next_start
from sequencer.answers.on_site.push import Pushed, from_then
from sequencer.answers.on_site.rest import Against, Rest
from sequencer.network.model import Minutes
from sequencer.plan import Plan, PlannedStep
from sequencer.terms.minute import Minute, Span
from sequencer.terms.place import Place
from sequencer.writeup.timed import Timed


@dataclass(frozen=True)
class Reason:
    """Why not now: in words, until when (None: waiting does not help), what stands in front, where it is written."""

    text: str
    until: Minute | None
    by: str | None = None
    where: Place | None = None


@dataclass(frozen=True)
class May:
    """Whether something may be done at a moment.

    `until`: yes, no later than this today; None: the whole day. `again`: no, then first at this moment; None: not seen.
    `moves`: with a yes, the step that then loses its day, None if everything keeps its day.
    """

    at: Minute
    yes: bool
    until: Minute | None = None
    again: Minute | None = None
    reasons: tuple[Reason, ...] = ()
    moves: str | None = None


def may_start(timed: Timed, plan: Plan, id: str, at: Minute, today: Span) -> May:
    """Whether a step may start at a moment. KeyError if there is no such step."""
    step = plan.step(id)
    if step.state in ("done", "under way"):
        return May(at, False, reasons=(Reason(f"it is {step.state} already", None, id, None),))
    rest, now = Rest(timed), np.array([at], dtype=np.int64)
    reasons = tuple(_reasons(rest, id, now))
    if reasons:
        untils = [reason.until for reason in reasons]
        helps = None not in untils
        return May(at, False, again=_again(rest, id, at) if helps else None, reasons=_longest(reasons))
    if today[0] <= step.start <= at:
        last = last_start(Pushed(timed), rest, plan, id, today)
        if last.last is not None and at <= last.last:
            return May(at, True, until=last.last)
        return May(at, True, until=_until(rest, id, at, today), moves=last.otherwise.id)
    moves = next((one.by for one in rest.against(id, now) if one.side == "after"), None)
    return May(at, True, until=_until(rest, id, at, today), moves=moves)


def may_use(plan: Plan, purpose: str, surfaces: tuple[str, ...], at: Minute) -> May:
    """Whether surfaces (all rooms' of these names) bear something at a moment, as far as layers begun by then go."""
    reasons, next_layer = [], []
    for step in plan.steps:
        if not any(surface.split(",")[0] in surfaces for surface in step.surfaces):
            continue
        ready = _bears(plan, step, purpose)
        if ready is None:
            continue
        if step.start <= at < ready[0]:
            said = f"{step.title}: {ready[1]}" if ready[1] else step.title
            reasons.append(Reason(said, ready[0], step.id, step.place))
        elif step.start > at:
            next_layer.append(step.start)
    if reasons:
        return May(at, False, again=max(reason.until or at for reason in reasons), reasons=_longest(tuple(reasons)))
    return May(at, True, until=min(next_layer, default=None))


def _bears(plan: Plan, step: PlannedStep, purpose: str) -> tuple[Minute, str] | None:
    """When a step's layer bears a purpose, and how that wait comes to its length; None if it is not about it."""
    found = [(ready.at, ready.working) for ready in step.ready if ready.purpose == purpose]
    if purpose == "foot":
        found += [(one.end, one.why) for one in plan.closed if one.step == step.id and one.grade == "keep off"]
    return max(found, default=None)


def _reasons(rest: Rest, id: str, now: Minutes) -> Iterator[Reason]:
    at = int(now[0])
    if not rest.works(id, now)[0]:
        trade = rest.trade(id)
        back = rest.timed.network.tasks[id].work.next_start(at)
        who = "you do" if trade.name == rest.timed.case.job.hand_over_trade else f"{trade.name} does"
        yield Reason(f"{who} not work on it then", back, None, trade.place)
    for one in rest.against(id, now):
        if one.side != "after":
            yield Reason(one.why.text, _lets_go(rest, id, one, at), one.by, one.why.where)


def _until(rest: Rest, id: str, at: Minute, today: Span) -> Minute:
    """The last start of a day up to which nothing of the step's own and nothing in front of it forbids one."""
    starts = from_then(at, today[1])
    starts = starts[rest.works(id, starts)]
    free = rest.free(id, starts, ("itself", "before"))
    return int(starts[-1 if free.all() else int(np.argmin(free)) - 1])


def _lets_go(rest: Rest, id: str, one: Against, at: Minute) -> Minute | None:
    """When a rule lets go: what comes first does at its moment, a rule of the step's own when it allows a start."""
    return one.lets_go if one.side == "before" else next_start(rest, id, at)


def _again(rest: Rest, id: str, at: Minute) -> Minute | None:
    return next_start(rest, id, at, ("itself", "before"))


def _longest(reasons: tuple[Reason, ...]) -> tuple[Reason, ...]:
    """Of each step in front the reason that holds longest, those before all; what waiting does not help comes first."""
    ordered = sorted(reasons, key=lambda one: (one.until is not None, -(one.until or 0)))
    kept = {one.by or one.text: one for one in reversed(ordered)}
    return tuple(one for one in ordered if kept[one.by or one.text] is one)
