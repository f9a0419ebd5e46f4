"""How well the measure of a variable suits what is asked: a time for ``how long``, a share for ``how strong``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stillroom.units import PERCENTS, Unit

from .candidate import HEAT, MASS, TIME, VOLUME
from .measures import among

if TYPE_CHECKING:
    from .wanting import Wishes

IN_UNIT, OTHER_UNIT, COUNT_IN_UNIT = 1.5, 3.0, 0.5
MANY, MANY_PIECES, MANY_OTHER = 0.9, 2.6, 0.3
LONG, NOT_LONG = 1.8, 2.5
STRONG, NOT_STRONG, AMOUNT_NOT_STRONG = 1.2, 1.0, 2.5
"""No weight and no volume says how strong something is, whatever the words after ``how strong`` name."""
COLD, NOT_COLD = 1.5, 2.0
WEIGHED, NOT_WEIGHED, POURED = 0.5, 1.0, 0.5
NOT_COUNTED = 1.5
"""``how much drink will that make`` asks for no number of drinks."""


def suits(w: Wishes, unit: Unit, named: bool, apart: bool = False) -> float:
    """What a variable's unit adds to its being wanted; ``apart`` says that it is named in another question than those
    that ask for a unit."""
    how, score = w.asked.how, 0.0
    if w.weighed and not named and unit.dimension == MASS:
        score += WEIGHED
    elif w.weighed and unit.dimension == VOLUME:
        score -= NOT_WEIGHED
    if w.said.poured and not w.measures:
        score += POURED if unit.dimension == VOLUME else -POURED if unit.dimension == MASS or named else 0.0
    if w.measures:
        if any(among(d, unit) for d in w.measures):
            score += IN_UNIT
        elif not apart:
            score -= COUNT_IN_UNIT if "many" in how and unit.kind == "count" else OTHER_UNIT
    elif "many" in how and w.countable:
        more = MANY_PIECES if "pieces" in how else MANY
        score += more if unit.kind == "count" else -more if unit.dimension in (MASS, VOLUME) else -MANY_OTHER
    if "time" in how:
        score += LONG if unit.dimension == TIME else -NOT_LONG
    if "strength" in how:
        amount = unit.dimension in (MASS, VOLUME)
        score += STRONG if unit.kind in PERCENTS else -AMOUNT_NOT_STRONG if amount else -NOT_STRONG
    if "temperature" in how:
        score += COLD if unit.dimension == HEAT else -NOT_COLD
    if "much" in how and (unit.dimension in (TIME, HEAT) or (unit.kind in PERCENTS and not named and not w.measures)):
        score -= STRONG
    if w.said.drunk and unit.kind == "count":
        score -= NOT_COUNTED
    return score
