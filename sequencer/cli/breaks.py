"""The commands for the day the plan breaks: their words and flags. Loads nothing."""

from __future__ import annotations

import argparse

BREAKS = {
    "late": "somebody comes later: plumber --until Thu, or plumber --days 2",
    "away": "somebody cannot come: plumber 3 March to 5 March",
    "found": "work nobody knew of, by the step that brought it to light: rot 6 h --step strip-out",
}
"""Each writes one fact into the site book, then says what moves and whom to call."""

ALSO = ("failed", "delivered")
"""Facts that break a plan too."""

IF = "one or more changes, planned again, nothing written: late plumber --until Thu --and found rot 6 h"


def late(parser: argparse.ArgumentParser) -> None:
    """Until when somebody is not there."""
    when = parser.add_mutually_exclusive_group()
    when.add_argument("--until", metavar="DAY", help='the first day they are there again: Thu, or "12 March"')
    text = "so many working days later than they were to come next"
    when.add_argument("--days", type=int, metavar="N", help=text)


def found(parser: argparse.ArgumentParser) -> None:
    """Where extra work was found, and who does it."""
    text = "words that name the step that brought it to light; default: the one under way, else the last one done"
    parser.add_argument("--step", metavar="STEP", help=text)
    parser.add_argument("--by", metavar="TRADE", help="who puts it right; default: you")


def delivered(parser: argparse.ArgumentParser) -> None:
    """What came short."""
    parser.add_argument("--short", action="store_true", help="not all of it came")
    parser.add_argument("--rest-by", metavar="DAY", help="when the rest is promised; default: a lead from now")


def yes(parser: argparse.ArgumentParser) -> None:
    """Whether the new plan replaces what people were told."""
    text = "the new plan replaces what people were told; without a terminal it never does so unasked"
    parser.add_argument("--yes", action="store_true", help=text)


FLAGS = {"late": late, "found": found, "delivered": delivered}
"""The flags a change has of its own."""
