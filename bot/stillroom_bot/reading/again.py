"""A question that only points at an amount that was told, to have it said in another unit: ``what is that in psi?``"""

from __future__ import annotations

from .clauses import SENTENCE_ENDS
from .message import Message

POINTING = frozenset("that it this these those they them".split())
SAYING = frozenset(
    """express expressed expressing convert converted converting translate translated state stated put write written
say said tell give come comes came make makes equal equals amount work working turn kindly possibly roughly exactly
reading figure number value trouble ask help like love need want wondering
wonder""".split()
)
"""What may stand beside the unit and the pronoun, and asks for nothing else."""
SETTING = frozenset("read set show dial look looking see expect figure".split())
QUESTIONS = frozenset("what what's which how".split())
ALL = frozenset("altogether together total all each every per".split())
ASKING = frozenset({"much", "many"})


def points_back(m: Message) -> bool:
    """Does the question that holds the one unit asked for only point at what was told before?

    Where the unit is one that is only had or known (``our gauge has bar only: what should it read?``), it need not.
    """
    spans = m.asked.unit_spans
    if len(spans) != 1:
        return False
    if m.asked.mentioned:
        asked = {m.tokens[i].text for a, b in _questions(m) for i in m.content if a <= i <= b}
        return asked <= SAYING | SETTING
    first, last = spans[0]
    zones = [z for z in m.asked.zones if z[0] <= first <= z[1] + 2]
    if not zones:
        return False
    begin, end = min(z[0] for z in zones), max(last, *(z[1] for z in zones))
    while end + 1 < len(m.tokens) and m.tokens[end + 1].text not in SENTENCE_ENDS:
        end += 1
    words = [m.tokens[i].text for i in range(begin, end + 1)]
    if POINTING.isdisjoint(w.split("'")[0] for w in words) or not ALL.isdisjoint(words):
        return False
    content = (m.tokens[i].text for i in m.content if begin <= i <= end)
    elsewhere = ({m.tokens[i].text for i in range(a, b + 1)} for a, b in m.asked.zones if (a, b) not in zones)
    return all(w in SAYING for w in content) and not any(ASKING & other for other in elsewhere)


def _questions(m: Message) -> list[tuple[int, int]]:
    """The zones that a question word opens or stands in; all of them, where there is none."""
    opened = [z for z in m.asked.zones if any(t.text in QUESTIONS for t in m.tokens[max(0, z[0] - 2) : z[1] + 1])]
    return opened or m.asked.zones
