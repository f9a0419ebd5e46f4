"""A number without a unit that can only be a strength: after ``at``, on a label, beside what is poured."""

from __future__ import annotations

from .candidate import VOLUME
from .lexicon import Lexicon, Match
from .message import Message
from .quantity import Quantity
from .tokens import Token

LINE_ENDS = frozenset(",.;+\n")
ASKING_STRENGTH = frozenset("abv strength strong alcoholic".split())
LABELS, SAYS = frozenset("label bottle can tin".split()), frozenset("says reads shows states".split())
BY_STRENGTH = frozenset("unit abv strength proof strong alcohol ethanol".split())
UNITS, STANDARD = frozenset({"unit", "ethanol", "alcohol"}), frozenset({"standard", "std"})
MEASURE_ENDS = LINE_ENDS | {"", "?", "in", "for", "=", ":", "-"}
BETWEEN, MOST_BETWEEN = frozenset("at @ of a an can bottle glass pint".split()), 3
WEAKEST, STRONGEST = 0.4, 97


def is_strength(m: Message, k: int, q: Quantity, lexicon: Lexicon) -> bool:
    """Is the bare number ``q``, the message's number ``k``, a strength by where it stands?"""
    return _after_at(m, q) or _alone(m, k, q) or _labelled(m.tokens, q) or _of_a_measure(m, k, q, lexicon)


def _after_at(m: Message, q: Quantity) -> bool:
    """``50 ml rye at 43``, where a strength is asked: the strength of what is poured."""
    t = m.tokens
    if q.first < 2 or t[q.first - 1].text != "at" or not 1 < q.value <= 100 or q.weak or q.factor:
        return False
    after = t[q.last + 1] if q.last + 1 < len(t) else None
    if after is not None and after.kind == "word" and after.text not in m.stops:
        return False
    poured = any(x.last == q.first - 2 and x.entry.substances for x in m.matches)
    return poured and any(x.text in ASKING_STRENGTH for x in t)


def _alone(m: Message, k: int, q: Quantity) -> bool:
    """``50 ml gin 40, 20 ml vermouth 16. abv?``: the strength that stands between what is poured and the next line."""
    t = m.tokens
    before = m.quantities[k - 1] if k else None
    if before is None or not before.units or not 2 < q.value < 97 or q.weak or q.factor or q.aside:
        return False
    ends = q.last + 1 == len(t) or t[q.last + 1].text in LINE_ENDS
    poured = any(x.last == q.first - 1 and x.first == before.last + 1 and x.entry.substances for x in m.matches)
    return ends and poured and any(x.text in ASKING_STRENGTH for x in t)


def _labelled(t: list[Token], q: Quantity) -> bool:
    """``1 l of vodka, 37.5 on the label, how many units?``: the strength that a bottle is marked with."""
    before, after = ([x.text for x in t[max(0, q.first - 2) : q.first]], [x.text for x in t[q.last + 1 : q.last + 4]])
    on = after[:2] in (["on", "the"], ["on", "its"], ["on", "a"]) and after[2:] != [] and after[2] in LABELS
    told = on or (len(before) == 2 and before[0] in LABELS and before[1] in SAYS)
    return told and not q.weak and 2 < q.value < 97 and any(x.stem in BY_STRENGTH for x in t)


def _of_a_measure(m: Message, k: int, q: Quantity, lexicon: Lexicon) -> bool:
    """``uk units 330 ml 5``, ``a 375 ml can at 4.8, standard drinks?``: beside the one volume that is told, where
    it is asked how much alcohol that holds."""
    if q.weak or q.factor or q.aside or not WEAKEST < q.value < STRONGEST or not _alcohol_asked(m.tokens):
        return False
    live = [o for o in m.quantities if not o.noise and not o.rejected]
    poured = next((o for o in live if o is not q and o.last < q.first), None)
    if len(live) != 2 or poured is None or all(lexicon.units[u].dimension != VOLUME for u in poured.units):
        return False
    after = m.tokens[q.last + 1] if q.last + 1 < len(m.tokens) else None
    named = {i for x in m.matches if x.entry.substances for i in range(x.first, x.last + 1)}
    between = range(poured.last + 1, q.first)
    ends = after is None or after.text in MEASURE_ENDS or any(x.first == q.last + 1 and _country(x) for x in m.matches)
    return ends and len(between) <= MOST_BETWEEN and all(
        m.tokens[i].text in BETWEEN or m.tokens[i].stem in BETWEEN or i in named for i in between
    )


def _country(x: Match) -> bool:
    """Does a word settle a choice and name no thing (``375 ml 4.8 aus``)?"""
    return not x.entry.substances and any(meaning.rows for meaning in x.entry.meanings.values())


def _alcohol_asked(t: list[Token]) -> bool:
    """Does a message speak of units of alcohol, of standard drinks, of ethanol?"""
    return any(
        x.stem in UNITS or (x.text in STANDARD and [y.stem for y in t[i + 1 : i + 2]] == ["drink"])
        for i, x in enumerate(t)
    )


__all__ = ["is_strength"]
