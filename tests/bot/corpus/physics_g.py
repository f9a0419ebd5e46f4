"""Figures for part G of the corpus: those of part E.  Volumes in ml, masses in g."""

from physics_e import LB, ceil

__all__ = ["LB", "ceil"]
