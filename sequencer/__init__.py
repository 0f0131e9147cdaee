"""Cure-and-sequence planner: plain files in, a proven plan out."""
