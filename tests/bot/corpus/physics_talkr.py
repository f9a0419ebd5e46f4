"""Figures for the dialogues of part R: a pour priced, a spirit let down, a juice soured, a siphon charged."""

from physics_c import au, uk, us
from physics_e import water_down, water_for
from physics_r import FLOZ, QUART

__all__ = ["FLOZ", "QUART", "au", "uk", "us", "water_down", "water_for"]
