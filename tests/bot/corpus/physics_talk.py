"""Figures for the dialogues, which run through every job: those of the question parts put together."""

from physics_a import BARSPOON, CUP, DASH, DROP, FLOZ, GALLON, OZ, QUART, salt, sugar
from physics_b import PSI, gauge_bar, water_down
from physics_c import IMP_FLOZ, au, down, ethanol, shaken, stirred, uk, up, us

__all__ = [
    "BARSPOON", "CUP", "DASH", "DROP", "FLOZ", "GALLON", "IMP_FLOZ", "OZ", "PSI", "QUART", "au", "down",
    "ethanol", "gauge_bar", "salt", "shaken", "stirred", "sugar", "uk", "up", "us", "water_down",
]
