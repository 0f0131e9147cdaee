"""What stands under a diary: hand-over and promise, whom to call, what to order, what is assumed, what to heed."""

from __future__ import annotations

from sequencer.plan import AIR_AT_ONCE, DRIER_AIR, GivenUp, Plan, PlannedDecision, PlannedOrder, Visit
from sequencer.terms.minute import DAY, Minute
from sequencer.terms.words import OWN_TRADE, in_words, say_ready
from sequencer.views.against_told import against_told, kept_recipes
from sequencer.views.cautions import gathered
from sequencer.views.clock import Clock, days_between, length, list_of_days, usual, whole_days
from sequencer.views.lines import Section
from sequencer.views.promises import handed_over
from sequencer.views.sentences import under_way_words, why_not_sooner
from sequencer.views.titles import title_of, title_of_id
from sequencer.views.weighed import weighed

IN_OTHER_AIR = {
    DRIER_AIR: "So much shorter it would be if no layer damped the air of another; how much of that can be had, more "
    "effort does not tell.",
    AIR_AT_ONCE: "So much shorter it would be if the air that its own steps bring were there from the start; how much "
    "of that can be had, more effort does not tell.",
}
"""Why a plan is not called the shortest, where that is not for want of effort."""


def foot_of(plan: Plan) -> list[Section]:
    """The sections under the diary of a plan; empty ones are left out."""
    return _Foot(plan).sections()


