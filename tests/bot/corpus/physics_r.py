"""Figures for part R of the corpus: ice, batches, gas, steeping, fruit, prices, units and keeping, boldly reworded.

Volumes in ml, masses in g, strengths in percent, densities in g/ml at 20 °C, gauge pressures in bar.
"""

from physics_a import BARSPOON, CUP, FLOZ, TBSP
from physics_c import au, ethanol, uk, us
from physics_e import (
    AVOZ,
    CO2_G_PER_L,
    ETHANOL,
    GALLON,
    LB,
    PSI,
    QUART,
    ceil,
    celsius,
    co2_volumes,
    floor,
    gauge_bar,
    shaken,
    stirred,
)

__all__ = [
    "AVOZ", "BARSPOON", "CO2_G_PER_L", "CUP", "ETHANOL", "FLOZ", "GALLON", "LB", "PSI", "QUART", "TBSP", "au",
    "before_shaken", "ceil", "celsius", "co2_volumes", "ethanol", "floor", "gauge_bar", "shaken", "stirred", "uk", "us",
]


def before_shaken(glass: float) -> float:
    """% ABV of a mix that reaches the glass, once shaken, at this % ABV (the fit of the trade, turned round)."""
    low, high = glass, 50.0
    for _ in range(100):
        mid = (low + high) / 2
        low, high = (mid, high) if mid / (1 + shaken(mid / 100)) < glass else (low, mid)
    return (low + high) / 2
