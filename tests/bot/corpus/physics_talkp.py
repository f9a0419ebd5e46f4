"""Figures for the dialogues of part P: a dropper counted, another ounce, another ratio, another method."""

from physics_a import IMP_PINT
from physics_e import shaken, stirred
from physics_p import CUP, DROP, rho_syrup, salt, sugar_in

__all__ = ["CUP", "DROP", "IMP_OZ", "rho_syrup", "salt", "shaken", "stirred", "sugar_in"]

IMP_OZ = IMP_PINT / 20
