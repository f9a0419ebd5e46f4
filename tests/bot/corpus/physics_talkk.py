"""Figures for the dialogues of part K: a value missing, a value changed, the same in another unit."""

from physics_k import PSI, ceil, gauge_bar, salt, stirred, water_down

__all__ = ["PSI", "ceil", "gauge_bar", "salt", "stirred", "water_down"]
