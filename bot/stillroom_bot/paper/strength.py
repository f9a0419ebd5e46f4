"""A strength as it stands on a label, and how far the drink may be from it.

Regulation (EU) No 1169/2011, Annex XII: a figure with at most one decimal, then ``% vol``, at 20 °C, for
drinks above 1.2 % by volume, with the tolerances of ``KINDS``.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

LEAST = 1.2
"""% by volume: at and below it no strength has to be given (Annex XII)."""
SOURCE = "Regulation (EU) No 1169/2011, Annex XII"


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of drink: how far, in % by volume, it may be from what its label says, and what tells it."""

    name: str
    tolerance: float
    kinds: frozenset[str] = frozenset()


ANY = Kind("other drinks", 0.3)
STEEPED = Kind("drinks with macerated fruit or parts of plants", 1.5,
               frozenset({"fruit", "peel", "herb", "spice", "tea", "nut", "coffee", "vegetable"}))


def kind_of(kinds: Iterable[str]) -> Kind:
    """The kind of drink by the kinds of thing in it; beer and wine alone are bought with a label of their own."""
    return STEEPED if STEEPED.kinds & set(kinds) else ANY


def on_label(abv: float) -> str:
    """The text for a strength in % by volume; empty where none has to be given."""
    return f"alc. {abv:.1f} % vol" if abv > LEAST else ""


def told(abv: float, kind: Kind) -> str:
    """What to say of the figure beside the label."""
    return (f"The strength is worked out, not measured: the label may be {kind.tolerance:g} % vol off ({kind.name}; "
            f"{SOURCE}), and mixing and straining can shift it as much. Have it measured before you sell bottles.")
