"""What a refractometer reads in sugar, and what acid and temperature do to the reading.

Brix is grams of sucrose in 100 g of solution at 20 °C; the sodium line throughout.
"""

from .curve import inverse, through, within

SOURCE = "CRC Handbook, refractive index of sucrose solutions at 20 °C"
ACID_SOURCE = "21 CFR 146.132, refractometer correction for citric acid"

_BRIX = (0, 5, 10, 20, 30, 40, 50, 60, 70, 80)
_INDEX = (1.3330, 1.3403, 1.3478, 1.3639, 1.3812, 1.3999, 1.4201, 1.4419, 1.4654, 1.4906)

_index = through(_BRIX, _INDEX)


def refractive_index(brix: float) -> float:
    """Refractive index nD at 20 °C of a sucrose solution of 0 to 80 °Bx; within 0.0001."""
    within(brix, 0.0, 80.0, "The Brix of a syrup on a refractometer", " °Bx")
    return _index(brix)


def brix(index: float) -> float:
    """Degrees Brix from the refractive index nD at 20 °C (1.3330 to 1.4906); within 0.05 °Bx."""
    within(index, _INDEX[0], _INDEX[-1], "The refractive index of a syrup at 20 °C")
    return inverse(_index, index, 0.0, 80.0)


def acid_correction(acid: float) -> float:
    """Degrees Brix to add to the reading of a juice; acid is % w/w as anhydrous citric acid.

    Accepts 0 (nothing to add) to 40 %. 0.205 °Bx at 1 %. Source: 21 CFR 146.132.
    """
    within(acid, 0.0, 40.0, "The acid in a juice", " %")
    if acid == 0:
        return 0.0
    return 0.012 + 0.193 * acid - 0.0004 * acid * acid
