"""Independent figures for part C of the corpus: infusion, yield, cost, alcohol, keeping and cautions.

Volumes in ml, masses in g, strengths in per cent by volume, nothing taken from the calculators under test.
"""

from math import ceil, floor

from physics_b import PSI, gauge_bar, shaken, stirred

__all__ = [
    "DROP", "ETHANOL", "FLOZ", "IMP_FLOZ", "OZ", "PSI", "QUART", "au", "down", "ethanol", "gauge_bar",
    "shaken", "stirred", "uk", "up", "us",
]

# NIST Handbook 44, Appendix C (exact).
FLOZ, OZ = 29.5735295625, 28.349523125
QUART = 32 * FLOZ
# UK Weights and Measures Act 1985, Schedule 1: the gallon of 4.54609 l is 160 fluid ounces.
IMP_FLOZ = 4546.09 / 160
DROP = 0.05  # ml; 20 drops of water to the ml, USP <1101> dropper
ETHANOL = 0.78924  # g/ml at 20 °C, OIML R 22 at 100 % vol
US_DRINK = 14.0  # g, NIAAA
AU_DRINK = 10.0  # g, table of national standard drinks
UK_UNIT = 10.0  # ml of ethanol, exact by definition


def up(exact: float) -> int:
    """Whole things that are needed; a hair above a whole number is rounding noise."""
    return ceil(exact - 1e-9)


def down(exact: float) -> int:
    """Whole things that a supply allows."""
    return floor(exact + 1e-9)


def ethanol(ml: float, abv: float) -> float:
    """Grams of ethanol in a drink."""
    return ml * abv / 100 * ETHANOL


def us(ml: float, abv: float) -> float:
    """US standard drinks."""
    return ethanol(ml, abv) / US_DRINK


def au(ml: float, abv: float) -> float:
    """Australian standard drinks."""
    return ethanol(ml, abv) / AU_DRINK


def uk(ml: float, abv: float) -> float:
    """UK units."""
    return ml * abv / 100 / UK_UNIT
