"""Parts of a drink that are told by no name, only by how much there is of each and how strong it is."""

from __future__ import annotations

from .message import Message
from .quantity import Quantity

FEWEST = 2
AT: tuple[list[str], ...] = (["at"], ["@"], ["of"], [","], [])
GAS = frozenset({"co2_volume", "volumes_of_gas"})


def nameless(m: Message) -> dict[int, tuple[int, int]]:
    """``60 ml at 45 %, 30 ml at 15 %``: each such number with the tokens of its part; nothing where there is one."""
    told: dict[int, tuple[int, int]] = {}
    parts = 0
    for k, q in enumerate(m.quantities[:-1]):
        own = m.quantities[k + 1]
        if not _amount(q) or not _how_strong(own):
            continue
        between = [t.text for t in m.tokens[q.last + 1 : own.first]]
        noun = m.nouns[k]
        after = m.nouns[k + 1]
        unnamed = (noun is None or _heading(m, noun, q)) and (after is None or after[0] <= own.last)
        if between in AT and unnamed and not (between == [","] and "\n" not in _words(m)):
            told[k] = (q.first, own.last)
            parts += 1
        elif noun is not None and q.last < noun[0] and noun[1] < own.first:
            parts += 1
    return told if parts >= FEWEST else {}


def _heading(m: Message, noun: tuple[int, int], q: Quantity) -> bool:
    """``Cocktail: 50 ml at 40 %, 25 ml at 20 %``: what stands before the first part is no name of it."""
    named = any(noun[0] <= x.first and x.last <= noun[1] and x.entry.substances for x in m.matches)
    return noun[1] < q.first and not named


def _words(m: Message) -> frozenset[str]:
    return frozenset(t.text for t in m.tokens)


def _amount(q: Quantity) -> bool:
    return bool(q.units) and q.ratio is None and q.per is None and not (
        q.noise or q.rejected or q.strength or q.money or q.unsized or q.implied or GAS & set(q.units)
    )


def _how_strong(q: Quantity) -> bool:
    """A strength, a content (``5.5 g/100 ml``) or a number of volumes of gas."""
    return not (q.noise or q.rejected) and (q.strength or bool(q.per and q.units) or not GAS.isdisjoint(q.units))


__all__ = ["nameless"]
