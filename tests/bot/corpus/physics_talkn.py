"""Figures for the dialogues of part N: a dropper counted, another ounce, another ratio, another method."""

from physics_a import IMP_PINT
from physics_e import shaken, stirred
from physics_n import DROP, FLOZ, rho_syrup, salt, sugar_in

__all__ = ["DROP", "FLOZ", "IMP_OZ", "rho_syrup", "salt", "shaken", "stirred", "sugar_in"]

IMP_OZ = IMP_PINT / 20
