"""Commands and flags."""

from __future__ import annotations

import argparse

from sequencer.cli import breaks, on_site
from sequencer.cli.facts import FACTS
from sequencer.cli.help import ABOUT, COMMANDS, EXITS, SCREEN

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from datetime import date
    from typing import NoReturn

JOB = "the job's folder or file; default: this folder"


def parsed(given: list[str]) -> argparse.Namespace:
    """The command and its flags. SystemExit for help and for what is no command."""
    first = given[0] if given else ""
    flag = first.startswith("-") and first not in ("-h", "--help")
    if not given or flag or (first not in COMMANDS and _exists(first)):
        given = [SCREEN, *given]
    parser, commands = _parser()
    if given[0] not in COMMANDS and not given[0].startswith("-"):
        from sequencer.cli.unmeant import no_command

        parser.exit(2, f"sequencer: {no_command(given[0])}\n")
    arguments, more = parser.parse_known_args(given)
    if more and arguments.command != "if":
        from sequencer.cli.unmeant import left_over

        meant = commands[arguments.command]
        meant.error(left_over(arguments.command, more, meant.options))
    arguments.more = more
    if getattr(arguments, "job", "") == "." and getattr(arguments, "word", None) and _exists(arguments.word[-1]):
        arguments.job = arguments.word.pop()
    return arguments


class _Parser(argparse.ArgumentParser):
    """A parser that says what to write where a command lacks its words."""

    @property
    def options(self) -> list[str]:
        """The flags it knows, as they are written."""
        return [flag for action in self._actions for flag in action.option_strings]

    def error(self, message: str) -> NoReturn:
        """Usage and what is wrong on stderr, exit code 2."""
        command = self.prog.rpartition(" ")[2]
        if message.endswith("required: WORD") and command in COMMANDS:
            from sequencer.cli.unmeant import lacking

            message = lacking(command)
        super().error(message)


def _parser() -> tuple[_Parser, Mapping[str, _Parser]]:
    """The parser of the whole line, and of each command."""
    parser = _Parser(prog="sequencer", description=ABOUT, epilog=EXITS)
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, parts in PARTS.items():
        text = COMMANDS[name]
        command = commands.add_parser(name, help=text, description=f"{text[0].upper()}{text[1:]}.", epilog=EXITS)
        command.formatter_class = argparse.RawDescriptionHelpFormatter
        for part in parts:
            part(command)
    return parser, commands.choices


