"""The facts a shell can write: one table for its help, its parser and what runs them. Loads nothing."""

from __future__ import annotations

FACTS = {
    "began": "a step has begun: STEP",
    "done": "a step is done: STEP",
    "measured": "a meter was read: ROOM, its air; STEP, level 50 mm; STEP, resistance 52 ohm, 47 to 57 ohm",
    "ready": "a layer is ready before or after its time: STEP for PURPOSE",
    "passed": "an inspection has passed: STEP",
    "failed": "an inspection has failed, what it repeats is planned again: STEP",
    "ordered": "an order is placed: ORDER, or ORDER, on site by Fri 20 March",
    "delivered": "an order is on site and checked: ORDER, or ORDER, short, rest by Fri 20 March",
    "asked": "somebody is asked for a visit: STEP, or STEP, Tue 10 March 08:00",
    "booked": "a visit is firm: STEP, Tue 10 March 08:00",
    "released": "a visit is given back: STEP",
    "told": "somebody is told something: client, hand-over Fri 27 March",
    "note": "anything worth keeping, lot numbers too: WORDS, or STEP, WORDS",
}
"""Each writes one fact into the site book, then says what moves."""
