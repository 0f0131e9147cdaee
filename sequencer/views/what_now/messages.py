"""The words to send: short, polite, dated; one message a trade, one for the client."""

from __future__ import annotations

from sequencer.answers.what_now.answer import WhatNow
from sequencer.answers.what_now.visits import VisitMove
from sequencer.answers.what_now.whom import CallNow
from sequencer.terms.fact import Fact
from sequencer.terms.words import in_words
from sequencer.views.clock import Clock, days_between, length, usual
from sequencer.views.lines import sentence
from sequencer.views.titles import title_of_id


def message(found: WhatNow, call: CallNow) -> str:
    """What to send to whoever is called."""
    return _Writer(found, call).message()


class _Writer:
    def __init__(self, found: WhatNow, call: CallNow) -> None:
        self.found, self.call, self.plan = found, call, found.plan
        self.clock = Clock(found.plan.zone)

    def message(self) -> str:
        text = f"Hello, about {self.plan.title}: {getattr(self, f'_{self.call.about}')()}"
        return text if self.call.about in ("tell", "yes") else f"{text} Thank you."

    def _confirm(self) -> str:
        return (
            f"noted that you come later. I now have you down for {self._visits()}. "
            f"Please tell me {self._by()} if that does not hold."
        )

    def _move(self) -> str:
        return f"your visit has to move: {self._visits()}. Can you make that? Please tell me {self._by()}."

    def _release(self) -> str:
        days = "; ".join(f"{self.clock.at(v.was)} ({self._work(v)})" for v in self.call.visits if v.was is not None)
        return f"your visit of {days} is not needed any more. I am sorry for the change."

    def _come(self) -> str:
        coming = (visit for visit in self.call.visits if visit.starts is not None)
        days = "; ".join(f"{self.clock.at(visit.starts or 0)} ({self._work(visit)})" for visit in coming)
        return f"could you come on {days}? Please tell me {self._by()}."

    def _yes(self) -> str:
        facts = [fact for fact in self.found.facts if fact.kind == "found"]
        found = " and ".join(f"{what_was_found(fact)}, about {length(fact.minutes or 0)} of work" for fact in facts)
        return (
            f"we have found {found}. Nothing is covered before you have said yes. May we go ahead? "
            f"With your yes {self._by()}, {self._hand_over()}."
        )

    def _tell(self) -> str:
        sooner = self.plan.finish < self.found.before.finish
        reasons = " and ".join(dict.fromkeys(reason(self.found, fact) for fact in self.found.facts))
        closing = "Please tell me if that suits you." if sooner else "I am sorry for the delay."
        return f"{reasons}. {sentence(self._hand_over())}. {closing}"

    def _hand_over(self) -> str:
        """The day it is now, against the one they know."""
        was, now = self.clock.day(self.found.before.finish), self.clock.day(self.plan.finish)
        if was == now:
            return f"hand-over stays {usual(now)}"
        instead = f" instead of {usual(was)}" if self.found.told else ""
        return f"hand-over is now {usual(now)}{instead}{self._promise()}"

    def _promise(self) -> str:
        if self.plan.promise is None:
            return ""
        promised, now = self.clock.last_day(self.plan.promise), self.clock.day(self.plan.finish)
        if now <= promised:
            return f", still by {usual(promised)} as promised"
        return f", {days_between(promised, now)} after the day promised"

    def _visits(self) -> str:
        return "; ".join(
            f"{self.clock.at(visit.starts)} instead of {self.clock.at(visit.was)} ({self._work(visit)})"
            for visit in self.call.visits
            if visit.was is not None and visit.starts is not None
        )

    def _work(self, visit: VisitMove) -> str:
        return "; ".join(title_of_id(self.plan, id) for id in visit.steps)

    def _by(self) -> str:
        return by_words(self.found, self.call)


def by_words(found: WhatNow, call: CallNow) -> str:
    """by Wed 3 March; today"""
    clock = Clock(found.plan.zone)
    day = clock.last_day(call.by) if call.by > found.plan.as_of else clock.day(call.by)
    return "today" if day <= clock.day(found.plan.as_of) else f"by {clock.by(call.by)}"


def what_was_found(fact: Fact) -> str:
    """rot"""
    return fact.words.partition(",")[0].strip()


def reason(found: WhatNow, fact: Fact) -> str:
    """Why things move, as one tells the client: nobody is blamed."""
    items = {order.id: order.item for order in found.plan.orders}
    words = {
        "late": f"the {fact.about} comes later than planned",
        "away": f"the {fact.about} cannot come on some days",
        "failed": "an inspection has to be done again",
        "found": f"we have found {what_was_found(fact)}, which has to be put right",
        "delivered": f"not all of the {items.get(fact.about, fact.about)} has come yet",
    }
    return in_words(words.get(fact.kind, "the work goes otherwise than planned"), found.plan.words)
