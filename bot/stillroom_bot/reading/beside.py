"""Things beside a number: what is added to it, what it is the price of, and of what it is told again."""

from __future__ import annotations

from .combining import VESSELS
from .message import Message
from .quantity import Quantity

ADDED = 0.2
"""How much the name of what is added says of the amount that it is added to."""


def told_again(m: Message, q: Quantity) -> tuple[int, int] | None:
    """``3 parts rum, 1 part lime; the rum is 1.5 l``: the thing before the verb, of which an amount is told before;
    or its vessel (``the rum bottle is 700 ml``)."""
    end = q.first - 2
    if end < 1 or not q.units or m.tokens[end + 1].text not in ("is", "=", "are"):
        return None
    last = end - (m.tokens[end].stem in VESSELS)
    for n in m.nouns:
        first = last - (n[1] - n[0]) if n else last
        if n and n[1] < first and _stems(m, n[0], n[1]) == _stems(m, first, last):
            return first, end
    return None


def _stems(m: Message, first: int, last: int) -> list[str]:
    return [t.stem for t in m.tokens[first : last + 1]]


def bought(m: Message, k: int) -> bool:
    """``40 quid for 70 cl``, ``$28 for a 750 ml``: is quantity ``k`` what is had for the sum of money before it?"""
    q, before = m.quantities[k], m.quantities[k - 1] if k else None
    if before is None or before.units != ("currency",) or before.per or not q.units or q.units == ("currency",):
        return False
    return [t.text for t in m.tokens[before.last + 1 : q.first]] in (["for"], ["for", "a"], ["for", "the"])


def added_to(m: Message, q: Quantity, i: int) -> bool:
    """``add 20 % water to 5 l``: is token ``i`` a name of what the number before is of, which is added to this one?"""
    noun = m.nouns[-1] if m.nouns else None
    if noun is None or not noun[0] <= i <= noun[1] or m.cues[len(m.nouns) - 1].get("add", 0.0) < 1.0:
        return False
    return m.tokens[q.first - 1].text in ("to", "into")
