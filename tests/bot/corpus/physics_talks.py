"""Figures for the dialogues of part S: a dropper counted, an ounce set, a ratio changed, a spec scaled twice."""

from physics_c import IMP_FLOZ
from physics_e import shaken, stirred
from physics_s import DROP, QUART, salt, sugar_in

__all__ = ["DROP", "IMP_FLOZ", "QUART", "salt", "shaken", "stirred", "sugar_in"]
