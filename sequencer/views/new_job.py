"""What comes of a new job: its hand-over, and what costs most days in it."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.answers.new_job.switches import Saving
from sequencer.plan import Plan
from sequencer.views.clock import Clock, days_between, whole_days
from sequencer.views.lines import wrapped

WIDTH = 80


def new_job(plan: Plan, savings: Sequence[Saving], width: int = WIDTH) -> str:
    """Hand-over, and a numbered line for each thing that costs days, with the flag that changes it."""
    clock = Clock(plan.zone)
    at_best = "" if plan.proven else f"; a plan up to {whole_days(plan.finish - plan.at_best)} shorter is not ruled out"
    lines = wrapped(f"{plan.title}: hand over {clock.at(plan.finish)}{at_best}", width)
    if savings:
        lines += ["", "WHAT COSTS MOST DAYS"]
    for number, saving in enumerate(savings, 1):
        switch = saving.switch
        earlier = days_between(clock.day(saving.finish), clock.day(plan.finish))
        text = f"{number}  {switch.words}: hand over {clock.at(saving.finish)}, {earlier} sooner"
        lines += wrapped(f"{text} (--{switch.name}; {switch.asks})", width, "  ", "     ")
    return "".join(f"{line}\n" for line in lines)
