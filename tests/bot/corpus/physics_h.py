"""Figures for part H of the corpus: those of part E.

Volumes in ml, masses in g, strengths in percent (syrups in °Bx), densities in g/ml at 20 °C.
"""

from physics_e import (
    AVOZ,
    CUP,
    ETHANOL,
    GALLON,
    LB,
    OZ,
    QUART,
    ceil,
    floor,
    raised,
    rho_syrup,
    sugar_in,
    thinned,
    water_down,
)

__all__ = [
    "AVOZ", "CUP", "ETHANOL", "GALLON", "LB", "OZ", "QUART", "ceil", "floor", "raised", "rho_syrup", "sugar_in",
    "thinned", "water_down",
]
