"""Figures for part K of the corpus: lab and production kitchen, planning and pricing, teaching.

Volumes in ml, masses in g, strengths in percent (syrups in °Bx), densities in g/ml at 20 °C, gauge pressures in bar.
"""

from physics_a import salt
from physics_e import (
    AVOZ,
    CO2_G_PER_L,
    GALLON,
    LB,
    OZ,
    PSI,
    QUART,
    abv_with_water,
    ceil,
    co2_volumes,
    floor,
    gauge_bar,
    rho_syrup,
    shaken,
    stirred,
    sugar_in,
    thinned,
    water_down,
    water_for,
)

__all__ = [
    "AVOZ", "CO2_G_PER_L", "GALLON", "LB", "OZ", "PSI", "QUART", "abv_with_water", "ceil", "co2_volumes", "floor",
    "gauge_bar", "rho_syrup", "salt", "shaken", "stirred", "sugar_in", "thinned", "water_down", "water_for",
]
