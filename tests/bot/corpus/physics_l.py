"""Figures for part L of the corpus: plain questions of every job, in eight voices.

Volumes in ml, masses in g, strengths in percent (syrups in °Bx), densities in g/ml at 20 °C, gauge pressures in bar.
"""

from physics_a import CUP, DASH, DROP, FLOZ, IMP_PINT, QUART, SUGAR_CUP, TBSP, salt
from physics_c import ethanol, uk, us
from physics_e import (
    AVOZ,
    CO2_G_PER_L,
    PSI,
    RHO_WATER,
    abv_with_water,
    ceil,
    celsius,
    co2_volumes,
    floor,
    gauge_bar,
    shaken,
    stirred,
    sugar_in,
    water_down,
)

__all__ = [
    "AVOZ", "CO2_G_PER_L", "CUP", "DASH", "DROP", "FLOZ", "IMP_PINT", "PSI", "QUART", "RHO_WATER", "SUGAR_CUP",
    "TBSP", "abv_with_water", "ceil", "celsius", "co2_volumes", "ethanol", "floor", "gauge_bar", "salt", "shaken",
    "stirred", "sugar_in", "uk", "us", "water_down",
]
