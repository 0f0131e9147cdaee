"""`when`: when layers can go in."""

from __future__ import annotations

import argparse

from sequencer.cli.named import steps_meant, unknown
from sequencer.cli.planned import Refused, with_plan
from sequencer.plan import Plan


def run(arguments: argparse.Namespace) -> int:
    from sequencer.views.when import also, when, when_as_json

    word = " ".join(arguments.word)

    def text(plan: Plan) -> str:
        steps, others = steps_meant(plan, word)
        if not steps:
            raise Refused(unknown(plan, word))
        return when_as_json(plan, steps) if arguments.json else when(plan, steps) + also(word, others)

    return with_plan(arguments, text)
