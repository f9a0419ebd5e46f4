"""Figures for part F of the corpus, infusion to keeping: those of part C."""

from physics_c import ETHANOL, FLOZ, OZ, au, down, ethanol, uk, up, us

__all__ = ["ETHANOL", "FLOZ", "OZ", "au", "down", "ethanol", "uk", "up", "us"]
