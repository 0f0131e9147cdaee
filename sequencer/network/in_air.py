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
    found: list[ByClock] = []
    for rule in rules:
        said = [rule.ready] if isinstance(rule, WaitFor) else [rule.latest] if isinstance(rule, Window) else []
        if isinstance(rule, OneAtATime | AtMost):
            said = [claim.until for claim in rule.claims if claim.until is not None]
        found += [function for function in said if isinstance(function, ByClock)]
    rooms = {room.name: number for number, room in enumerate(case.job.rooms)}
    once = {(each.of, each.step.id, id(each.wait)): each for each in found}
    return sorted(once.values(), key=lambda each: rooms[each.step.room])


class _Bound:
    def __init__(self, case: Case) -> None:
        self.case = case
        self._claims: dict[int, Claim] = {}

    def rule(self, rule: Rule) -> Rule:
        if isinstance(rule, WaitFor):
            ready = rule.ready
            return WaitFor(rule.before, rule.after, self._of(ready), rule.why) if isinstance(ready, ByClock) else rule
        if isinstance(rule, Window):
            last = rule.latest
            return Window(rule.before, rule.after, self._of(last), rule.why) if isinstance(last, ByClock) else rule
        if isinstance(rule, OneAtATime | AtMost) and any(isinstance(claim.until, ByClock) for claim in rule.claims):
            claims = tuple(self._claim(claim) for claim in rule.claims)
            return OneAtATime(claims, rule.why) if isinstance(rule, OneAtATime) else replace(rule, claims=claims)
        return rule

    def _claim(self, claim: Claim) -> Claim:
        if not isinstance(claim.until, ByClock):
            return claim
        if id(claim) not in self._claims:
            self._claims[id(claim)] = replace(claim, until=self._of(claim.until))
        return self._claims[id(claim)]

    def _of(self, function: MinuteFunction) -> MinuteFunction:
        return self.case.made_by_clock(function) if isinstance(function, ByClock) else function