class _Foot:
    """The sentences of one plan."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.clock = Clock(plan.zone)

    def sections(self) -> list[Section]:
        plan = self.plan
        named = (
            ("hand over", self._hand_over()),
            ("beside it", self._beside()),
            ("against what people were told", against_told(plan)),
            ("then weighed, in this order", weighed(plan)),
            ("recipes changed since people were told", kept_recipes(plan)),
            ("whom to call", [self._visit(visit) for visit in plan.visits if visit.trade != OWN_TRADE]),
            ("what to decide", [self._decision(one) for one in plan.decisions if not one.decided]),
            ("what to order", [self._order(order) for order in plan.orders]),
            ("on the way", [f"{name}: {self.clock.at(at)}" for name, at in self._on_the_way()]),
            ("still to come after hand-over", self._still_to_come()),
            ("bookings given up, call them", self._all_given_up()),
            ("bookings that stand, their cushion used up", [self._stands(id) for id in plan.cushions_used]),
            ("taken as done, though nobody said so", self._titles("not told")),
            ("failed", self._titles("failed")),
            ("against the recipes", [in_words(text, plan.words) for text in plan.against_recipes]),
            ("under way, if all went to plan", self._under_way()),
            ("assumed", list(plan.assumed)),
            ("air", [in_words(text, plan.words) for text in plan.warnings]),
            ("take care", self._cautions()),
        )
        return [Section(name, tuple(texts)) for name, texts in named if texts]

    def _hand_over(self) -> list[str]:
        plan, finish = self.plan, self.clock.day(self.plan.finish)
        when = f"{usual(finish)} {finish.year} {self.clock.hour(plan.finish)}"
        if plan.proven:
            said = [f"{when}. {'The best for all jobs together.' if plan.beside else 'Shortest possible.'}"]
        else:
            at_best = f"Could at best be {whole_days(plan.finish - plan.at_best)} shorter."
            said = [" ".join(filter(None, (f"{when}.", at_best, IN_OTHER_AIR.get(plan.at_best_in))))]
        why = why_not_sooner(plan, plan.finish_waited_for)
        said += [f"Why not sooner: {why}"] if why else []
        if plan.promise is not None:
            promised = self.clock.last_day(plan.promise)
            if plan.finish > plan.promise:
                said.append(f"Promised for {usual(promised)}: missed by {self._missed(plan.promise)}.")
            else:
                spare = "on the day" if finish == promised else f"with {days_between(finish, promised)} to spare"
                said.append(f"Promised for {usual(promised)}: kept, {spare}.")
        return said

    def _beside(self) -> list[str]:
        """The jobs that share people, and what this one could have without them."""
        said = [handed_over(one) for one in self.plan.beside]
        if self.plan.alone is not None and self.plan.alone + DAY // 2 <= self.plan.finish:
            day = usual(self.clock.day(self.plan.alone))
            said.append(f"By itself this job might be handed over {day}; plan their folder to see the choice.")
        return said

    def _missed(self, promise: Minute) -> str:
        first, last = self.clock.last_day(promise), self.clock.day(self.plan.finish)
        return days_between(first, last) if last > first else length(self.plan.finish - promise)

    def _all_given_up(self) -> list[str]:
        """Every visit given up, and whether they are only the fewest that were found."""
        told = [self._given_up(one) for one in self.plan.released]
        return told if self.plan.fewest_released else [*told, "These are the fewest found; fewer may do."]

    def _given_up(self, one: GivenUp) -> str:
        """A visit that no plan could keep, and when it can be instead."""
        moved = self.clock.at(self.plan.step(one.step).start)
        title = title_of_id(self.plan, one.step)
        was = f"{one.trade}, {title}: booked for {self.clock.at(one.at)} ({one.where})"
        fits = "fits" if self.plan.fewest_released else "was found"
        return f"{was}; with all visits firm no order of work {fits}. Now {moved}."

    def _stands(self, id: str) -> str:
        """A visit that stands though what is in front of it ends shortly before."""
        step = self.plan.step(id)
        return f"{step.trade}, {title_of_id(self.plan, id)}: {self.clock.at(step.start)}; nothing in front may be late"

    def _visit(self, visit: Visit) -> str:
        pieces = [piece for id in visit.steps for piece in self.plan.step(id).pieces]
        days = sorted({day for start, end in pieces for day in self.clock.days(start, end)})
        by_recipe: dict[str, list[str]] = {}
        for id in visit.steps:
            step = self.plan.step(id)
            by_recipe.setdefault(step.recipe.replace("-", " "), []).append(step.step)
        work = "; ".join(f"{recipe}: {', '.join(names)}" for recipe, names in by_recipe.items())
        when = list_of_days(days) or usual(self.clock.day(visit.start))
        return f"{visit.trade}: {when}, from {self.clock.hour(visit.start)}, {visit.state}{self._call(visit)} ({work})"

    def _call(self, visit: Visit) -> str:
        if visit.call_by is None:
            return ""
        by = self.clock.by(visit.call_by)
        return f"; CALL NOW, was due {by}" if visit.call_by <= self.plan.as_of else f"; call by {by}"

    def _decision(self, decision: PlannedDecision) -> str:
        needed, ask_by = f"needed {self.clock.at(decision.needed)}", decision.ask_by or decision.needed
        if ask_by <= self.plan.as_of:
            return f"{decision.id}, {decision.by}: ASK NOW, was due {self.clock.by(ask_by)}; {needed}"
        return f"{decision.id}, {decision.by}: ask by {self.clock.by(ask_by)}, {needed}"

    def _order(self, order: PlannedOrder) -> str:
        needed = f"needed {self.clock.at(order.needed)}"
        if order.order_by is None:
            return f"{order.item}: {order.state}, on site {usual(self.clock.day(order.arrives))}, {needed}"
        by = self.clock.by(order.order_by)
        if order.order_by <= self.plan.as_of:
            return f"{order.item}: ORDER NOW, was due {by}; {needed}"
        on_site = f"on site {self.clock.by(order.arrives)}, " if order.order_by < order.arrives <= order.needed else ""
        return f"{order.item}: order by {by}, {on_site}{needed}"

    def _on_the_way(self) -> list[tuple[str, Minute]]:
        passed = [(name, at) for name, at in self.plan.milestones.items() if at != self.plan.finish]
        return sorted(passed, key=lambda pair: (pair[1], pair[0]))

    def _still_to_come(self) -> list[str]:
        return [
            f"{title_of_id(self.plan, one.step)}: ready "
            f"{say_ready(one.purpose, self.plan.words)} {self.clock.at(one.at)}"
            for one in sorted(self.plan.still_to_come, key=lambda one: (one.at, one.step, one.purpose))
        ]

    def _under_way(self) -> list[str]:
        return [
            f"{title_of_id(self.plan, one.step)}: {under_way_words(self.plan, self.clock, one)}"
            for one in self.plan.under_way
        ]

    def _cautions(self) -> list[str]:
        """Those of whole recipes; those of single steps stand with the steps."""
        general = dict.fromkeys(in_words(text, self.plan.words) for id, text in self.plan.cautions if id is None)
        steps = {id for id, _ in self.plan.cautions if id is not None}
        more = [f"{len(steps)} steps have cautions of their own: plan --plain and when tell them"] if steps else []
        return [*gathered(general), *more]

    def _titles(self, state: str) -> list[str]:
        steps = [step for step in self.plan.steps if step.state == state]
        return [f"{title_of(self.plan, step)}, {self.clock.at(step.start)}" for step in steps]
