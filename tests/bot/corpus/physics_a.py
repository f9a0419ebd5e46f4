"""Independent figures for part A of the question corpus; nothing here comes from the calculators under test.

Strengths are per cent by mass unless a name says otherwise, densities g/ml at 20 °C, volumes ml, masses g.
"""

from bisect import bisect_left
from math import ceil, floor, sqrt

__all__ = [
    "BARSPOON", "CHARGER", "CUP", "DASH", "DROP", "FLOZ", "GALLON", "IMP_PINT", "LB", "OZ", "PINT", "PSI",
    "QUART", "SALT_TSP", "SPIRIT", "SUGAR_CUP", "TBSP", "TSP", "WATER", "ceil", "floor", "salt", "sqrt",
    "sugar",
]

# NIST Handbook 44, Appendix C: the US gallon is 231 cubic inches; the pound is 453.59237 g.
GALLON = 231 * 2.54**3
QUART, PINT, CUP, FLOZ = GALLON / 4, GALLON / 8, GALLON / 16, GALLON / 128
TBSP, TSP = FLOZ / 2, FLOZ / 6
LB = 453.59237
OZ = LB / 16
# The imperial gallon is 4.54609 l, as GNU units has it.
IMP_PINT = 4546.09 / 8
# bar: a pound-force (9.80665 m/s2) on a square inch.
PSI = LB / 1000 * 9.80665 / 0.0254**2 / 1e5

DROP = 0.05  # ml; 20 drops of water to the ml, USP <1101> dropper
DASH, BARSPOON = 0.8, 5.0  # ml; common practice, no source
CHARGER = 8.0  # g N2O; common practice, no source
SUGAR_CUP, SALT_TSP = 200.0, 6.0  # g; USDA household weights

WATER = 0.998201  # g/ml, OIML R 22 at 0 % vol
# g/ml by % vol, OIML R 22 general formula.
SPIRIT = {40: 0.948045, 45: 0.939542, 50: 0.930142, 60: 0.909115, 96: 0.807420}

# NaCl solutions, g/ml by % w/w: density table of the physics laboratory, Nicolaus Copernicus University
# (fizyka.umk.pl/~lab2/tables/NaCl.html); the row at 0 is water.
_NACL = (
    (0.0, 0.9982), (1.0, 1.0053), (2.0, 1.0122), (4.0, 1.0268), (6.0, 1.0413), (8.0, 1.0559), (10.0, 1.0707),
    (12.0, 1.0857), (14.0, 1.1009), (16.0, 1.1162), (18.0, 1.1319), (20.0, 1.1478), (22.0, 1.1640),
    (24.0, 1.1804), (26.0, 1.1972),
)

# ICUMSA SPS-4, terms at 20 °C, kg/m3 (Sugar Technologists Manual, 1995).
_ICUMSA = (385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890)


def salt(percent: float) -> float:
    """Density of a salt solution of 0 to 26 % w/w, straight lines between the table's rows."""
    if not 0 <= percent <= _NACL[-1][0]:
        raise ValueError(f"the table ends at 26 % w/w, not {percent}")
    at = max(1, bisect_left(_NACL, (percent,)))
    (low, below), (high, above) = _NACL[at - 1], _NACL[at]
    return below + (above - below) * (percent - low) / (high - low)


def sugar(brix: float) -> float:
    """Density of a sucrose solution of 0 to 85 °Bx."""
    if not 0 <= brix <= 85:
        raise ValueError(f"the formula holds to 85 °Bx, not {brix}")
    share = brix / 100
    return WATER + sum(c * share**k for k, c in enumerate(_ICUMSA, 1)) / 1000
