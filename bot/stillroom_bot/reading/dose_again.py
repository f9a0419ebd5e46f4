"""A dose that is asked for in another measure: ``3 dashes per drink for 85 people: how many drops per drink?``"""

from __future__ import annotations

from stillroom.units import NONE

from .clauses import SENTENCE_ENDS
from .each_of import SERVED
from .lexicon import Lexicon
from .message import Message
from .neighbours import QUESTION

OF_ONE, ONE_SERVED = frozenset("per each every".split()), SERVED | {"glass", "pour"}
TOLD_OF_EACH, ENDING = 0.9, SENTENCE_ENDS | QUESTION | {",", "for"}


def dose_again(m: Message, lexicon: Lexicon) -> None:
    """How many are served is beside the job, where what one of them is given is asked for in another unit of it."""
    told = [k for k, q in enumerate(m.quantities) if q.units and not (q.noise or q.rejected)]
    if len(told) != 1 or len(m.asked.unit_spans) != 1:
        return
    q, asked = m.quantities[told[0]], m.asked.units[0]
    own = {lexicon.units[u].dimension for u in q.units} - {NONE}
    same = any(u in lexicon.units and lexicon.units[u].dimension in own for u in asked)
    each = m.cues[told[0]].get("each", 0.0) >= TOLD_OF_EACH or _of_one(m, q.last)
    if same and not set(asked) & set(q.units) and each and q.per is None and _of_one(m, m.asked.unit_spans[0][1]):
        m.again = True
        for o in m.quantities:
            if o.bare and not o.weak:
                o.noise = o.noise or "count"


def _of_one(m: Message, i: int) -> bool:
    """Is what ends at token ``i`` said of one of those that are served, in the same breath?"""
    while i + 2 < len(m.tokens) and m.tokens[i + 1].text not in ENDING:
        i += 1
        if m.tokens[i].text in OF_ONE and m.tokens[i + 1].stem in ONE_SERVED:
            return True
    return False
