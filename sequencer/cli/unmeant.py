"""What to write instead of a command line that means nothing here. Loaded where one is wrong."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

from sequencer.cli.help import COMMANDS

EXAMPLES = {"may": "sequencer may grout floor, or sequencer may walk floor"}
"""What to write where a command lacks its words and its line of help does not show them."""


def no_command(first: str) -> str:
    """There is no such command; the nearest one."""
    return f"there is no command {first}, nor a job of that name here; {_near(first, COMMANDS)}"


def left_over(command: str, more: list[str], options: Iterable[str]) -> str:
    """Words or flags a command has no place for."""
    known = list(options)
    flags = [word for word in more if word.startswith("-")]
    if flags:
        return f"{command} has no option {flags[0]}; {_near(flags[0], known, command)}"
    said = " ".join(more)
    if "--job" in known and len(more) == 1:
        return f"{command} has no place for {said}; if it is the job's folder, write --job {said}"
    return f"{command} has no place for {said}; quote words that belong together, or leave them out"


def lacking(command: str) -> str:
    """A command that lacks its words."""
    example = EXAMPLES.get(command)
    return f"{command} what? {f'write {example}' if example else COMMANDS[command]}"


def _near(word: str, known: Iterable[str], command: str = "") -> str:
    near = get_close_matches(word, list(known), n=1, cutoff=0.5)
    return f"write {near[0]}" if near else f"{' '.join(('sequencer', *command.split()))} --help lists them"
