"""Times for every task of a network. The only floor that knows the grid and the solver library."""

from sequencer.solve.answer import Answer, GoalReached, NoAnswer
from sequencer.solve.by_itself import Alone, alone
from sequencer.solve.earlier import earliest_before
from sequencer.solve.possible import Work, fits
from sequencer.solve.round_trip import pushed_out
from sequencer.solve.several import AnswerOfAll, solve_several
from sequencer.solve.solve import first_answer, solve

__all__ = [
    "Alone",
    "Answer",
    "AnswerOfAll",
    "GoalReached",
    "NoAnswer",
    "Work",
    "alone",
    "earliest_before",
    "first_answer",
    "fits",
    "pushed_out",
    "solve",
    "solve_several",
]
