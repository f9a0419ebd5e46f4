"""Salt (sodium chloride) in water: density, how much dissolves, when it freezes."""

from .curve import inverse, through, within

SOURCE = "Poradnik fizykochemiczny (WNT 1974), density of NaCl solutions at 20 °C"
SOLUBILITY_SOURCE = "Salt Institute, solubility of sodium chloride in water"
FREEZING_SOURCE = (
    "Lange's Handbook of Chemistry, table 5.13, to 9 % and from 15 %; 10 % from memory of the CRC Handbook; "
    "eutectic from the Salt Institute"
)

SODIUM_SHARE = 0.39337
"""Mass of sodium in a mass of salt (Salt Institute, 39.337 %)."""

_PERCENT = (0, 1, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26)
_DENSITY = (
    998.2, 1005.3, 1012.2, 1026.8, 1041.3, 1055.9, 1070.7, 1085.7,
    1100.9, 1116.2, 1131.9, 1147.8, 1164.0, 1180.4, 1197.2,
)  # fmt: skip
_SOLUBLE_AT = (0.0, 15.6, 21.1, 100.0)
_SOLUBLE = (26.29, 26.395, 26.45, 28.12)
_FREEZING_PERCENT = (0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 15, 16, 17, 18, 19, 20, 21, 22, 23, 23.31)
_FREEZING = (
    0.0, -0.58, -1.13, -1.72, -2.35, -2.97, -3.63, -4.32, -5.03, -5.77, -6.56,
    -10.88, -11.90, -12.93, -14.03, -15.21, -16.46, -17.78, -19.19, -20.69, -21.1,
)  # fmt: skip

_density = through([p / 100 for p in _PERCENT], [d / 1000 for d in _DENSITY])
_soluble = through(_SOLUBLE_AT, [p / 100 for p in _SOLUBLE])
_freezing = through([p / 100 for p in _FREEZING_PERCENT], _FREEZING)

STRONGEST = 0.2645
"""Highest mass fraction that ``density`` accepts: salt's solubility at 21 °C."""

EUTECTIC = 0.2331
"""Mass fraction of the brine that freezes lowest, at -21.1 °C (Salt Institute)."""


def density(w: float) -> float:
    """Density of brine at 20 °C, g/ml, from the mass fraction of salt (0 to 0.2645).

    ValueError outside. The table ends at 0.26; the last half per cent follows its end slope.
    """
    within(w, 0.0, STRONGEST, "The salt in a brine at 20 °C, as a fraction of its weight,")
    if w <= 0.26:
        return _density(w)
    return _density(0.26) + (w - 0.26) * (_density(0.26) - _density(0.25)) / 0.01


def mass_fraction(density_at_20: float) -> float:
    """Mass fraction of salt in a brine of that density (g/ml at 20 °C, 0.9982 to 1.2014)."""
    within(density_at_20, density(0.0), density(STRONGEST), "The density of brine at 20 °C", " g/ml")
    return inverse(density, density_at_20, 0.0, STRONGEST)


def solubility(t: float = 20.0) -> float:
    """Most salt that water holds at t °C (0 to 100), as a mass fraction of the solution.

    0.2644 at 20 °C. ValueError outside the range.
    """
    within(t, 0.0, 100.0, "The temperature of the water", " °C")
    return _soluble(t)


def freezing_point(w: float) -> float:
    """Temperature, °C, at which ice begins to form in a brine of mass fraction w (0 to 0.2331).

    ValueError above the eutectic, where salt separates and not ice.
    """
    within(w, 0.0, EUTECTIC, "The salt in a brine that freezes to ice, as a fraction of its weight,")
    return _freezing(w)
