"""Answers: each one a fresh plan on changed inputs, set against the plan at hand."""
