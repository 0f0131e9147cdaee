"""Every state a step needs stands while it works: nobody has taken it back without giving it again."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.audit.grouped import kin
from sequencer.audit.site import Site, meet, overlap
from sequencer.audit.slow_wait import NEVER
from sequencer.terms.job import Step


def broken(site: Site) -> Iterator[str]:
    """States that nobody gave, and states that were away."""
    for step in site.job.steps:
        for need in step.needs:
            if not site.behind(step) and not _stands(site, step, need.word):
                yield f"{step.id} needs {need.word}, which nobody has given by then"
        for need in (*step.needs, *step.follows):
            for taker in _takers(site, step, need.word):
                away = (site.start(taker), _given_again(site, taker, need.word))
                if overlap(away, (site.start(step), site.end(step))) and not site.behind(step, taker):
                    yield f"{step.id} needs {need.word} while {taker.id} has taken it back"


def _stands(site: Site, step: Step, state: str) -> bool:
    room, _, word = state.rpartition(":")
    room, word = room.strip() or step.room, word.strip()
    if any(already.word == word for already in site.job.room(room).already):
        return True
    near = [each for each in site.givers(room, word) if room != step.room or meet(step, each[0])]
    return any(site.ready(giver, given.purpose) <= site.start(step) for giver, given in near)


def _takers(site: Site, step: Step, state: str) -> list[Step]:
    room, _, word = state.rpartition(":")
    return [
        taker
        for taker in site.takers(room.strip() or step.room, word.strip())
        if (bool(room) or meet(step, taker)) and not kin(step, taker)
    ]


def _given_again(site: Site, taker: Step, state: str) -> int:
    word = state.rpartition(":")[2].strip()
    given = [(s, g.purpose) for s in site.family(taker) for g in s.gives if g.state == word]
    return max((site.ready(giver, purpose) for giver, purpose in given), default=NEVER)
