"""What humidity decides: whether a limit is broken, and when a wait is over."""

from __future__ import annotations

from sequencer.terms.wait import Limit, Wait
from sequencer.waits.table import LAWS


def felt_by(limit: Limit) -> bool:
    """True if humidity decides whether a limit is broken."""
    bounds = (limit.driest, limit.dampest, limit.above_dew_point, limit.wood_driest, limit.wood_dampest)
    return any(bound is not None for bound in bounds)


def feels_humidity(wait: Wait) -> bool:
    """True if the air's humidity decides when a wait is over, or what spoils it."""
    stages = (wait, *wait.then)
    by_law = any(LAWS[stage.law].family.humidity_counts for stage in stages)
    return by_law or any(felt_by(limit) for stage in stages for limit in stage.limits)
