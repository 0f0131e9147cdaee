"""One small module a rule of the trade. Each has `rules(case)`, which yields primitives."""
