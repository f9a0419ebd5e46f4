"""Nitrous oxide in a cream siphon: solubility in water, pressure in a closed vessel.

The model is for water. Fat takes up about three times as much, so cream comes to a lower
pressure; and the gas is not ideal near the pressure at which it leaves the charger.
"""

from math import exp, log

from .curve import within

SOURCE = "Weiss and Price 1980, Marine Chemistry 8, 347, from memory; Sander 2023 agrees within 7 %"

MOLAR_MASS = 44.0128
CHARGER = 8.0
"""Grams of N2O in the usual small charger."""

GAS_CONSTANT = 0.082057366
"""l atm / (mol K) (CODATA 2018)."""

ATMOSPHERE = 1.01325

LOWEST, HIGHEST = -1.0, 40.0


def solubility(t: float) -> float:
    """N2O that water dissolves at t °C (-1 to 40), mol per litre for each atm of N2O."""
    within(t, LOWEST, HIGHEST, "The temperature of a siphon", " °C")
    hundreds = (t + 273.15) / 100
    return exp(-62.7062 + 97.3066 / hundreds + 24.1406 * log(hundreds))


def _moles(grams: float) -> float:
    if grams < 0:
        raise ValueError("Grams of gas cannot be below zero.")
    return grams / MOLAR_MASS


def charged_pressure(grams: float, headspace: float, t: float) -> float:
    """Gauge pressure, bar, before any gas dissolves: an upper bound (ideal gas, isothermal).

    ``grams`` of N2O into ``headspace`` litres (above 0) of a vessel closed at air pressure.
    """
    if headspace <= 0:
        raise ValueError("A siphon needs headspace: never fill it above the rated volume.")
    within(t, LOWEST, HIGHEST, "The temperature of a siphon", " °C")
    return _moles(grams) * GAS_CONSTANT * (t + 273.15) / headspace * ATMOSPHERE


def shaken_pressure(grams: float, liquid: float, headspace: float, t: float) -> float:
    """Gauge pressure, bar, once the gas has dissolved to equilibrium in ``liquid`` litres of water."""
    if headspace <= 0:
        raise ValueError("A siphon needs headspace: never fill it above the rated volume.")
    if liquid < 0:
        raise ValueError("The liquid in a siphon cannot be below zero.")
    room = headspace / (GAS_CONSTANT * (t + 273.15)) + solubility(t) * liquid
    return _moles(grams) / room * ATMOSPHERE
