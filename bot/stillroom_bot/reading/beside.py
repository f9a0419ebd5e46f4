"""Things beside a number: one that is added to it, and one of which an amount is told again."""

from __future__ import annotations

from .message import Message
from .quantity import Quantity

ADDED = 0.2
"""How much the name of what is added says of the amount that it is added to."""


def told_again(m: Message, q: Quantity) -> tuple[int, int] | None:
    """``3 parts rum, 1 part lime; the rum is 1.5 l``: the thing before the verb, of which an amount is told before."""
    last = q.first - 2
    if last < 0 or not q.units or m.tokens[last + 1].text not in ("is", "=", "are"):
        return None
    for n in m.nouns:
        first = last - (n[1] - n[0]) if n else last
        if n and n[1] < first and _stems(m, n[0], n[1]) == _stems(m, first, last):
            return first, last
    return None


def _stems(m: Message, first: int, last: int) -> list[str]:
    return [t.stem for t in m.tokens[first : last + 1]]


def added_to(m: Message, q: Quantity, i: int) -> bool:
    """``add 20 % water to 5 l``: is token ``i`` a name of what the number before is of, which is added to this one?"""
    noun = m.nouns[-1] if m.nouns else None
    if noun is None or not noun[0] <= i <= noun[1] or m.cues[len(m.nouns) - 1].get("add", 0.0) < 1.0:
        return False
    return m.tokens[q.first - 1].text in ("to", "into")
