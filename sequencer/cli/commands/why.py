"""`why`: what hand-over, or one step, waits for."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.cli.named import one_step
from sequencer.cli.planned import is_dumb, tell, with_plan
from sequencer.plan import Plan


def run(arguments: argparse.Namespace) -> int:
    from sequencer.answers.why import why
    from sequencer.files import read_job
    from sequencer.planning import settled
    from sequencer.views.why import why_as_json, why_page, why_plain

    job = settled(read_job(Path(arguments.job), arguments.today), arguments.effort, tell)

    def text(plan: Plan) -> str:
        plain = arguments.plain or is_dumb()
        of = one_step(plan, " ".join(arguments.word))
        answer = why(job, plan, of, arguments.effort, told=tell, to_the_minute=arguments.json)
        if arguments.json:
            return why_as_json(plan, answer)
        return why_plain(plan, answer) if plain else why_page(plan, answer)

    return with_plan(arguments, text, job)
