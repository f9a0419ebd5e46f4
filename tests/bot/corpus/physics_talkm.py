"""Figures for the dialogues of part M: a slip mended, a setting, several of them, back to an earlier subject."""

from physics_m import (
    AVOZ,
    CO2_G_PER_L,
    DROP,
    IMP_PINT,
    OZ,
    PSI,
    ceil,
    gauge_bar,
    rho_syrup,
    shaken,
    stirred,
    sugar_in,
    uk,
    us,
    water_down,
)

__all__ = [
    "AVOZ", "CO2_G_PER_L", "DROP", "IMP_PINT", "OZ", "PSI", "ceil", "gauge_bar", "rho_syrup", "shaken", "stirred",
    "sugar_in", "uk", "us", "water_down",
]
