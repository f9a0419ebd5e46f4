"""Acids of the bar: molar masses, acid groups, dissociation constants, pH of their solutions.

The pH is ideal (no activity corrections, 25 °C): good to about 0.1 for a plain solution of
acid in water. Juice is buffered by its own salts and reads higher than this says.
"""

from collections.abc import Iterable

from .curve import within

SOURCE = "molar masses by the molmass library; pKa at 25 °C, Martell and Smith tables"


class Acid:
    """g/mol, acid groups that a titration to pH 8.1 counts, pKa at 25 °C in order.

    ``equivalent`` is grams for each mole of titratable hydrogen.
    """

    __slots__ = ("equivalent", "groups", "molar_mass", "pka")

    def __init__(self, molar_mass: float, groups: int, pka: tuple[float, ...]) -> None:
        self.molar_mass, self.groups, self.pka = molar_mass, groups, pka
        self.equivalent = molar_mass / groups


ACIDS: dict[str, Acid] = {
    "citric": Acid(192.124, 3, (3.13, 4.76, 6.40)),
    "citric monohydrate": Acid(210.139, 3, (3.13, 4.76, 6.40)),
    "malic": Acid(134.087, 2, (3.40, 5.20)),
    "tartaric": Acid(150.087, 2, (2.98, 4.34)),
    "lactic": Acid(90.078, 1, (3.86,)),
    "acetic": Acid(60.052, 1, (4.76,)),
    "ascorbic": Acid(176.124, 1, (4.10, 11.7)),
    "phosphoric": Acid(97.995, 2, (2.15, 7.21, 12.34)),
}
"""By name. Ascorbic pKa from memory of the CRC Handbook; phosphoric counted to its second group."""

_WATER = 1e-14


def acid(name: str) -> Acid:
    """The acid of that name; ValueError lists the ones known."""
    try:
        return ACIDS[name]
    except KeyError:
        raise ValueError(f"No acid called {name} here; there are {', '.join(sorted(ACIDS))}.") from None


def as_citric(name: str) -> float:
    """Grams of the named acid that neutralise as much as one gram of anhydrous citric acid."""
    return acid(name).equivalent / ACIDS["citric"].equivalent


def _charge(pka: tuple[float, ...], hydrogen: float) -> float:
    """Mean charge lost by a molecule of acid at that hydrogen ion concentration, mol/l."""
    weight = total = 1.0
    lost = 0.0
    for i, k in enumerate(pka, start=1):
        weight *= 10.0**-k / hydrogen
        total += weight
        lost += i * weight
    return lost / total


def ph(solutes: Iterable[tuple[str, float]]) -> float:
    """pH at 25 °C of water with the given acids, as (name, grams per litre) pairs.

    Each 0 to 1000 g/l; ValueError outside or for an unknown name. No acid gives 7.
    """
    dissolved = [
        (acid(name).pka, within(grams, 0.0, 1000.0, f"The {name} acid", " g/l") / acid(name).molar_mass)
        for name, grams in solutes
    ]
    low, high = -2.0, 7.0
    while high - low > 1e-12:
        middle = (low + high) / 2
        hydrogen = 10.0**-middle
        balance = hydrogen - _WATER / hydrogen - sum(c * _charge(pka, hydrogen) for pka, c in dissolved)
        low, high = (middle, high) if balance > 0 else (low, middle)
    return (low + high) / 2
