"""What a vessel takes: everything that goes into it together, and all of what is served from it."""

from __future__ import annotations

from .clauses import SENTENCE_ENDS
from .message import Message
from .quantity import Quantity
from .tokens import Token

TAKING, SAID, NEAR = frozenset("hold holds take takes fit fits".split()), 1.3, 3
TOGETHER = frozenset({"both", "everything"})
INSIDE = frozenset("in into inside fit fits".split())
SERVED_FROM = frozenset("pitcher jug bowl dispenser carafe decanter urn cooler bucket".split())
BROUGHT = frozenset("to should must lands".split())
SIZED = frozenset("is are holds hold takes take has of for = :".split())


def takes_everything(m: Message, k: int, q: Quantity) -> None:
    """``a tub which can hold 10 l, both the drink and the milk go into it``: so much of everything together."""
    words = [t.text for t in m.tokens]
    if TAKING.isdisjoint(words[max(0, q.first - NEAR) : q.first]):
        return
    last = q.last
    while last + 1 < len(words) and words[last + 1] not in SENTENCE_ENDS:
        last += 1
    said = words[q.last + 1 : last + 1]
    if not (TOGETHER.isdisjoint(said) or INSIDE.isdisjoint(said)):
        others = {c: w for c, w in m.cues[k].items() if c not in ("each", "have", "from")}
        m.cues[k] = {**others, "whole": SAID}


def is_filled(t: list[Token], q: Quantity) -> bool:
    """``my pitcher is 64 oz``, ``the bowl takes 5 l``, ``the 3 l carafe to land at 16 %``: the size of what a drink is
    served from, when it is full."""
    then = t[q.last + 1 : q.last + 4]
    if len(then) > 2 and then[0].stem in SERVED_FROM and then[1].text in BROUGHT and then[2].kind == "word":
        return True
    i, after = q.first - 1, t[q.last + 1].text if q.last + 1 < len(t) else ""
    i -= i > 0 and t[i].text in SIZED
    return i >= 0 and t[i].stem in SERVED_FROM and after not in ("of", "at")
