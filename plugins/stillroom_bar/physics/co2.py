"""Carbon dioxide in water: solubility, volumes and grams, equilibrium pressure.

One volume of CO2 is a litre of the gas at 0 °C and 1 atm in a litre of drink, 1.977 g/l.
Solubility is Weiss's for pure water; sugar and alcohol shift it.
"""

from math import exp, log

from .curve import within

SOURCE = "Weiss 1974, Marine Chemistry 2, 203, coefficients from memory; phreeqc.dat agrees within 0.3 %"

GRAMS_PER_VOLUME = 1.977
"""g/l of CO2 in one volume (density of the gas at 0 °C and 1 atm)."""

MOLAR_MASS = 44.0095
ATMOSPHERE = 1.01325
"""bar in one standard atmosphere."""

LOWEST, HIGHEST = -1.0, 40.0


def solubility(t: float) -> float:
    """CO2 that water dissolves at t °C (-1 to 40), mol per litre for each atm of CO2."""
    within(t, LOWEST, HIGHEST, "The temperature of a drink to carbonate", " °C")
    hundreds = (t + 273.15) / 100
    return exp(-58.0931 + 90.5069 / hundreds + 22.2940 * log(hundreds))


def volumes_per_atm(t: float) -> float:
    """Volumes of CO2 that water holds at t °C (-1 to 40) for each atm of CO2 over it."""
    return solubility(t) * MOLAR_MASS / GRAMS_PER_VOLUME


def grams_per_litre(volumes: float) -> float:
    """g/l of CO2 in a drink of that many volumes (0 or more)."""
    if volumes < 0:
        raise ValueError("Volumes of CO2 cannot be below zero.")
    return volumes * GRAMS_PER_VOLUME


def volumes(grams_per_litre: float) -> float:
    """Volumes of CO2 in a drink with that many g/l (0 or more)."""
    if grams_per_litre < 0:
        raise ValueError("Grams of CO2 cannot be below zero.")
    return grams_per_litre / GRAMS_PER_VOLUME


def gauge_pressure(volumes: float, t: float, outside: float = ATMOSPHERE) -> float:
    """Gauge pressure, bar, of CO2 that keeps that many volumes in water at t °C (-1 to 40).

    ``outside`` is the air pressure in bar. Below zero: the drink holds less than it would
    take up at the air's own pressure. Henry's law, the headspace all CO2.
    """
    if volumes < 0:
        raise ValueError("Volumes of CO2 cannot be below zero.")
    return volumes / volumes_per_atm(t) * ATMOSPHERE - outside


def volumes_at(gauge: float, t: float, outside: float = ATMOSPHERE) -> float:
    """Volumes of CO2 that water at t °C (-1 to 40) holds under that gauge pressure, bar."""
    if gauge < -outside:
        raise ValueError("A gauge pressure cannot be below a full vacuum.")
    return (gauge + outside) / ATMOSPHERE * volumes_per_atm(t)
