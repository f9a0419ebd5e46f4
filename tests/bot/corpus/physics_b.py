"""Physical functions behind the expectations of corpus part B, independent of the project.

Volumes in ml, masses in g, strengths in percent, temperatures in degrees Celsius, gauge pressures in bar.
"""

from collections.abc import Callable
from math import ceil, exp, floor, log

__all__ = [
    "ATM", "AVOZ", "CO2_G_PER_L", "CUP", "ETHANOL", "GALLON", "LB", "OZ", "PSI", "QUART", "RHO_WATER",
    "abv", "abv_with_water", "abw", "ceil", "co2_volumes", "floor", "gauge_bar", "rho_spirit", "rho_syrup",
    "shaken", "stirred", "temperature_for", "water_down", "water_for",
]

# NIST Handbook 44, Appendix C (exact).
OZ, CUP, QUART, GALLON = 29.5735295625, 236.5882365, 946.352946, 3785.411784
AVOZ, LB = 28.349523125, 453.59237
# Pound-force per square inch and standard atmosphere in bar (NIST SP 811).
PSI, ATM = 0.0689475729, 1.01325
# Grams of CO2 in one volume (1 l of real gas at 0 degC and 1 atm): 1.977 g/l, handbook value.
CO2_G_PER_L = 1.977

# OIML R 22, density of ethanol-water mixtures at 20 degC: coefficients A1..A12 of the general formula.
_OIML_A = (
    9.982012300e2, -1.929769495e2, 3.891238958e2, -1.668103923e3, 1.352215441e4, -8.829278388e4,
    3.062874042e5, -6.138381234e5, 7.470172998e5, -5.478461354e5, 2.234460334e5, -3.903285426e4,
)
# ICUMSA SPS-4, sucrose solutions at 20 degC: the coefficients that do not depend on temperature.
_ICUMSA = (385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890)
RHO_WATER = 0.99820123  # g/ml at 20 degC, OIML R 22, A1
_WEISS = (-58.0931, 90.5069, 22.2940)  # Weiss 1974, CO2 in pure water, from memory of the paper
_CO2_MOLAR_MASS = 44.0095  # g/mol, IUPAC atomic weights


def _rho_ethanol(p: float) -> float:
    """Density in g/ml at 20 degC of a mass fraction p (0..1) of ethanol in water (OIML R 22)."""
    return sum(a * p**k for k, a in enumerate(_OIML_A)) / 1000


ETHANOL = _rho_ethanol(1.0)


def _bisect(f: Callable[[float], float], low: float, high: float) -> float:
    rising = f(high) > f(low)
    for _ in range(100):
        mid = (low + high) / 2
        low, high = (mid, high) if (f(mid) < 0) == rising else (low, mid)
    return (low + high) / 2


def abv(mass_percent: float) -> float:
    """Percent by volume at 20 degC of a percent by mass (OIML R 22)."""
    p = mass_percent / 100
    return 100 * p * _rho_ethanol(p) / ETHANOL


def abw(volume_percent: float) -> float:
    """Percent by mass of a percent by volume at 20 degC (OIML R 22)."""
    return _bisect(lambda m: abv(m) - volume_percent, 0.0, 100.0)


def rho_spirit(volume_percent: float) -> float:
    """Density in g/ml at 20 degC of a spirit (OIML R 22)."""
    return _rho_ethanol(abw(volume_percent) / 100)


def water_down(volume: float, start: float, target: float) -> float:
    """Volume of water that takes a volume of spirit from start to target % ABV; mass balance, OIML R 22."""
    return (volume * start / target * rho_spirit(target) - volume * rho_spirit(start)) / RHO_WATER


def water_for(final: float, start: float, target: float) -> float:
    """Volume of water in a final volume at target % ABV, made from spirit of start % ABV."""
    return water_down(final * target / start, start, target)


def abv_with_water(volume: float, start: float, water: float) -> float:
    """Percent ABV of a volume of spirit after a volume of water went in; mass balance, OIML R 22."""
    spirit = volume * rho_spirit(start)
    return abv(spirit * abw(start) / (spirit + water * RHO_WATER))


def rho_syrup(brix: float) -> float:
    """Density in g/ml at 20 degC of a sucrose solution (ICUMSA SPS-4)."""
    w = brix / 100
    return RHO_WATER + sum(c * w ** (k + 1) for k, c in enumerate(_ICUMSA)) / 1000


def stirred(a: float) -> float:
    """Water per volume before stirring, from the strength as a fraction (fit of the trade, from memory)."""
    return -1.21 * a**2 + 1.246 * a + 0.145


def shaken(a: float) -> float:
    """Water per volume before shaking, from the strength as a fraction (fit of the trade, from memory)."""
    return -1.567 * a**2 + 1.742 * a + 0.203


def _volumes_per_atm(celsius: float) -> float:
    t = (celsius + 273.15) / 100
    a, b, c = _WEISS
    return exp(a + b / t + c * log(t)) * _CO2_MOLAR_MASS / CO2_G_PER_L


def co2_volumes(celsius: float, gauge: float) -> float:
    """Volumes of CO2 that water holds at equilibrium under a gauge pressure in bar (Weiss 1974)."""
    return _volumes_per_atm(celsius) * (gauge + ATM) / ATM


def gauge_bar(celsius: float, volumes: float) -> float:
    """Gauge pressure in bar at which water holds these volumes of CO2 (Weiss 1974)."""
    return (volumes / _volumes_per_atm(celsius) - 1) * ATM


def temperature_for(volumes: float, gauge: float) -> float:
    """Temperature at which water under a gauge pressure in bar holds these volumes (Weiss 1974)."""
    return _bisect(lambda t: co2_volumes(t, gauge) - volumes, 0.0, 40.0)
