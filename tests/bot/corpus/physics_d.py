"""Independent figures for part D of the corpus: the quantities of parts A, B and C, gathered.

Strengths are per cent by mass unless a name says otherwise, densities g/ml at 20 °C, volumes ml, masses g.
"""

from physics_a import (
    BARSPOON,
    CHARGER,
    CUP,
    DASH,
    DROP,
    FLOZ,
    GALLON,
    IMP_PINT,
    LB,
    OZ,
    PINT,
    PSI,
    QUART,
    SALT_TSP,
    SPIRIT,
    SUGAR_CUP,
    TBSP,
    TSP,
    salt,
    sqrt,
    sugar,
)
from physics_b import abw
from physics_c import IMP_FLOZ, down, up

__all__ = [
    "BARSPOON", "CHARGER", "CUP", "DASH", "DROP", "FLOZ", "GALLON", "IMP_FLOZ", "IMP_PINT", "LB", "OZ", "PINT",
    "PSI", "QUART", "SALT_TSP", "SPIRIT", "SUGAR_CUP", "TBSP", "TSP", "abw", "down", "salt", "sqrt", "sugar",
    "up",
]
