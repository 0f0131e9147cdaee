"""`when`: when layers can go in."""

from __future__ import annotations

import argparse

from sequencer.cli.named import unknown
from sequencer.cli.planned import Refused, with_plan
from sequencer.plan import Plan


def run(arguments: argparse.Namespace) -> int:
    from sequencer.views.when import steps_named, when, when_as_json

    word = " ".join(arguments.word)

    def text(plan: Plan) -> str:
        steps = steps_named(plan, word)
        if not steps:
            raise Refused(unknown(plan, word))
        return when_as_json(plan, steps) if arguments.json else when(plan, steps)

    return with_plan(arguments, text)
