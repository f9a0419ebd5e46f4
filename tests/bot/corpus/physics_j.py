"""Figures for part J of the corpus: guests in the language, long polite messages, the bar at home.

Volumes in ml, masses in g, strengths in percent (syrups in °Bx), densities in g/ml at 20 °C, gauge pressures in bar.
"""

from physics_a import DASH, DROP, IMP_PINT, PINT, SALT_TSP, SUGAR_CUP, TBSP, TSP, salt
from physics_e import (
    AVOZ,
    CO2_G_PER_L,
    CUP,
    GALLON,
    LB,
    OZ,
    PSI,
    QUART,
    RHO_WATER,
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
    temperature_for,
    water_down,
)

__all__ = [
    "AVOZ", "CO2_G_PER_L", "CUP", "DASH", "DROP", "ETHANOL_G_PER_ML", "GALLON", "IMP_PINT", "LB", "OZ", "PINT",
    "PSI", "QUART", "RHO_WATER", "SALT_TSP", "SUGAR_CUP", "TBSP", "TSP", "abv_with_water", "ceil", "celsius",
    "co2_volumes", "floor", "gauge_bar", "rho_syrup", "salt", "shaken", "stirred", "sugar_in", "temperature_for",
    "water_down",
]

ETHANOL_G_PER_ML = 0.78924  # pure ethanol at 20 °C, OIML R 22
