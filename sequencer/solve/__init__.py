"""Times for every task of a network. The only floor that knows the grid and the solver library."""

from sequencer.solve.answer import Answer, NoAnswer
from sequencer.solve.by_itself import Alone, alone
from sequencer.solve.possible import fits, sooner
from sequencer.solve.several import AnswerOfAll, solve_several
from sequencer.solve.solve import first_answer, solve

__all__ = [
    "Alone",
    "Answer",
    "AnswerOfAll",
    "NoAnswer",
    "alone",
    "first_answer",
    "fits",
    "solve",
    "solve_several",
    "sooner",
]
