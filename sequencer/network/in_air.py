"""Rules in an air: what hangs on the clock of a wait is said by the clock that wait has there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from sequencer.network.by_clock import ByClock
from sequencer.network.case import Case
from sequencer.network.model import AtMost, Claim, MinuteFunction, OneAtATime, Rule, WaitFor, Window


def in_air(rules: Iterable[Rule], case: Case) -> tuple[Rule, ...]:
    """The rules in the air of a case; what does not hang on it stays the same."""
    bound = _Bound(case)
    return tuple(bound.rule(rule) for rule in rules)


def by_room(rules: Iterable[Rule], case: Case) -> list[ByClock]:
    """What hangs on clocks in some rules, room by room: the air of a room is worked out at one go."""
    found = [function for rule in rules for function in _clocks_of(rule)]
    rooms = {room.name: number for number, room in enumerate(case.job.rooms)}
    once = {(each.of, each.step.id, id(each.wait)): each for each in found}
    return sorted(once.values(), key=lambda each: rooms[each.step.room])


def _clocks_of(rule: Rule) -> list[ByClock]:
    """What of a rule hangs on clocks."""
    if isinstance(rule, WaitFor):
        return [rule.ready] if isinstance(rule.ready, ByClock) else []
    if isinstance(rule, Window):
        return [rule.latest] if isinstance(rule.latest, ByClock) else []
    if isinstance(rule, OneAtATime | AtMost):
        return [claim.until for claim in rule.claims if isinstance(claim.until, ByClock)]
    return []


class _Bound:
    """Binds rules; what was bound for a room whose layers dry alike stays the same rule."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self._claims: dict[int, Claim] = {}

    def rule(self, rule: Rule) -> Rule:
        rooms = {function.step.room for function in _clocks_of(rule)}
        if not rooms:
            return rule
        if len(rooms) > 1:
            return self._bound(rule)
        known = self.case.in_room(rooms.pop()).rules
        if id(rule) not in known:
            known[id(rule)] = self._bound(rule)
        return known[id(rule)]

    def _bound(self, rule: Rule) -> Rule:
        if isinstance(rule, WaitFor):
            return WaitFor(rule.before, rule.after, self._of(rule.ready), rule.why)
        if isinstance(rule, Window):
            return Window(rule.before, rule.after, self._of(rule.latest), rule.why)
        assert isinstance(rule, OneAtATime | AtMost), f"{rule} hangs on no clock"
        return replace(rule, claims=tuple(self._claim(claim) for claim in rule.claims))

    def _claim(self, claim: Claim) -> Claim:
        if not isinstance(claim.until, ByClock):
            return claim
        if id(claim) not in self._claims:
            self._claims[id(claim)] = replace(claim, until=self._of(claim.until))
        return self._claims[id(claim)]

    def _of(self, function: MinuteFunction) -> MinuteFunction:
        return self.case.made_by_clock(function) if isinstance(function, ByClock) else function
