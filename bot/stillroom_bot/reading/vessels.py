"""What a vessel takes: everything that goes into it together, and no one thing of it."""

from __future__ import annotations

from .clauses import SENTENCE_ENDS
from .message import Message
from .quantity import Quantity

TAKING, SAID, NEAR = frozenset("hold holds take takes fit fits".split()), 1.3, 3
TOGETHER = frozenset({"both", "everything"})
INSIDE = frozenset("in into inside fit fits".split())


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
