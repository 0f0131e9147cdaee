"""The one table of keys: it feeds the foot of the screen, the page behind `?`, and docs/keys.md."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Key:
    """A key. `names`: as Textual calls them; `shown`: as people read them; `short`: at the foot, empty if not there."""

    names: tuple[str, ...]
    shown: str
    action: str
    tells: str
    group: str
    short: str = ""


KEYS = (
    Key(("up", "down", "left", "right"), "arrows", "move", "another day, another surface", "move"),
    Key(("pageup", "pagedown"), "page up, page down", "page", "a screen of days", "move"),
    Key(("home",), "home", "first", "the first day", "move"),
    Key(("end",), "end", "last", "hand-over", "move"),
    Key(("t",), "t", "today", "today", "move"),
    Key(("slash",), "/", "find", "find a step, a recipe or a surface", "find", "find"),
    Key(("n",), "n", "next", "the next one found", "find"),
    Key(("w",), "w", "why", "why not sooner: go into the story; arrows scroll it", "the chosen cell", "why not sooner"),
    Key(("enter",), "enter", "open", "go into the story", "the chosen cell"),
    Key(("escape",), "esc", "to_diary", "back to the diary", "the chosen cell"),
    Key(("c",), "c", "copy", "copy the story, and show it as plain text", "the chosen cell", "copy"),
    Key(("d",), "d", "day", "the day on site: who comes, last starts, whom to call", "the job"),
    Key(("l",), "l", "late", "someone is late: written down, then what moves and whom to call", "the job", "late"),
    Key(("i",), "i", "if", "what if: the same words, nothing is written", "the job"),
    Key(("u",), "u", "undo", "strike the newest line of the site book", "the job"),
    Key(("T",), "T", "theme", "dark, light, or the terminal's own colors", "the screen"),
    Key(("question_mark",), "?", "keys", "this page", "the screen", "keys"),
    Key(("q",), "q", "leave", "leave; everything is in the files", "the screen", "leave"),
)

MOUSE = (
    "A click on a cell chooses it, a click on a word at the foot does it, the wheel scrolls.",
    "The files are looked at every second: save one, and the plan is made again.",
)


def foot() -> list[tuple[str, str, str]]:
    """What the foot shows: key, word, action."""
    return [(key.shown, key.short, key.action) for key in KEYS if key.short]


def help_text() -> str:
    """The page behind `?`."""
    lines: list[str] = []
    for group in dict.fromkeys(key.group for key in KEYS):
        lines += ["", group.upper()] if lines else [group.upper()]
        lines += [f" {key.shown:18} {key.tells}" for key in KEYS if key.group == group]
    return "\n".join([*lines, "", *MOUSE])


def keys_page() -> str:
    """docs/keys.md."""
    about = "The screen (`sequencer` without a command) reads these keys; they do the same everywhere."
    lines = ["# Keys", "", about, ""]
    for group in dict.fromkeys(key.group for key in KEYS):
        lines += [f"## {group[0].upper()}{group[1:]}", "", "| key | does |", "|---|---|"]
        lines += [f"| {key.shown} | {key.tells} |" for key in KEYS if key.group == group]
        lines.append("")
    return "\n".join([*lines, *MOUSE, ""])
