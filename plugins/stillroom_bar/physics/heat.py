"""Heat: ice, water, and ethanol with water. kJ, kg, °C."""

from .curve import through, within

SOURCE = "ice and water IAPWS R10-06 and IAPWS-95; ethanol with water CoolProp 8.0.0 INCOMP::MEA"

LATENT = 333.42
"""kJ/kg to melt ice at 0 °C (IAPWS R10-06; handbooks print 333.55)."""

ICE = 2.097
"""kJ/(kg K), specific heat of ice at 0 °C (IAPWS R10-06)."""

WATER = 4.184
"""kJ/(kg K), specific heat of water at 20 °C (IAPWS-95)."""

ICE_DENSITY = 0.91672
"""g/ml, ice at 0 °C (IAPWS R10-06)."""

_MASS_FRACTION = (0.0, 0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50, 0.55, 0.60)
_SPECIFIC = (
    4.184, 4.2414, 4.3033, 4.3348, 4.3287, 4.2866, 4.2161, 4.1271, 4.0293, 3.9286, 3.8245, 3.7063, 3.5508,
)  # fmt: skip
_specific = through(_MASS_FRACTION, _SPECIFIC)


def specific_heat(p: float) -> float:
    """kJ/(kg K) at 20 °C of ethanol and water, mass fraction p of ethanol (0 to 0.60)."""
    within(p, 0.0, 0.60, "The ethanol, as a fraction of its weight,")
    return _specific(p)


def to_melt(t_ice: float = 0.0) -> float:
    """kJ/kg that ice at t_ice °C (-40 to 0) takes up until it is water at 0 °C.

    The mean specific heat falls by 0.0037 kJ/(kg K) a degree: IAPWS R10-06 within 0.1 %.
    """
    within(t_ice, -40.0, 0.0, "The temperature of ice", " °C")
    return LATENT - t_ice * (ICE + 0.0037 * t_ice)


def ice_melted(water: float, t_from: float, t_ice: float = 0.0) -> float:
    """Grams of ice at t_ice °C that melt to bring ``water`` grams of water from t_from °C to 0 °C."""
    if water < 0:
        raise ValueError("A mass of water cannot be below zero.")
    within(t_from, 0.0, 100.0, "The temperature of the water", " °C")
    return water * WATER * t_from / to_melt(t_ice)
