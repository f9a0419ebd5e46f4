"""Water: its density by temperature."""

from .curve import within

SOURCE = "ICUMSA SPS-4, density of water, as in the Sugar Technologists Manual 1995"

LOWEST, HIGHEST = 0.0, 100.0


def density(t: float = 20.0) -> float:
    """Density of water, g/ml, at t degrees Celsius (0 to 100, at 1 atm).

    ValueError outside that range. Source: ICUMSA SPS-4; 0.998203 g/ml at 20 degrees.
    """
    within(t, LOWEST, HIGHEST, "The temperature of liquid water", " °C")
    top = 999.83952 + t * (
        16.952577 + t * (-7.9905127e-3 + t * (-46.241757e-6 + t * (105.84601e-9 - 281.03006e-12 * t)))
    )
    return top / (1 + 16.887236e-3 * t) / 1000
