"""Spirit and water: density by strength and temperature, ABV and mass fraction, freezing.

The strength p is the mass fraction of ethanol, q the fraction by volume at 20 °C (the ABV),
both 0 to 1. Density by the general formula of OIML R 22, here in g/ml.
"""

from .curve import through, within

SOURCE = "OIML R 22, alcoholometric tables, general formula (Directive 76/766/EEC, Annex)"
FREEZING_SOURCE = (
    "Lange's Handbook of Chemistry, table 5.13, to 46.3 % ABV; above it Engineering ToolBox, "
    "ethanol freeze protected water solutions, whole degrees"
)

_A = (
    9.982012300e2, -1.929769495e2, 3.891238958e2, -1.668103923e3, 1.352215441e4, -8.829278388e4,
    3.062874042e5, -6.138381234e5, 7.470172998e5, -5.478461354e5, 2.234460334e5, -3.903285426e4,
)  # fmt: skip
_B = (-2.0618513e-1, -5.2682542e-3, 3.6130013e-5, -3.8957702e-7, 7.1693540e-9, -9.9739231e-11)
_C = (
    (
        1.693443461530087e-1, -1.046914743455169e1, 7.196353469546523e1, -7.047478054272792e2,
        3.924090430035045e3, -1.210164659068747e4, 2.248646550400788e4, -2.605562982188164e4,
        1.852373922069467e4, -7.420201433430137e3, 1.285617841998974e3,
    ),
    (
        -1.193013005057010e-2, 2.517399633803461e-1, -2.170575700536993, 1.353034988843029e1,
        -5.029988758547014e1, 1.096355666577570e2, -1.422753946421155e2, 1.080435942856230e2,
        -4.414153236817392e1, 7.442971530188783,
    ),
    (
        -6.802995733503803e-4, 1.876837790289664e-2, -2.002561813734156e-1, 1.022992966719220,
        -2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461,
        -5.411227621436812e-1,
    ),
    (4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6, -1.515784836987210e-6),
    (-2.788074354782409e-8, 1.345612883493354e-8),
)  # fmt: skip

LOWEST, HIGHEST = -20.0, 40.0


def _series(coefficients: tuple[float, ...], x: float) -> float:
    total = 0.0
    for c in reversed(coefficients):
        total = total * x + c
    return total


def _at_20(p: float) -> float:
    return _series(_A, p) / 1000


DENSITY = _at_20(1.0)
"""Density of pure ethanol at 20 °C, g/ml (0.78924)."""

_SLOPE = tuple(i * a for i, a in enumerate(_A))[1:]


def density(p: float, t: float = 20.0) -> float:
    """Density, g/ml, of ethanol and water: mass fraction p (0 to 1), t °C (-20 to 40).

    ValueError outside, also below freezing of a weak mixture only in so far as t is under -20.
    """
    within(p, 0.0, 1.0, "The ethanol in a spirit, as a fraction of its weight,")
    if t == 20:
        return _at_20(p)
    within(t, LOWEST, HIGHEST, "The temperature of a spirit", " °C")
    warm = t - 20
    total = warm * _series(_B, warm)
    shift = 0.0
    for coefficients in reversed(_C):
        shift = (shift + p * _series(coefficients, p)) * warm
    return _at_20(p) + (total + shift) / 1000


def abv(p: float) -> float:
    """ABV (fraction, at 20 °C) of a mixture with mass fraction p of ethanol (0 to 1)."""
    within(p, 0.0, 1.0, "The ethanol in a spirit, as a fraction of its weight,")
    return p * _at_20(p) / DENSITY


def mass_fraction(q: float) -> float:
    """Mass fraction of ethanol in a mixture of ABV q (fraction, 0 to 1); within 1e-12."""
    within(q, 0.0, 1.0, "The strength of a spirit, as a fraction by volume,")
    goal = q * DENSITY
    p = q * (0.8 + 0.2 * q)
    for _ in range(20):
        rho = _at_20(p)
        step = (p * rho - goal) / (rho + p * _series(_SLOPE, p) / 1000)
        p -= step
        if abs(step) < 1e-14:
            break
    return min(max(p, 0.0), 1.0)


def density_by_abv(q: float, t: float = 20.0) -> float:
    """Density, g/ml, of ethanol and water whose ABV at 20 °C is q (fraction), at t °C (-20 to 40)."""
    return density(mass_fraction(q), t)


def water_to_reduce(volume: float, q_from: float, q_to: float) -> float:
    """Volume of water at 20 °C that brings ``volume`` of ABV q_from down to q_to; contraction counted.

    Same unit as ``volume``. Needs 0 < q_to <= q_from <= 1: ValueError otherwise.
    """
    if not 0 < q_to <= q_from <= 1:
        raise ValueError("Water only lowers a strength: the target must be above 0 and not above the start.")
    final = volume * q_from / q_to
    return (final * density_by_abv(q_to) - volume * density_by_abv(q_from)) / _at_20(0.0)


_FREEZING_ABV = (
    0, 3.13, 6.00, 8.47, 14.0, 17.0, 20.2, 21.5, 23.1, 24.8, 27.0, 29.5, 32.4, 36.1, 40.5, 46.3,
    50, 60, 70, 80, 90, 100,
)  # fmt: skip
_FREEZING = (
    0, -1.0, -2.0, -3.0, -5.0, -6.1, -7.5, -8.7, -9.4, -10.6, -12.2, -14.0, -16.0, -18.9, -23.6, -28.7,
    -32, -37, -48, -59, -73, -115,
)  # fmt: skip
_freezing = through([q / 100 for q in _FREEZING_ABV], _FREEZING)


def freezing_point(q: float) -> float:
    """Temperature, °C, at which a spirit of ABV q (fraction, 0 to 1) begins to freeze.

    Measured tables differ by up to 1 °C up to 50 % ABV, and by several above.
    """
    within(q, 0.0, 1.0, "The strength of a spirit, as a fraction by volume,")
    return _freezing(q)
