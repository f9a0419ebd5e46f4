"""What one of those that are served is made of: told, and not how many there are."""

from __future__ import annotations

from .each_of import SERVED
from .quantity import Quantity
from .tokens import Token

TOLD_OF_ONE = frozenset("is has = : contains holds takes gets consists comprises".split())
MAKING_ONE = frozenset("is are makes make =".split())
GLASS = frozenset({"glass"})
ENDING = frozenset({"", ".", ",", ";", "?", "!", "\n"})


def one_told(t: list[Token], q: Quantity) -> bool:
    """``one serve is 40 ml gin, 20 ml lemon``, ``1 drink = ...``, ``... and 5 ml syrup is one drink``: is number ``q``
    the one that a spec is of, and not how many?"""
    after = [x.text for x in t[q.last + 1 : q.last + 3]]
    if q.value != 1 or not after or t[q.last + 1].stem not in SERVED | GLASS:
        return False
    ended = len(after) == 1 or after[1] in ENDING
    before = t[q.first - 1].text if q.first > 1 else ""
    told = after[1:2] != [] and after[1] in TOLD_OF_ONE
    return after[0].endswith("'s") or told or (ended and before in MAKING_ONE)
