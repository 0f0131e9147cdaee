"""Writes a plan up: from the job, its network and the times of the solver to everything a view may say."""

from sequencer.writeup.write import times_of, write

__all__ = ["times_of", "write"]
