"""`calendar`: the whole plan as one calendar file."""

from __future__ import annotations

import argparse

from sequencer.cli.planned import with_plan
from sequencer.plan import Plan


def run(arguments: argparse.Namespace) -> int:
    def octets(plan: Plan) -> bytes:
        from sequencer.views.calendar import calendar

        return calendar(plan)

    return with_plan(arguments, octets)
