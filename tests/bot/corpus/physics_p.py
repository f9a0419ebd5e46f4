"""Figures for part P of the corpus: one question in four mouths, one of them from the other end.

Volumes in ml, masses in g, strengths in percent (syrups in °Bx), densities in g/ml at 20 °C.
"""

from physics_a import CUP, DASH, DROP, FLOZ, LB, QUART, salt
from physics_e import (
    AVOZ,
    abv_with_water,
    ceil,
    floor,
    raised,
    rho_syrup,
    sugar_in,
    thinned,
    water_down,
    water_for,
)

__all__ = [
    "AVOZ", "CUP", "DASH", "DROP", "FLOZ", "LB", "QUART", "abv_with_water", "ceil", "floor", "raised", "rho_syrup",
    "salt", "sugar_in", "thinned", "water_down", "water_for",
]
