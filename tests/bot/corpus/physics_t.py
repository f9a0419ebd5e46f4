"""Figures for part T of the corpus: dilution to keeping, asked by ten people at work.

Volumes in ml, masses in g, strengths in percent, gauge pressures in bar.
"""

from physics_a import TBSP
from physics_c import au, ethanol, uk, us
from physics_e import CO2_G_PER_L, CUP, LB, OZ, PSI, QUART, ceil, celsius, floor, gauge_bar, shaken, stirred

__all__ = [
    "CO2_G_PER_L", "CUP", "LB", "OZ", "PSI", "QUART", "TBSP", "au", "ceil", "celsius", "ethanol", "floor",
    "gauge_bar", "shaken", "stirred", "uk", "us",
]
