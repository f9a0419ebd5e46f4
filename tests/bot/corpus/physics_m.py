"""Figures for part M of the corpus: every job, asked by eight more people.

Volumes in ml, masses in g, strengths in percent (syrups in °Bx), densities in g/ml at 20 °C, gauge pressures in bar.
"""

from physics_a import BARSPOON, CUP, DASH, DROP, IMP_PINT, SUGAR_CUP, TSP, salt
from physics_c import au, ethanol, uk, us
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
    celsius,
    co2_volumes,
    floor,
    gauge_bar,
    rho_syrup,
    shaken,
    stirred,
    sugar_in,
    water_down,
)

__all__ = [
    "AVOZ", "BARSPOON", "CO2_G_PER_L", "CUP", "DASH", "DROP", "GALLON", "IMP_PINT", "LB", "OZ", "PSI", "QUART",
    "SUGAR_CUP", "TSP", "abv_with_water", "au", "ceil", "celsius", "co2_volumes", "ethanol", "floor", "gauge_bar",
    "rho_syrup", "salt", "shaken", "stirred", "sugar_in", "uk", "us", "water_down",
]
