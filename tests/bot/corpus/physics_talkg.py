"""Figures for the third set of dialogues: changes of mind, settings, totals, and one job after another."""

from physics_a import BARSPOON, DASH, DROP, FLOZ, OZ, SPIRIT, salt, sugar
from physics_b import PSI, gauge_bar, rho_spirit, water_down
from physics_c import IMP_FLOZ, au, down, ethanol, shaken, stirred, uk, up, us

__all__ = [
    "BARSPOON", "DASH", "DROP", "FLOZ", "IMP_FLOZ", "OZ", "PSI", "SPIRIT", "au", "down", "ethanol", "gauge_bar",
    "rho_spirit", "salt", "shaken", "stirred", "sugar", "uk", "up", "us", "water_down",
]
