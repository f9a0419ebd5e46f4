"""Figures for the dialogues of part T: a price after a cost, another strength, another juice, a size given late."""

from physics_e import water_down
from physics_t import OZ, uk, us

__all__ = ["OZ", "uk", "us", "water_down"]
