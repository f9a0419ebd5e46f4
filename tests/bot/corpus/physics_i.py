"""Physical functions and figures behind the expectations of corpus part I, independent of the project.

Volumes in ml, masses in g, strengths in percent, temperatures in degrees Celsius, gauge pressures in bar.
"""

from physics_b import (
    AVOZ,
    CO2_G_PER_L,
    CUP,
    ETHANOL,
    GALLON,
    LB,
    OZ,
    PSI,
    abv_with_water,
    ceil,
    co2_volumes,
    floor,
    gauge_bar,
    rho_syrup,
    shaken,
    stirred,
    water_down,
    water_for,
)

__all__ = [
    "ACID", "AVOZ", "BARSPOON", "CO2_G_PER_L", "CUP", "DASH", "DROP", "ETHANOL", "GALLON", "LB", "OZ", "PINT_UK",
    "PSI", "RHO_SALT", "SUGAR_CUP", "abv_with_water", "ceil", "co2_volumes", "floor", "gauge_bar", "rho_syrup",
    "shaken", "solute_to_add", "stirred", "water_down", "water_for",
]

# Density in g/ml at 20 degC of salt solutions, by percent w/w (handbook table of NaCl in water).
RHO_SALT = {10: 1.0707, 20: 1.1478}
# The pharmacist's dropper, 20 drops of water to the millilitre (USP 32 <1101>); dash and barspoon: common practice.
DROP, DASH, BARSPOON = 0.05, 0.8, 5.0
# Grams of acid per 100 ml of juice: common practice, no source.
ACID = {"lime": 6.0, "lemon": 6.0, "grapefruit": 2.0, "orange": 0.8, "pineapple": 0.8}
# A US cup of granulated sugar (USDA household weight) and an imperial pint (4.54609 dm3 to the gallon).
SUGAR_CUP, PINT_UK = 200.0, 568.26125


def solute_to_add(mass: float, have: float, want: float) -> float:
    """Dry solute that takes a mass of solution from one percent w/w to a higher one; mass balance."""
    return mass * (want - have) / (100 - want)
