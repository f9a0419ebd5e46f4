"""Figures for part E of the corpus: the functions of part B and what can be turned round from them.

Volumes in ml, masses in g, strengths in percent (syrups in °Bx), densities in g/ml at 20 °C.
"""

from collections.abc import Callable

from physics_b import (
    AVOZ,
    CO2_G_PER_L,
    CUP,
    ETHANOL,
    GALLON,
    LB,
    OZ,
    PSI,
    QUART,
    RHO_WATER,
    abv,
    abv_with_water,
    abw,
    ceil,
    co2_volumes,
    floor,
    gauge_bar,
    rho_spirit,
    rho_syrup,
    shaken,
    stirred,
    temperature_for,
    water_down,
    water_for,
)

__all__ = [
    "AVOZ", "CO2_G_PER_L", "CUP", "ETHANOL", "GALLON", "LB", "OZ", "PSI", "QUART", "RHO_WATER", "abv",
    "abv_with_water", "abw", "brix_of_density", "brix_of_grams", "ceil", "celsius", "co2_volumes", "floor",
    "gauge_bar", "raised", "rho_spirit", "rho_syrup", "shaken", "start_for", "stirred", "sugar_in",
    "temperature_for", "thinned", "water_down", "water_for",
]


def _root(rising: Callable[[float], float], low: float, high: float) -> float:
    for _ in range(100):
        mid = (low + high) / 2
        low, high = (mid, high) if rising(mid) < 0 else (low, mid)
    return (low + high) / 2


def sugar_in(volume: float, brix: float) -> float:
    """Grams of sugar in a volume of syrup (ICUMSA density)."""
    return volume * rho_syrup(brix) * brix / 100


def raised(mass: float, low: float, high: float) -> float:
    """Grams of dry sugar that lift a mass of syrup from low to high °Bx."""
    return mass * (high - low) / (100 - high)


def thinned(mass: float, high: float, low: float) -> float:
    """Grams of water that bring a mass of syrup from high to low °Bx."""
    return mass * high / low - mass


def brix_of_density(density: float) -> float:
    """°Bx of a sucrose solution of this density at 20 °C (ICUMSA)."""
    return _root(lambda b: rho_syrup(b) - density, 0, 85)


def brix_of_grams(grams_per_litre: float) -> float:
    """°Bx of a sucrose solution with these grams of sugar in the litre (ICUMSA)."""
    return _root(lambda b: sugar_in(1000, b) - grams_per_litre, 0, 85)


def start_for(volume: float, water: float, target: float) -> float:
    """% ABV a volume of spirit had, if a volume of water took it to the target (OIML)."""
    return _root(lambda s: abv_with_water(volume, s, water) - target, target, 100)


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8
