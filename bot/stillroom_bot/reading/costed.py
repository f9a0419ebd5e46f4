"""What a pour costs, in a bartender's shorthand: ``bottle 700 at 24, pour 50``, ``gin 24/700``, ``24 bottle 700``."""

from __future__ import annotations

from itertools import pairwise

from .lexicon import Lexicon
from .quantity import BOTTLE_LITRES, MONEY_ASKED, VOLUME, Quantity
from .tokens import Token

POURS = frozenset("pour measure shot serve serving".split())
PRICED = frozenset({"at", "@", "for", "=", "is", "costs", "cost", ","})
LEAST_POUR, MOST_POUR = 10, 200
MILLILITERS, CURRENCY = ("milliliter",), ("currency",)


def pour_costed(t: list[Token], lexicon: Lexicon, found: list[Quantity]) -> None:
    """The bare numbers of such a message: the size of its bottle and of its pour in millilitres, and the price."""
    if len(found) < 2 or not (any(x.stem in MONEY_ASKED for x in t) or _alone(t, found)):
        return
    bottle = next((q for q in found if _is_bottle(t, lexicon, q)), None)
    if bottle is None:
        return
    for a, b in pairwise(found):
        between = [x.text for x in t[a.last + 1 : b.first]]
        price = a if b is bottle and between in (["/"], ["bottle"]) else b if a is bottle else None
        if price is None or not _plain(price) or (price is b and (len(between) != 1 or between[0] not in PRICED)):
            continue
        if price is b and _poured(t, price):
            continue
        price.units, price.noted = CURRENCY, True
        if between == ["/"]:
            t[a.last + 1].text = t[a.last + 1].stem = "bottle"
        if bottle.bare:
            bottle.units, bottle.noted = MILLILITERS, True
        for q in found:
            if _plain(q) and LEAST_POUR <= q.value <= MOST_POUR and _poured(t, q):
                q.units, q.noted = MILLILITERS, True
        return


def _alone(t: list[Token], found: list[Quantity]) -> bool:
    """``what if 24/700``, after a pour was costed: a price and a bottle, and no other number."""
    a, b = found[:2]
    return len(found) == 2 and [x.text for x in t[a.last + 1 : b.first]] == ["/"] and t[b.first].glued and _plain(b)


def _plain(q: Quantity) -> bool:
    return q.bare and not (q.noise or q.weak or q.factor or q.rejected)


def _is_bottle(t: list[Token], lexicon: Lexicon, q: Quantity) -> bool:
    """Is a number the size of a bottle: 700 without a unit, 70 cl, half a litre?"""
    if q.bare:
        return _plain(q) and q.value >= LEAST_POUR and any(abs(q.value - 1000 * x) < 1 for x in BOTTLE_LITRES)
    if not q.units or q.unsized:
        return False
    unit = lexicon.units[q.units[0]]
    litres = q.value * unit.factor / 1000
    return unit.dimension == VOLUME and q.per is None and any(abs(litres - x) < 1e-6 for x in BOTTLE_LITRES)


def _poured(t: list[Token], q: Quantity) -> bool:
    """``pour 50``, ``50 pour``: is a number said of what is poured?"""
    around = (t[q.first - 1].stem if q.first else "", t[q.last + 1].stem if q.last + 1 < len(t) else "")
    return not POURS.isdisjoint(around)
