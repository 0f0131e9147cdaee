"""`log`: what an inspector or a warranty asks for."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.cli import DONE
from sequencer.cli.give import give


def run(arguments: argparse.Namespace) -> int:
    from sequencer.answers.log import log
    from sequencer.files import read_job
    from sequencer.views.log import log_text
    from sequencer.views.log_json import log_as_json

    found = log(read_job(Path(arguments.job), arguments.today))
    give(log_as_json(found) if arguments.json else log_text(found), arguments)
    return DONE
