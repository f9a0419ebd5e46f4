"""A bare number may be in a unit that was said of another: ``at 61 brix, water to make it 57``."""

from __future__ import annotations

from .message import Message
from .quantity import MONEY_ASKED, Quantity
from .tokens import Token

MOST_SAID = 40
"""Among more amounts than this, a bare number is not given a unit of theirs."""
WENT = frozenset({"out", "back", "left"})
"""``1.74 out after straining``: what came of something, and no count of what is named behind it."""
KEEPING = frozenset("good fine ok okay keep keeps last lasts fresh".split())
"""Before ``for``: what comes is a time, and no people."""
MEASURED = frozenset("strength brix total target volume proof abv acidity weight dilution reading level".split())


def share_units(m: Message) -> None:
    """``at 61 brix, water to make it 57``: a number without a noun or a unit may be in a unit that was said."""
    said = [q for q in m.quantities if q.units and not (q.noise or q.implied or q.money or q.unsized or q.per)]
    if not said or len(said) > MOST_SAID:
        return
    if any(t.stem in MONEY_ASKED for t in m.tokens):
        said = [q for q in said if q.strength]
    for k, q in enumerate(m.quantities):
        if q.bare and not (q.noise or q.weak or q.carried) and not _counted(m.tokens, q) and (
            m.nouns[k] is None or (q.last + 1 < len(m.tokens) and m.tokens[q.last + 1].text in WENT)
        ):
            near = sorted(said, key=lambda o: abs(o.first - q.first))
            q.shared = tuple(dict.fromkeys(u for o in near for u in o.units))


def _counted(tokens: list[Token], q: Quantity) -> bool:
    """``all forty``, ``a party of 40``, ``14 of us``, ``total for 12``, ``a third``: people, things and parts."""
    before = [t.text for t in tokens[max(0, q.first - 2) : q.first]]
    after = tokens[q.last + 1].text if q.last + 1 < len(tokens) else ""
    return (
        before[-1:] == ["all"]
        or after in ("of", "people", "times")
        or (before[-1:] == ["for"] and before[0] not in KEEPING and q.value == int(q.value)
            and after in ("", "?", ".", "!", ",", "please"))
        or (before[-1:] == ["of"] and before[0] not in MEASURED)
        or (q.value < 1 and any(t.kind == "word" for t in tokens[q.first : q.last + 1]))
    )
