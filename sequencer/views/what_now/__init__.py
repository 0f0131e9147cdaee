"""Views of what now: what moves, whom to call with which words, which orders change."""
