"""What the expected numbers of the corpus are computed with; nothing here comes from the calculators under test.

Volumes in ml, masses in g, strengths in percent (salt and syrup by mass, spirits by volume), densities in g/ml at
20 °C, temperatures in °C, gauge pressures in bar.
"""

from bisect import bisect_left
from collections.abc import Callable
from math import ceil, exp, floor, log, sqrt

__all__ = [
    "ACID", "ATM", "AVOZ", "BARSPOON", "CHARGER", "CO2_G_PER_L", "CUP", "DASH", "DROP", "EQUIVALENT", "ETHANOL",
    "FLOZ", "FREEZES", "GALLON", "HEAT", "ICE_MELTS", "IMP_FLOZ", "IMP_PINT", "LB", "MONOHYDRATE", "PINT", "PSI",
    "QUART", "RHO_WATER", "SALT_TSP", "SUGAR_CUP", "TBSP", "TSP", "abv", "abv_with_water", "abw", "au",
    "before_shaken", "before_stirred", "brix_of_density", "brix_of_grams", "ceil", "celsius", "co2_volumes", "down",
    "ethanol", "floor", "gauge_bar", "n2o_gauge", "percent_for_ph", "ph", "raised", "rho_spirit", "rho_syrup", "salt",
    "salt_of_grams", "shaken", "solute_to_add", "sqrt", "start_for", "stirred", "sugar_bulk", "sugar_in",
    "temperature_for", "thinned", "uk", "up", "us", "water_down", "water_for",
]

# NIST Handbook 44, Appendix C: the US gallon is 231 cubic inches, the pound 453.59237 g.
GALLON = 231 * 2.54**3
QUART, PINT, CUP, FLOZ = GALLON / 4, GALLON / 8, GALLON / 16, GALLON / 128
TBSP, TSP = FLOZ / 2, FLOZ / 6
LB = 453.59237
AVOZ = LB / 16
# UK Weights and Measures Act 1985, Schedule 1: the gallon of 4.54609 l is 8 pints, 160 fluid ounces.
IMP_PINT, IMP_FLOZ = 4546.09 / 8, 4546.09 / 160
# A pound-force (9.80665 m/s2) on a square inch, and the standard atmosphere, in bar (NIST SP 811).
PSI, ATM = LB / 1000 * 9.80665 / 0.0254**2 / 1e5, 1.01325

DROP = 0.05  # ml; 20 drops of water to the ml, USP <1101> dropper
DASH, BARSPOON = 0.8, 5.0  # ml; common practice, no source
CHARGER = 8.0  # g N2O; common practice, no source
SUGAR_CUP, SALT_TSP = 200.0, 6.0  # g; USDA household weights
ACID = {"lime": 6.0, "lemon": 6.0, "grapefruit": 2.0, "orange": 0.8, "pineapple": 0.8}
"""Grams of acid in 100 ml of juice: common practice, no source."""
# Molar mass over the protons a titration counts (IUPAC atomic weights; three for citric, two for malic and tartaric,
# one for lactic), g per mole of base.
EQUIVALENT = {"citric": 192.124 / 3, "malic": 134.087 / 2, "tartaric": 150.087 / 2, "lactic": 90.078}
MONOHYDRATE = 210.139 / 192.124  # g of citric acid monohydrate to the gram of anhydrous, from the molar masses
# °C at which ethanol and water begin to freeze, by % ABV: engineeringtoolbox.com, ethanol freeze protection (d_989).
FREEZES = {10: -4.0, 20: -9.0, 30: -15.0, 40: -23.0, 50: -32.0}
ICE_MELTS = 333.42  # J/g at 0 °C, IAPWS R10-06
# J/(g K) at 20 °C by % ABV: water IAPWS-95, the others CoolProp 8.0.0, INCOMP::MEA.
HEAT = {0: 4.184, 10: 4.28, 20: 4.34, 40: 4.16}

US_DRINK = 14.0  # g, NIAAA
AU_DRINK = 10.0  # g, table of national standard drinks
UK_UNIT = 10.0  # ml of ethanol, exact by definition