def _job(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("job", nargs="?", default=".", metavar="JOB", help=JOB)


def _beside(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--job", default=".", metavar="JOB", help=JOB)


def _json(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="as JSON")


def _today(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--today", type=_day, metavar="DAY", help='as if today were DAY: "2 March 2026" or 2026-03-02')


def _effort(parser: argparse.ArgumentParser) -> None:
    text = (
        "how long to look, as a factor; 0: the first plan that fits; default: 1. More may find a shorter plan, or one "
        "with fewer visits, or prove that there is none; where a plan says that more effort does not tell, it does not"
    )
    parser.add_argument("--effort", type=_factor, default=1.0, metavar="N", help=text)


def _output(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("-o", "--output", metavar="FILE", help="write to FILE, whole or not at all")
    parser.add_argument("-n", "--dry-run", action="store_true", help="write nothing, say what would be written")


def _plain(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--plain", action="store_true", help="sentences instead of a table")


def _looks(parser: argparse.ArgumentParser) -> None:
    _plain(parser)
    parser.add_argument("--rooms", action="store_true", help="who is in which room, day by day")
    parser.add_argument("--first", metavar="NAME", help="of several jobs, the one that comes first")
    parser.add_argument("--wide", action="store_true", help="120 columns, today's story beside the table")


def _new_recipes(parser: argparse.ArgumentParser) -> None:
    text = "with recipe texts as they stand, not as they were when people were told a plan"
    parser.add_argument("--new-recipes", action="store_true", help=text)


def _accept(parser: argparse.ArgumentParser) -> None:
    _new_recipes(parser)
    parser.add_argument("--yes", action="store_true", help="also where people were told otherwise")
    parser.add_argument("-n", "--dry-run", action="store_true", help="write nothing, say what would be told")
    parser.set_defaults(output=None)


def _word(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("word", nargs="*", metavar="WORD", help="a recipe, step or surface; without: every step")


def _step(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("word", nargs="*", metavar="STEP", help="words that name one step; without: hand-over")


def _fact(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("word", nargs="+", metavar="WORD", help="what it is about, then a comma and what is said of it")
    text = 'when it happened: "16:30", "Tue 16:30", "2 March 16:30"; default: now'
    parser.add_argument("--at", metavar="MOMENT", help=text)


def _changes(parser: argparse.ArgumentParser) -> None:
    text = "changes in the words of the commands that write them, joined by --and"
    parser.add_argument("word", nargs="*", metavar="CHANGE", help=text)


def _none(parser: argparse.ArgumentParser) -> None:
    """No flags."""


def _undo(parser: argparse.ArgumentParser) -> None:
    text = "the number of a fact; without: the newest that stands"
    parser.add_argument("number", nargs="?", type=int, metavar="NUMBER", help=text)


def _recipe(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("what", choices=("list", "show", "check", "copy"), nargs="?", default="list")
    parser.add_argument("name", nargs="?", metavar="NAME", help="the recipe to show, check or copy")
    parser.add_argument("--air", metavar="AIR", help='show its waits in this air: "17 C 65 %%"')
    text = 'when the first work ends: "Tue 16:30"; default: today 16:00'
    parser.add_argument("--from", dest="start", metavar="MOMENT", help=text)
    parser.add_argument("--area", metavar="AREA", help='how much of it is worked on: "7 m2"; default: 5 m2')
    parser.add_argument("--table", action="store_true", help="each wait over temperature and humidity")
    parser.add_argument("--curve", action="store_true", help="progress against time, here, colder and warmer")


def _new(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", nargs="?", default=".", help="where job.yaml is written; default: this folder")
    for flag, text in WISHES.items():
        parser.add_argument(f"--{flag}", metavar="TEXT", help=text)
    for flag, text in OF_ROOMS.items():
        parser.add_argument(f"--{flag}", metavar="TEXT", action="append", help=text)
    for flag, text in SWITCHES.items():
        parser.add_argument(f"--{flag}", action="store_true", help=text)
    parser.add_argument("--demo", metavar="DIR", help="write a demo into DIR instead")
    first = next(iter(DEMOS))
    parser.add_argument("--which", choices=DEMOS, default=first, help=f"which demo; default: {first}")
    parser.add_argument("--yes", action="store_true", help="ask nothing; what no flag says stays as usual")
    parser.add_argument("-n", "--dry-run", action="store_true", help="print the file, write nothing")


DEMOS = {"bathroom": "demo", "en-suite": "demo-2", "powder-room": "demo-3"}
"""The demos, by what they are, with the folder each has in docs/."""

WISHES = {
    "title": "what the job is called",
    "start": 'the day it starts: "Mon 2 March 2026"',
    "promise": "the day promised to the client",
    "zone": "time zone, such as America/Halifax",
    "holidays": "whose public holidays, such as CA BC",
    "words": "US or UK",
    "lived-in": "yes or no: do people live there meanwhile",
    "air": '"lived-in and heated", "heat down at night", "empty house", "damp basement", or "17 C 65 %%"',
}
OF_ROOMS = {
    "room": '"NAME: 2.4 m by 1.5 m, 2.4 m high"; again for each room',
    "wet": "what the wet area is: shower, sheet, curbless, tub, surround, none; for one room: NAME: tub",
    "floor": "tile, heated, vinyl, wood; for one room: NAME: vinyl",
    "walls": "paint, skim, paper; for one room: NAME: paper",
    "paint": "before or after the tile, or free; for one room: NAME: after",
    "person": '"plumber: days: Tue and Thu, notice: 5 working days"; again for each',
}
SWITCHES = {
    "helper": "a second pair of hands",
    "saturday": "work on Saturdays",
    "no-inspections": "no inspector here, you look yourself: only where the local code allows it",
    "rapid": "rapid products wherever a recipe knows them",
}

PARTS: dict[str, tuple[Callable[[argparse.ArgumentParser], None], ...]] = {
    "new": (_new, _today, _effort),
    "check": (_job, _json, _today, _output),
    "plan": (_job, _json, _looks, _new_recipes, _today, _effort, _output),
    "accept": (_job, _accept, _json, _today, _effort),
    "when": (_word, _beside, _json, _today, _effort, _output),
    "why": (_step, _beside, _json, _plain, _today, _effort, _output),
    "today": (_job, _json, _plain, _today, _effort, _output),
    "may": (on_site.asked, _beside, _json, _plain, _today, _effort, _output),
    "week": (_job, _json, _plain, _today, _effort, _output),
    "sign": (_job, _json, _plain, _today, _effort, _output),
    **dict.fromkeys(FACTS, (_fact, _beside, _json, _today, _effort, _output)),
    **{
        name: (_fact, breaks.FLAGS.get(name, _none), breaks.yes, _beside, _json, _today, _effort, _output)
        for name in (*breaks.BREAKS, *breaks.ALSO)
    },
    "if": (_changes, _beside, _json, _today, _effort, _output),
    "undo": (_undo, _beside, _json, _today, _effort, _output),
    "log": (_job, _json, _today, _output),
    "recipes": (_recipe, _beside, _today, _json, _output),
    "calendar": (_job, _today, _effort, _output),
    SCREEN: (_job, _today),
}


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
