"""Figures for the dialogues of part L: a value mended, another unit, a setting, a new subject."""

from physics_l import (
    AVOZ,
    DROP,
    FLOZ,
    PSI,
    celsius,
    gauge_bar,
    shaken,
    stirred,
    sugar_in,
    uk,
    us,
    water_down,
)

__all__ = [
    "AVOZ", "DROP", "FLOZ", "PSI", "celsius", "gauge_bar", "shaken", "stirred", "sugar_in", "uk", "us", "water_down",
]
