"""What now, as text: the new hand-over, what moves and stays, what fills the gap, whom to call, which orders change."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.answers.what_now.answer import WhatNow
from sequencer.network.model import HAND_OVER
from sequencer.terms.words import in_words
from sequencer.views.against_told import order_by_words
from sequencer.views.beside import others_words
from sequencer.views.clock import Clock, days_between, usual
from sequencer.views.lines import Section, laid_out
from sequencer.views.titles import title_of_id
from sequencer.views.what_now.messages import by_words, message

WIDTH = 80
ABOUT = {
    "yes": "needs to say yes",
    "confirm": "to settle the new day",
    "move": "a visit moves",
    "release": "a visit is not needed any more",
    "come": "a visit more",
    "tell": "hand-over moves",
}


def what_now_text(found: WhatNow, width: int = WIDTH) -> str:
    """The answer, every line within `width`."""
    sections = (
        Section("hand over", (hand_over(found),)),
        Section("against the recipes", tuple(_against(found))),
        Section("what moves", tuple(_moves(found))),
        Section("what can be pulled into the gap", tuple(_gap(found))),
        Section("whom to call, in this order", tuple(_calls(found))),
        Section("orders", tuple(_orders(found))),
        Section("assumed", tuple(in_words(text, found.plan.words) for text in found.moves.said)),
        Section("the other jobs", tuple(others_words(found.beside))),
    )
    return "\n".join(laid_out([one for one in sections if one.texts], width)) + "\n"


def _against(found: WhatNow) -> Iterator[str]:
    """What speaks against the facts, and what to do where one was told by mistake."""
    yield from (in_words(text, found.plan.words) for text in found.plan.against_recipes)
    if found.plan.against_recipes:
        yield "if a fact was told by mistake, undo strikes it"


def hand_over(found: WhatNow) -> str:
    """The new hand-over against the old one and the promise, in a sentence."""
    clock, plan = Clock(found.plan.zone), found.plan
    if plan.finish == found.before.finish:
        said = f"stays {clock.at(plan.finish)}"
    else:
        said = f"moves from {clock.at(found.before.finish)} to {clock.at(plan.finish)}"
    if plan.promise is None:
        return said
    promised, now = clock.last_day(plan.promise), clock.day(plan.finish)
    if now <= promised:
        return f"{said}; promised for {usual(promised)}: kept"
    return f"{said}; promised for {usual(promised)}: {days_between(promised, now)} late"


def _moves(found: WhatNow) -> Iterator[str]:
    """Everything that changes its day, or its hour today, and how many others do not."""
    clock, hours = Clock(found.plan.zone), 0
    today = clock.day(found.plan.as_of)
    for move in sorted(found.moves.moved, key=lambda one: (one.starts or one.was or 0, one.id)):
        if move.id == HAND_OVER:
            continue
        if move.was is None or move.starts is None:
            word, moment = ("new", move.starts) if move.was is None else ("no longer needed", move.was)
            title = move.id if move.starts is None else title_of_id(found.plan, move.id)
            yield f"{title}: {word}, {clock.at(moment or 0)}"
        elif clock.day(move.was) != clock.day(move.starts) or clock.day(move.starts) == today:
            trade = found.plan.step(move.id).trade
            yield f"{title_of_id(found.plan, move.id)} ({trade}): from {clock.at(move.was)} to {clock.at(move.starts)}"
        else:
            hours += 1
    if hours:
        yield f"{hours} {'step changes' if hours == 1 else 'steps change'} the hour, not the day"
    stay = found.moves.stay
    yield "1 step stays as it was" if stay == 1 else f"{stay or 'no'} steps stay as they were"


def _gap(found: WhatNow) -> Iterator[str]:
    clock = Clock(found.plan.zone)
    for id in found.pulled:
        yield f"{title_of_id(found.plan, id)} comes sooner, {clock.at(found.plan.step(id).start)}"
    for hour in found.gap:
        left = ("" if one.whole else ", begun and left" for one in hour.fillers)
        could = (title_of_id(found.plan, one.step) + how for one, how in zip(hour.fillers, left, strict=True))
        yield f"{clock.span(hour.start, hour.end)}: {'; '.join(could)}"
    for one in found.elsewhere:
        yield f"{clock.span(one.start, one.end)}: {one.step}, at {one.job}"


def _calls(found: WhatNow) -> Iterator[str]:
    for number, call in enumerate(found.calls, 1):
        yield f"{number}. {call.who}, {by_words(found, call)}: {ABOUT[call.about]}"
        yield f'"{message(found, call)}"'
    clock = Clock(found.plan.zone)
    untold = [f"{visit.trade} {clock.at(visit.starts)}" for visit in found.untold if visit.starts is not None]
    if untold:
        yield f"pencilled only, so nobody to call: {', '.join(untold)}"


def _orders(found: WhatNow) -> Iterator[str]:
    clock = Clock(found.plan.zone)
    for one in found.orders:
        order = one.order
        needed = f"needed {clock.at(order.needed)} instead of {clock.at(one.was)}"
        yield f"{order.item}: {needed}{order_by_words(clock, order.order_by, one.order_by)}"
