"""What a refractometer reads in sugar, and what acid and temperature do to the reading.

Brix is grams of sucrose in 100 g of solution at 20 °C; the sodium line throughout.
"""

from bisect import bisect_right

from .curve import inverse, through, within

SOURCE = "CRC Handbook, refractive index of sucrose solutions at 20 °C"
ACID_SOURCE = "21 CFR 146.132, refractometer correction for citric acid"
WARMTH_SOURCE = (
    "GOST table A.1 of refractometer corrections (docs.cntd.ru 1200157922), 10 to 21 °C; "
    "22 to 30 °C from memory of the international table of 1936"
)

_BRIX = (0, 5, 10, 20, 30, 40, 50, 60, 70, 80)
_INDEX = (1.3330, 1.3403, 1.3478, 1.3639, 1.3812, 1.3999, 1.4201, 1.4419, 1.4654, 1.4906)

_index = through(_BRIX, _INDEX)

_READING = (0, 5, 10, 15, 20, 25, 30, 40, 50, 60, 70)
_COOLEST = 10
_WARMTH = (
    (-0.50, -0.54, -0.58, -0.61, -0.64, -0.66, -0.68, -0.72, -0.74, -0.76, -0.79),
    (-0.46, -0.49, -0.53, -0.55, -0.58, -0.60, -0.62, -0.65, -0.67, -0.69, -0.71),
    (-0.42, -0.45, -0.48, -0.50, -0.52, -0.54, -0.56, -0.57, -0.60, -0.61, -0.63),
    (-0.37, -0.40, -0.42, -0.44, -0.46, -0.48, -0.49, -0.51, -0.53, -0.54, -0.55),
    (-0.33, -0.35, -0.37, -0.39, -0.40, -0.41, -0.42, -0.44, -0.45, -0.46, -0.47),
    (-0.27, -0.29, -0.31, -0.33, -0.34, -0.34, -0.35, -0.37, -0.38, -0.39, -0.40),
    (-0.22, -0.24, -0.25, -0.26, -0.27, -0.28, -0.28, -0.30, -0.30, -0.31, -0.32),
    (-0.17, -0.18, -0.19, -0.20, -0.21, -0.21, -0.21, -0.22, -0.23, -0.23, -0.24),
    (-0.12, -0.13, -0.13, -0.14, -0.14, -0.14, -0.14, -0.15, -0.15, -0.16, -0.16),
    (-0.06, -0.06, -0.06, -0.07, -0.07, -0.07, -0.07, -0.08, -0.08, -0.08, -0.08),
    (0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    (0.06, 0.07, 0.07, 0.07, 0.07, 0.08, 0.08, 0.08, 0.08, 0.08, 0.08),
    (0.13, 0.13, 0.14, 0.14, 0.15, 0.15, 0.15, 0.15, 0.16, 0.16, 0.16),
    (0.19, 0.20, 0.21, 0.22, 0.22, 0.23, 0.23, 0.23, 0.24, 0.24, 0.24),
    (0.26, 0.27, 0.28, 0.29, 0.30, 0.30, 0.31, 0.31, 0.31, 0.32, 0.32),
    (0.33, 0.35, 0.36, 0.37, 0.38, 0.38, 0.39, 0.40, 0.40, 0.40, 0.40),
    (0.40, 0.42, 0.43, 0.44, 0.45, 0.46, 0.47, 0.48, 0.48, 0.48, 0.48),
    (0.48, 0.50, 0.52, 0.53, 0.54, 0.55, 0.55, 0.56, 0.56, 0.56, 0.56),
    (0.56, 0.57, 0.60, 0.61, 0.62, 0.63, 0.63, 0.64, 0.64, 0.64, 0.64),
    (0.64, 0.66, 0.68, 0.69, 0.71, 0.72, 0.72, 0.73, 0.73, 0.73, 0.73),
    (0.72, 0.74, 0.77, 0.78, 0.79, 0.80, 0.80, 0.81, 0.81, 0.81, 0.81),
)


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


def temperature_correction(reading: float, t: float) -> float:
    """Degrees Brix to add to a reading (0 to 70 °Bx) taken at t °C (10 to 30) without compensation.

    Below 20 °C it is negative. An instrument marked ATC does this itself. Linear between the
    table's whole degrees and fives of Brix.
    """
    within(reading, 0.0, 70.0, "The reading of a refractometer", " °Bx")
    within(t, 10.0, 30.0, "The temperature of the sample on a refractometer", " °C")
    row = min(int(t) - _COOLEST, len(_WARMTH) - 2)
    column = min(bisect_right(_READING, reading) - 1, len(_READING) - 2)
    left = (reading - _READING[column]) / (_READING[column + 1] - _READING[column])
    cool, warm = (line[column] + left * (line[column + 1] - line[column]) for line in _WARMTH[row : row + 2])
    return cool + (t - _COOLEST - row) * (warm - cool)
