"""A list pass that takes back what missed its window."""

from __future__ import annotations

from dataclasses import replace

from tiny_jobs import HERE, ident, job, network_of, step

from sequencer.network.model import HAND_OVER, Order, Why, Window
from sequencer.solve.grid import lay
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.terms.minute import HOUR

WITHIN = HOUR
"""How soon the paint follows the ground [min]."""


def test_hand_over_goes_along_with_what_it_follows_where_that_is_taken_back() -> None:
    """Paint, which hand-over does not wait for, is late behind a long step: the ground is laid again, and later."""
    ground, long, paint = ident("ground"), ident("long"), ident("paint")
    network = network_of(job(step("ground"), step("long", 300, by="tiler"), step("paint", after="long")))
    kept = [rule for rule in network.rules if not (isinstance(rule, Order) and rule.after == HAND_OVER)]
    why = Why("material", "", HERE)
    tied = (Order(ground, HAND_OVER, why), Window(ground, paint, lambda ends: ends + WITHIN, why))
    problem = lay(replace(network, rules=(*kept, *tied)), network.horizon)
    first = [ground, HAND_OVER, long, paint]
    places = ListPass(problem).run([float(first.index(id)) for id in problem.ids])
    assert not isinstance(places, Stuck)
    at = {id: int(problem.starts[task][places[task]]) for task, id in enumerate(problem.ids)}
    assert problem.slot * (at[HAND_OVER] - at[ground]) >= HOUR
    assert at[paint] > at[long]