RHO_WATER = 0.99820123  # OIML R 22, A1
# OIML R 22, density of ethanol-water mixtures at 20 °C, kg/m3: coefficients A1..A12 of the general formula.
_OIML_A = (
    9.982012300e2, -1.929769495e2, 3.891238958e2, -1.668103923e3, 1.352215441e4, -8.829278388e4,
    3.062874042e5, -6.138381234e5, 7.470172998e5, -5.478461354e5, 2.234460334e5, -3.903285426e4,
)
# ICUMSA SPS-4, terms at 20 °C, kg/m3 (Sugar Technologists Manual, 1995).
_ICUMSA = (385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890)
# NaCl solutions, g/ml by % w/w: density table of the physics laboratory, Nicolaus Copernicus University
# (fizyka.umk.pl/~lab2/tables/NaCl.html); the row at 0 is water.
_NACL = (
    (0.0, 0.9982), (1.0, 1.0053), (2.0, 1.0122), (4.0, 1.0268), (6.0, 1.0413), (8.0, 1.0559), (10.0, 1.0707),
    (12.0, 1.0857), (14.0, 1.1009), (16.0, 1.1162), (18.0, 1.1319), (20.0, 1.1478), (22.0, 1.1640),
    (24.0, 1.1804), (26.0, 1.1972),
)
_WEISS = (-58.0931, 90.5069, 22.2940)  # Weiss 1974, CO2 in pure water, from memory of the paper
_WEISS_N2O = (-62.7062, 97.3066, 24.1406)  # Weiss and Price 1980, N2O in water, mol/l/atm, from memory
_N2O_MOLAR_MASS = 44.0128  # g/mol, IUPAC atomic weights
_GAS = 0.0820574  # l atm/mol/K, CODATA
_CO2_MOLAR_MASS = 44.0095  # g/mol, IUPAC atomic weights
CO2_G_PER_L = 1.977  # one volume: a litre of the gas at 0 °C and 1 atm, a handbook's value, from memory


def _root(f: Callable[[float], float], low: float, high: float) -> float:
    rising = f(high) > f(low)
    for _ in range(100):
        mid = (low + high) / 2
        low, high = (mid, high) if (f(mid) < 0) == rising else (low, mid)
    return (low + high) / 2


def up(exact: float) -> int:
    """Whole things that are needed; a hair above a whole number is rounding noise."""
    return ceil(exact - 1e-9)


def down(exact: float) -> int:
    """Whole things that a supply allows."""
    return floor(exact + 1e-9)


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


# Salt and sugar.


def salt(percent: float) -> float:
    """Density of a salt solution of 0 to 26 % w/w, straight lines between the table's rows."""
    if not 0 <= percent <= _NACL[-1][0]:
        raise ValueError(f"the table ends at 26 % w/w, not {percent}")
    at = max(1, bisect_left(_NACL, (percent,)))
    (low, below), (high, above) = _NACL[at - 1], _NACL[at]
    return below + (above - below) * (percent - low) / (high - low)


def salt_of_grams(grams_per_litre: float) -> float:
    """Percent w/w of a salt solution with these grams of salt in the litre."""
    return _root(lambda p: salt(p) * p * 10 - grams_per_litre, 0, _NACL[-1][0])


def solute_to_add(mass: float, have: float, want: float) -> float:
    """Dry solute that takes a mass of solution from one percent w/w to a higher one; mass balance."""
    return mass * (want - have) / (100 - want)


def rho_syrup(brix: float) -> float:
    """Density of a sucrose solution of 0 to 85 °Bx (ICUMSA SPS-4)."""
    if not 0 <= brix <= 85:
        raise ValueError(f"the formula holds to 85 °Bx, not {brix}")
    return RHO_WATER + sum(c * (brix / 100) ** k for k, c in enumerate(_ICUMSA, 1)) / 1000


def sugar_in(volume: float, brix: float) -> float:
    """Grams of sugar in a volume of syrup (ICUMSA density)."""
    return volume * rho_syrup(brix) * brix / 100


def sugar_bulk() -> float:
    """Millilitres that a gram of dissolved sugar takes up, from the density of a 50 °Bx syrup (ICUMSA)."""
    return (1 / rho_syrup(50) - 0.5 / RHO_WATER) / 0.5


def raised(mass: float, low: float, high: float) -> float:
    """Grams of dry sugar that lift a mass of syrup from low to high °Bx; mass balance."""
    return solute_to_add(mass, low, high)


def thinned(mass: float, high: float, low: float) -> float:
    """Grams of water that bring a mass of syrup from high to low °Bx; mass balance."""
    return mass * high / low - mass


def brix_of_density(density: float) -> float:
    """°Bx of a sucrose solution of this density (ICUMSA)."""
    return _root(lambda b: rho_syrup(b) - density, 0, 85)


def brix_of_grams(grams_per_litre: float) -> float:
    """°Bx of a sucrose solution with these grams of sugar in the litre (ICUMSA)."""
    return _root(lambda b: sugar_in(1000, b) - grams_per_litre, 0, 85)


# Spirits and drinks.


