"""What the shell offers, in words: one table for its help and for its parser. Loads nothing."""

from __future__ import annotations

from sequencer.cli.breaks import BREAKS, IF
from sequencer.cli.facts import FACTS

ABOUT = "When each layer can go in, and the earliest honest hand-over. Without a command: the site diary on screen."

EXITS = """exit codes: 0 done, 1 no order of work fits, 2 wrong command or faulty file,
3 stopped before proof (the best plan is printed), 4 a person must decide, 130 interrupted"""

SCREEN = "screen"
"""The command meant when none is given."""

COMMANDS = {
    "new": "a job from a few questions or flags; --demo DIR writes the demo",
    "check": "every fault in the files",
    "plan": "the plan as a site diary",
    "accept": "make the plan the one people were told; of a folder of jobs, all their plans",
    "when": "when layers can go in, and why not sooner",
    "why": "why hand-over, or one step, is not sooner, back to today, and what each reason would save",
    "today": "who comes, what may be touched, the last start of each layer, what to order and whom to call",
    "may": "may this be done now: yes or no, until when, and why",
    "week": "the next five working days, and what is coming up",
    "sign": "the sheet for the door: what to keep off, until when",
    **FACTS,
    **BREAKS,
    "if": IF,
    "undo": "strike the newest fact of the site book, or the one of a number",
    "log": "what an inspector or a warranty asks for: tests, readings, lots, with the air at the time",
    "recipes": "the recipes a job can use: list, show (in a given air), check, copy to change",
    "calendar": "the whole plan as one .ics file",
    SCREEN: "the site diary on screen, as without a command",
}


def help_text() -> str:
    """The page of `sequencer --help`."""
    longest = max(map(len, COMMANDS))
    lines = [f"  {name:{longest}}  {text}" for name, text in COMMANDS.items()]
    head = ("usage: sequencer [COMMAND] [JOB] [options]", "", ABOUT, "", "commands:")
    job = "JOB is the job's folder or file; without it, this folder."
    options = "Options of a command: sequencer COMMAND --help"
    return "\n".join((*head, *lines, "", job, options, "", EXITS, ""))
