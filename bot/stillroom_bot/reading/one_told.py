"""What one of those that are served is made of: told, and not how many there are."""

from __future__ import annotations

from .each_of import SERVED
from .message import Message
from .quantity import Quantity

TOLD_OF_ONE = frozenset("is has = : contains holds takes gets consists".split())
MAKING_ONE = frozenset("is are makes make =".split())
GLASS = frozenset({"glass"})
ENDING = frozenset({"", ".", ",", ";", "?", "!", "\n"})


def one_told(m: Message, q: Quantity) -> bool:
    """``one serve is 40 ml gin, 20 ml lemon``, ``1 drink = ...``, ``... and 5 ml syrup is one drink``: is number ``q``
    the one that a spec is of, and not how many?"""
    t = m.tokens
    after = [x.text for x in t[q.last + 1 : q.last + 3]]
    if q.value != 1 or not after or t[q.last + 1].stem not in SERVED | GLASS:
        return False
    if after[0].endswith("'s") or (after[1:] and after[1] in TOLD_OF_ONE):
        return True
    before = t[q.first - 1].text if q.first > 1 else ""
    several = before == "for" and any(o.bare and o.value > 1 and not o.noise for o in m.quantities)
    making = several or before in MAKING_ONE
    return making and (len(after) == 1 or after[1] in ENDING)