def _rho_ethanol(p: float) -> float:
    """Density of a mass fraction p (0..1) of ethanol in water (OIML R 22)."""
    return sum(a * p**k for k, a in enumerate(_OIML_A)) / 1000


ETHANOL = _rho_ethanol(1.0)


def abv(mass_percent: float) -> float:
    """Percent by volume of a percent by mass (OIML R 22)."""
    p = mass_percent / 100
    return 100 * p * _rho_ethanol(p) / ETHANOL


def abw(volume_percent: float) -> float:
    """Percent by mass of a percent by volume (OIML R 22)."""
    return _root(lambda m: abv(m) - volume_percent, 0.0, 100.0)


def rho_spirit(volume_percent: float) -> float:
    """Density of a spirit (OIML R 22)."""
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


def start_for(volume: float, water: float, target: float) -> float:
    """% ABV a volume of spirit had, if a volume of water took it to the target (OIML R 22)."""
    return _root(lambda s: abv_with_water(volume, s, water) - target, target, 100)


def ethanol(ml: float, strength: float) -> float:
    """Grams of ethanol in a drink."""
    return ml * strength / 100 * ETHANOL


def us(ml: float, strength: float) -> float:
    """US standard drinks."""
    return ethanol(ml, strength) / US_DRINK


def au(ml: float, strength: float) -> float:
    """Australian standard drinks."""
    return ethanol(ml, strength) / AU_DRINK


def uk(ml: float, strength: float) -> float:
    """UK units."""
    return ml * strength / 100 / UK_UNIT


def stirred(a: float) -> float:
    """Water per volume before stirring, from the strength as a fraction (fit of the trade, from memory)."""
    return -1.21 * a**2 + 1.246 * a + 0.145


def shaken(a: float) -> float:
    """Water per volume before shaking, from the strength as a fraction (fit of the trade, from memory)."""
    return -1.567 * a**2 + 1.742 * a + 0.203


def before_shaken(glass: float) -> float:
    """% ABV of a mix that reaches the glass, once shaken, at this % ABV (the fit of the trade, turned round)."""
    return _root(lambda a: a / (1 + shaken(a / 100)) - glass, glass, 50.0)


def before_stirred(glass: float) -> float:
    """% ABV of a mix that reaches the glass, once stirred, at this % ABV (the fit of the trade, turned round)."""
    return _root(lambda a: a / (1 + stirred(a / 100)) - glass, glass, 50.0)


# Gas.


def _volumes_per_atm(t: float) -> float:
    hundreds = (t + 273.15) / 100
    a, b, c = _WEISS
    return exp(a + b / hundreds + c * log(hundreds)) * _CO2_MOLAR_MASS / CO2_G_PER_L


def co2_volumes(t: float, gauge: float) -> float:
    """Volumes of CO2 that water holds at equilibrium under a gauge pressure in bar (Weiss 1974)."""
    return _volumes_per_atm(t) * (gauge + ATM) / ATM


def gauge_bar(t: float, volumes: float) -> float:
    """Gauge pressure in bar at which water holds these volumes of CO2 (Weiss 1974)."""
    return (volumes / _volumes_per_atm(t) - 1) * ATM


def temperature_for(volumes: float, gauge: float) -> float:
    """Temperature at which water under a gauge pressure in bar holds these volumes (Weiss 1974)."""
    return _root(lambda t: co2_volumes(t, gauge) - volumes, 0.0, 40.0)


def n2o_gauge(t: float, grams: float, liquid: float, headspace: float) -> float:
    """Gauge pressure in bar of N2O over water once shaken: ideal gas in the headspace, the rest dissolved
    (Weiss and Price 1980); the air that was there before makes up the atmosphere."""
    kelvin = t + 273.15
    a, b, c = _WEISS_N2O
    dissolved = exp(a + b * 100 / kelvin + c * log(kelvin / 100)) * liquid / 1000
    return grams / _N2O_MOLAR_MASS / (dissolved + headspace / 1000 / _GAS / kelvin) * ATM


# Acid in water: the first proton alone, ideal solution. pKa1 of citric acid 3.13 (Martell and Smith, from memory).


def ph(percent_wv: float, molar_mass: float, pka: float) -> float:
    """pH of an acid in water; H^2 = K (c - H)."""
    k, c = 10**-pka, percent_wv * 10 / molar_mass
    return -log((sqrt(k * k + 4 * k * c) - k) / 2) / log(10)


def percent_for_ph(target: float, molar_mass: float, pka: float) -> float:
    """Percent w/v of an acid in water at this pH."""
    return _root(lambda p: target - ph(p, molar_mass, pka), 1e-6, 50)
