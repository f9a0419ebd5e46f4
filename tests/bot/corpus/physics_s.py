"""Figures for part S of the corpus: the everyday jobs, asked in ten voices.

Volumes in ml, masses in g, strengths in percent (syrups in °Bx), densities in g/ml at 20 °C.
"""

from physics_a import DASH, DROP, FLOZ, LB, QUART, salt
from physics_e import AVOZ, ceil, floor, raised, rho_syrup, sugar_in, thinned, water_down, water_for

__all__ = [
    "AVOZ", "DASH", "DROP", "FLOZ", "LB", "QUART", "ceil", "floor", "raised", "rho_syrup", "salt", "sugar_in",
    "thinned", "water_down", "water_for",
]
