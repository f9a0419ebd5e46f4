"""Figures for part N of the corpus: one question in three mouths, solutions to strength.

Volumes in ml, masses in g, strengths in percent (syrups in °Bx), densities in g/ml at 20 °C.
"""

from physics_a import CUP, DASH, DROP, FLOZ, LB, QUART, salt
from physics_e import AVOZ, ceil, floor, rho_syrup, sugar_in, water_down, water_for

__all__ = [
    "AVOZ", "CUP", "DASH", "DROP", "FLOZ", "LB", "QUART", "ceil", "floor", "rho_syrup", "salt", "sugar_in",
    "water_down", "water_for",
]
