"""What the shell offers, in words: one table for its help and for its parser. Loads nothing."""

from __future__ import annotations

ABOUT = "When each layer can go in, and the earliest honest hand-over. Without a command: the site diary on screen."

EXITS = """exit codes: 0 done, 1 no order of work fits, 2 wrong command or faulty file,
3 stopped before proof (the best plan is printed), 130 interrupted"""

SCREEN = "screen"
"""The command meant when none is given."""

COMMANDS = {
    "check": "every fault in the files",
    "plan": "the plan as a site diary",
    "when": "when layers can go in, and why not sooner",
    "why": "why hand-over, or one step, is not sooner, back to today, and what each reason would save",
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
