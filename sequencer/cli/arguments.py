"""Commands and flags."""

from __future__ import annotations

import argparse

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

ABOUT = "When each layer can go in, and the earliest honest hand-over. Without a command: the site diary on screen."
EXITS = """exit codes: 0 done, 1 no order of work fits, 2 wrong command or faulty file,
3 stopped before proof (the best plan is printed), 130 interrupted"""
JOB = "the job's folder or file; default: this folder"
SCREEN = "screen"
"""The command meant when none is given."""


def parsed(given: list[str]) -> argparse.Namespace:
    """The command and its flags. SystemExit for help and for what is no command."""
    parser, names = _parser()
    first = given[0] if given else ""
    flag = first.startswith("-") and first not in ("-h", "--help")
    if not given or flag or (first not in names and _exists(first)):
        given = [SCREEN, *given]
    return parser.parse_args(given)


def _parser() -> tuple[argparse.ArgumentParser, set[str]]:
    parser = argparse.ArgumentParser(prog="sequencer", description=ABOUT, epilog=EXITS)
    parser.formatter_class = argparse.RawDescriptionHelpFormatter
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    def command(name: str, text: str, *parts: Callable[[argparse.ArgumentParser], None]) -> argparse.ArgumentParser:
        made = commands.add_parser(name, help=text, description=text[0].upper() + text[1:] + ".", epilog=EXITS)
        made.formatter_class = argparse.RawDescriptionHelpFormatter
        for part in parts:
            part(made)
        return made

    command("check", "every fault in the files", _job, _json, _today, _output)
    plan = command("plan", "the plan as a site diary", _job, _json, _today, _effort, _output)
    plan.add_argument("--plain", action="store_true", help="sentences instead of a table")
    plan.add_argument("--wide", action="store_true", help="120 columns, today's story beside the table")
    when = command("when", "when layers can go in, and why not sooner", _json, _today, _effort, _output, _beside)
    when.add_argument("word", nargs="*", metavar="WORD", help="a recipe, step or surface; without: every step")
    recipes = command("recipes", "the recipes a job can use", _json, _output, _beside)
    recipes.add_argument("what", choices=("list", "show"), nargs="?", default="list")
    recipes.add_argument("name", nargs="?", metavar="NAME", help="the recipe to show")
    command("calendar", "the whole plan as one .ics file", _job, _today, _effort, _output)
    command(SCREEN, "the site diary on screen, as without a command", _job, _today)
    return parser, set(commands.choices)


def _job(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", nargs="?", default=".", metavar="JOB", help=JOB)


def _beside(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--job", default=".", metavar="JOB", help=JOB)


def _json(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="as JSON")


def _today(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--today", type=_day, metavar="DAY", help='as if today were DAY: "2 March 2026" or 2026-03-02')


def _effort(parser: argparse.ArgumentParser) -> None:
    text = "how long to look for a shorter plan, as a factor; 0: the first plan that fits; default: 1"
    parser.add_argument("--effort", type=_factor, default=1.0, metavar="N", help=text)


def _output(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("-o", "--output", metavar="FILE", help="write to FILE, whole or not at all")
    parser.add_argument("-n", "--dry-run", action="store_true", help="write nothing, say what would be written")


def _day(text: str) -> date:
    from sequencer.files.days import parse_day
    from sequencer.files.wrong import Wrong

    try:
        return parse_day(text.strip())
    except Wrong as wrong:
        raise argparse.ArgumentTypeError(str(wrong)) from None


def _factor(text: str) -> float:
    try:
        factor = float(text)
    except ValueError:
        factor = -1.0
    if not 0 <= factor <= 1000:
        raise argparse.ArgumentTypeError(f'"{text}" is no factor; write a number from 0 to 1000')
    return factor


def _exists(name: str) -> bool:
    import os

    return os.path.exists(name)  # noqa: PTH110
