"""Figures for the dialogues of part O: what a pour costs, a spirit let down, a juice soured, a subject changed."""

from physics_c import au, uk, us
from physics_e import water_down
from physics_o import FLOZ

__all__ = ["FLOZ", "au", "uk", "us", "water_down"]
