"""Figures for the second set of dialogues, which again run through every job."""

from physics_a import DASH, DROP, FLOZ, OZ, QUART, sugar
from physics_b import PSI, gauge_bar, water_down
from physics_c import IMP_FLOZ, au, ethanol, shaken, stirred, uk, up, us

__all__ = [
    "DASH", "DROP", "FLOZ", "IMP_FLOZ", "OZ", "PSI", "QUART", "au", "ethanol", "gauge_bar", "shaken", "stirred",
    "sugar", "uk", "up", "us", "water_down",
]
