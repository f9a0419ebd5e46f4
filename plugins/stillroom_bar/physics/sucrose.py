"""Sugar (sucrose) in water: density, refractometer readings, how much dissolves.

A strength w is a mass fraction, 0 to 1; a Brix reading is 100 times that.
"""

from . import water
from .curve import inverse, within

SOURCE = "ICUMSA SPS-4, density of sucrose solutions, as in the Sugar Technologists Manual 1995"
SOLUBILITY_SOURCE = "Bubnik and Kadlec 1995, solubility of sucrose in water"

STRONGEST = 0.90

_BY_W = (
    (385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890),
    (-46.2720, -7.1720, 1.1597, 5.1126, 17.5254),
    (59.7712, 7.2491, 12.3630, -35.4791),
    (-47.2207, -21.6977, 27.6301),
    (18.3184, 12.3081),
)


def _in_w(coefficients: tuple[float, ...], w: float) -> float:
    total = 0.0
    for c in reversed(coefficients):
        total = (total + c) * w
    return total


def density(w: float, t: float = 20.0) -> float:
    """Density of a sucrose solution, g/ml: mass fraction w (0 to 0.90) at t °C (0 to 80).

    ValueError outside. 1.22965 g/ml for 50 °Bx at 20 °C. Stronger than about 0.67 at 20 °C the
    solution is supersaturated: the density holds, but sugar may crystallise.
    """
    within(w, 0.0, STRONGEST, "The sugar in a syrup, as a fraction of its weight,")
    within(t, 0.0, 80.0, "The temperature of a syrup", " °C")
    warm = (t - 20) / 100
    total = 0.0
    for coefficients in reversed(_BY_W):
        total = total * warm + _in_w(coefficients, w)
    return water.density(t) + total / 1000


def mass_fraction(density_of_syrup: float, t: float = 20.0) -> float:
    """Mass fraction of sucrose in a syrup of that density (g/ml) at t °C (0 to 80)."""
    low, high = density(0.0, t), density(STRONGEST, t)
    within(density_of_syrup, low, high, f"The density of a syrup at {t:g} °C", " g/ml")
    return inverse(lambda w: density(w, t), density_of_syrup, 0.0, STRONGEST)


def solubility(t: float = 20.0) -> float:
    """Most sucrose that water holds at t °C (0 to 100), as a mass fraction of the solution.

    0.667 at 20 °C; published measurements there run from 0.666 to 0.671.
    """
    within(t, 0.0, 100.0, "The temperature of the water", " °C")
    return (64.447 + t * (0.08222 + t * (1.6169e-3 + t * (-1.558e-6 - 4.63e-8 * t)))) / 100
