"""The words of a chain's links: what held up, what it would save, and what would have to be so."""

from __future__ import annotations

import re

from sequencer.answers.chain import Link
from sequencer.answers.why import Saving, WhyNot
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan
from sequencer.terms.cause import CauseKind
from sequencer.terms.minute import DAY, HOUR, Minute
from sequencer.terms.words import how_of, in_words
from sequencer.views.clock import Clock, brief, length, usual, whole_days
from sequencer.views.columns import rooms_of
from sequencer.views.titles import HAND_OVER_TITLE

BEARS_NOT = "does not bear"
"""In the words of a layer that others keep away from, and do not wait for."""

BY_THE_CLOCK = "fixed"
"""The law of what only has to stand for so long."""

NOT_TRIED, NOT_KNOWN, NOTHING_TO_TAKE = "not tried", "not known", "-"

IF_GONE: dict[CauseKind, str] = {
    "wait": "If it were ready at once",
    "within": "If it could be followed later",
    "closing": "If it did not stay closed",
    "air": "If the air allowed it",
    "my order": "If you did not ask for that order",
    "room": "If several could work in the room at once",
    "person": "If {of} were free at all working hours",
    "inspection": "If it were inspected at once",
    "delivery": "If it were on site at once",
    "service": "If {of} could be off for longer",
    "one day": "If it could be off over night",
    "noise": "If noise were allowed at all hours",
    "access": "If the house were open at all hours",
    "lift": "If the lift were booked at any time",
    "toilet": "If the toilet could be away longer",
    "look in": "If it could be left alone",
    "fumes": "If people could be in the fumes",
    "fumes at night": "If the fumes could stay over night",
    "decision": "If it were decided at once",
}
"""What would have to be so for a cause to be gone."""


def name_of(plan: Plan, id: str) -> str:
    """A step's short name: its recipe's name in this job, then its own; with several rooms, the room in front."""
    room, _, rest = id.partition("/")
    if not rest:
        return HAND_OVER_TITLE
    use, _, step = rest.rpartition("/")
    title = f"{plan.room_titles.get(room, room)}: " if len(rooms_of(plan)) > 1 else ""
    return in_words(f"{title}{use.replace('-', ' ')} {step}", plan.words)


def held_by(plan: Plan, link: Link) -> str:
    """What held up, in short words."""
    clock = Clock(plan.zone)
    if link.kind == "hours":
        return f"nobody works until {clock.at_brief(link.until)}"
    own = link.cause is not None and link.cause.kind == "wait" and link.cause.of == link.by
    if link.by is not None and link.cause is not None and own and BEARS_NOT not in link.text:
        law = next(one.law for one in plan.step(link.by).ready if one.purpose == link.cause.what)
        return f"{name_of(plan, link.by)} {how_of(law) if law != BY_THE_CLOCK else 'stands'} {_taken(link)}"
    text = _with_names(plan, link).replace("done no sooner", "comes first")
    until = f" {brief(clock.day(link.until))}" if text.endswith(" before") else ""
    return in_words(text, plan.words) + until


def _with_names(plan: Plan, link: Link) -> str:
    """A link's text with short names instead of the titles of the two steps it is about."""
    names = {plan.step(id).title: name_of(plan, id) for id in (link.step, link.by) if id not in (None, HAND_OVER)}
    if not names:
        return link.text
    titles = "|".join(re.escape(title) for title in sorted(names, key=len, reverse=True))
    return re.sub(rf"(?<!\w)({titles})(?!\w):?", lambda found: names[found[1]], link.text)


def _taken(link: Link) -> str:
    """The length of a link: to the nearest hour where it is long."""
    minutes = link.until - link.since
    return length(minutes) if minutes < 5 * HOUR else f"{(minutes + HOUR // 2) // HOUR} h"


def saved_words(answer: WhyNot, link: Link) -> str:
    """What a link's cause would save, in days of work."""
    saving = answer.saving(link)
    if saving is None:
        return NOTHING_TO_TAKE if link.cause is None else NOT_TRIED
    if not saving.minutes:
        return "0" if saving.sure else NOT_KNOWN
    return amount(saving)


def amount(saving: Saving) -> str:
    """half a day, 1 day, 1.5 days; in hours where no working day lies between."""
    if not saving.half_days:
        return whole_days(saving.minutes)
    if saving.half_days == 1:
        return "half a day"
    days = f"{saving.half_days / 2:g}"
    return f"{days} day" if days == "1" else f"{days} days"


def half_day(clock: Clock, moment: Minute) -> str:
    """Thu 2 April, after noon: as exactly as savings are counted."""
    day = clock.day(moment)
    return f"{usual(day)}, {'before' if moment < clock.noon(day) else 'after'} noon"


def is_a_night(link: Link) -> bool:
    """True for hours in which nobody works that are no lost day."""
    return link.kind == "hours" and link.until - link.since < DAY


def explained(plan: Plan, answer: WhyNot) -> list[str]:
    """The largest saving in sentences, and what was not looked at."""
    clock, told = Clock(plan.zone), []
    link = next((one for one in answer.links if one.cause == answer.most and answer.most), None)
    if link is None or link.cause is None:
        told.append("Nothing of this alone would make hand-over sooner.")
    else:
        where = f" ({link.where})" if link.where else ""
        told.append(f"{_capital(held_by(plan, link))}{where}.")
        gone = IF_GONE[link.cause.kind].format(of=link.cause.of)
        saving = answer.savings[link.cause]
        told.append(f"{gone}, hand-over moves to {half_day(clock, saving.finish)}.")
    if answer.then is not None:
        told.append(f"The next reason would then be: {held_by(plan, answer.then)}.")
    if answer.untried:
        causes = "1 cause" if answer.untried == 1 else f"{answer.untried} causes"
        told.append(f"{causes} that held for less long {'was' if answer.untried == 1 else 'were'} not tried.")
    told.append("Saved: how much earlier hand-over is if that alone is gone, planned again from the files.")
    told.append("Work in its order, nights and weekends are never taken away.")
    return told


def starting(plan: Plan) -> str:
    """Where the chain ends: today, or the day the job starts."""
    clock = Clock(plan.zone)
    if plan.as_of >= plan.start:
        return f"today, {usual(clock.day(plan.as_of))}"
    return f"the job starts, {usual(clock.day(plan.start))}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
