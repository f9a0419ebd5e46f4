"""Figures for the dialogues of part J: a value mended, the next unknown, a subject changed."""

from physics_j import (
    AVOZ,
    CUP,
    DASH,
    DROP,
    ETHANOL_G_PER_ML,
    OZ,
    PSI,
    abv_with_water,
    ceil,
    gauge_bar,
    salt,
    shaken,
    stirred,
    sugar_in,
    water_down,
)

__all__ = [
    "AVOZ", "CUP", "DASH", "DROP", "ETHANOL_G_PER_ML", "OZ", "PSI", "abv_with_water", "ceil", "gauge_bar",
    "salt", "shaken", "stirred", "sugar_in", "water_down",
]
