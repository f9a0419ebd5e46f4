"""Density at 20 °C of acids in water, where a table of it is published.

Citric, malic, acetic and lactic acid: for tartaric, ascorbic and phosphoric acid no table was
found that could be read, and a stated w/v strength is the way to make them by volume.
"""

from .curve import Curve, through, within

SOURCE = "Engineering ToolBox, densities of aqueous solutions of organic acids at 20 °C"
MALIC_SOURCE = "Lange and Sinks 1930, specific gravity 20/4 of malic acid, in a maker's data sheet"

_PERCENT_AND_DENSITY: dict[str, tuple[tuple[float, ...], tuple[float, ...]]] = {
    "citric": ((0, 1, 5, 10, 20, 30), (0.9982, 1.0022, 1.0189, 1.0402, 1.0858, 1.1346)),
    "malic": (
        (0, 5, 10, 15, 20, 25, 30, 35, 40),
        (0.9982, 1.019, 1.039, 1.060, 1.080, 1.100, 1.123, 1.146, 1.169),
    ),
    "acetic": (
        (0, 1, 5, 10, 20, 30, 40, 50),
        (0.9982, 0.9996, 1.0052, 1.0121, 1.0250, 1.0369, 1.0474, 1.0562),
    ),
    "lactic": ((0, 1, 5, 10, 20, 40), (0.9982, 1.0002, 1.0086, 1.0199, 1.0439, 1.0915)),
}

_curves: dict[str, tuple[float, Curve]] = {
    name: (percent[-1] / 100, through([p / 100 for p in percent], values))
    for name, (percent, values) in _PERCENT_AND_DENSITY.items()
}


def known() -> tuple[str, ...]:
    """The acids whose solutions have a density here."""
    return tuple(_curves)


def strongest(acid: str) -> float:
    """The largest mass fraction of that acid that ``density`` accepts."""
    return _curve(acid)[0]


def density(acid: str, w: float) -> float:
    """Density, g/ml at 20 °C, of the named acid (anhydrous) in water at mass fraction w.

    Citric to 0.30, malic and lactic to 0.40, acetic to 0.50; ValueError outside and for another acid.
    """
    highest, curve = _curve(acid)
    within(w, 0.0, highest, f"The {acid} acid in a solution, as a fraction of its weight,")
    return curve(w)


def _curve(acid: str) -> tuple[float, Curve]:
    if acid not in _curves:
        raise ValueError(f"No density is published here for {acid} acid: make it by weight, or as w/v.")
    return _curves[acid]
