"""Figures for part O of the corpus: the same jobs, asked in ten voices.

Volumes in ml, masses in g, strengths in percent, densities in g/ml at 20 °C, gauge pressures in bar.
"""

from physics_a import BARSPOON, CUP, FLOZ, TBSP, TSP
from physics_c import au, ethanol, uk, us
from physics_e import (
    AVOZ,
    CO2_G_PER_L,
    GALLON,
    LB,
    PSI,
    QUART,
    ceil,
    celsius,
    floor,
    gauge_bar,
    shaken,
    stirred,
)

__all__ = [
    "AVOZ", "BARSPOON", "CO2_G_PER_L", "CUP", "FLOZ", "GALLON", "LB", "PSI", "QUART", "TBSP", "TSP", "au", "ceil",
    "celsius", "ethanol", "floor", "gauge_bar", "shaken", "stirred", "uk", "us",
]
