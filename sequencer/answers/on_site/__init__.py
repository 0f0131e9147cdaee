"""Answers for a day on site: what may start when, with everything else left where the plan has it."""
