"""What part a number plays, where the grammar around it says so: what there was, what shall be, what is added to."""

from __future__ import annotations

from .clauses import SENTENCE_ENDS
from .exchanged import OTHER, sides
from .message import Message
from .quantity import Quantity

ON_A_SIDE = 1.0
AIM_FAR, AIMED = 9, 0.85
BEING = frozenset("at @ be read reads".split())
AIMS = frozenset("meant supposed should must shall intended wanted want wants ought aiming aim".split())
IS = frozenset({"is", "=", "takes", "has"})
WRITTEN, SERVING = frozenset("spec specs recipe card".split()), frozenset("for is serves makes feeds does".split())
ADDING = frozenset("add adding added adds put putting pour pouring poured mix mixing stir stirring tip".split())
MUST = frozenset("has have had needs need".split())
CLEAR, FAINT = 1.0, 0.6
SOFT = frozenset({",", "(", ")", "+", "&"})


def tell_parts(m: Message, taken: dict[int, int]) -> None:
    """Strengthen or take back the cues of the numbers by the clauses that they stand in.

    ``taken`` maps a token to the number that it is a part of.
    """
    for k, (q, cues) in enumerate(zip(m.quantities, m.cues, strict=True)):
        if _added_to(m, q, taken):
            cues["to"], cues["into"] = 0.0, 1.0
        if _made_for(m, q):
            cues["from"], cues["need"], cues["to"] = 1.0, 0.0, 0.0
        if _aimed_at(m, q):
            cues["to"], cues["from"] = max(cues.get("to", 0.0), AIMED), 0.0
        elif _its_own_strength(m, k):
            cues["from"] = max(cues.get("from", 0.0), FAINT)
    _put_on_sides(m)
    _told_by_the_other(m)


def _made_for(m: Message, q: Quantity) -> bool:
    """``spec for 8``, ``recipe makes 6``, ``the punch for 20 is``: for how many a spec is written down."""
    before = ["", "", *(t.text for t in m.tokens[max(0, q.first - 3) : q.first])]
    after = m.tokens[q.last + 1].text if q.last + 1 < len(m.tokens) else ""
    told = before[-1] in SERVING and (before[-2] in WRITTEN or (before[-1] == "for" and after in IS))
    return q.bare and told and not (before[-1] == "for" and before[-3] in ("this", "that", "the", "my", "our"))


def _aimed_at(m: Message, q: Quantity) -> bool:
    """``meant to go out at 41``, ``has to be 38 %``, ``should come in at 20``: is a number what it shall become?"""
    if q.first < 2 or m.tokens[q.first - 1].text not in BEING:
        return False
    back = []
    for t in reversed(m.tokens[max(0, q.first - AIM_FAR) : q.first - 1]):
        if t.text in SENTENCE_ENDS or t.text in SOFT or t.text in ("but", "and") or t.kind == "number":
            break
        back.append(t.text)
    return any(w in AIMS or (w in MUST and back[i - 1 : i] == ["to"]) for i, w in enumerate(back))


def _added_to(m: Message, q: Quantity, taken: dict[int, int]) -> bool:
    """``adding 200 ml of water to 700 ml``, ``put 20 g into the 500 ml``: what something else is added to."""
    i = q.first - 1 - (q.first > 1 and m.tokens[q.first - 1].text in ("the", "my", "our"))
    if not q.units or q.strength or i < 0 or m.tokens[i].text not in ("to", "into"):
        return False
    for k in range(i - 1, max(-1, i - AIM_FAR), -1):
        if m.tokens[k].text in SENTENCE_ENDS or m.tokens[k].text in SOFT:
            return False
        if k in taken:
            first = m.quantities[taken[k]].first
            return first > 0 and m.tokens[first - 1].text in ADDING
    return False


def _its_own_strength(m: Message, k: int) -> bool:
    """``a litre of overproof rum, 57 per cent``: a strength told of the thing that was just measured out."""
    q = m.quantities[k]
    noun = m.nouns[k - 1] if k else None
    mark = m.tokens[q.first - 1].text if q.first else ""
    return q.strength and noun is not None and mark in (",", "(") and noun[1] == q.first - 2


def _told_by_the_other(m: Message) -> None:
    """``1.5 l at 30 % from 95 %``: of two strengths one is what there was, so the other one is the target."""
    two = [k for k, q in enumerate(m.quantities) if q.strength and not (q.noise or q.rejected)]
    if len(two) != 2:
        return
    for k, o in (two, two[::-1]):
        told, other = m.cues[k], m.cues[o]
        for role, opposite in OTHER.items():
            clear = told.get(role, 0.0) >= CLEAR and told.get(opposite, 0.0) < FAINT
            if clear and FAINT >= other.get(role, 0.0) > other.get(opposite, 0.0):
                other[role], other[opposite] = 0.0, FAINT
                return


def _put_on_sides(m: Message) -> None:
    """A number stands on the side of the thing that it is an amount of, where one comes in another's place."""
    side = m.once(sides)
    for q, cues in zip(m.quantities, m.cues, strict=True) if side else ():
        if q.first in side:
            cues[side[q.first]] = max(cues.get(side[q.first], 0.0), ON_A_SIDE)
            cues[OTHER[side[q.first]]] = 0.0
