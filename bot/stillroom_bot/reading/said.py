"""What a message's question says, whichever calculator looks at it: states, totals, volumes, each, both."""

from __future__ import annotations

from itertools import pairwise

from .each_of import SERVED
from .message import Message
from .phrases import Phrases

TOTALS = frozenset("total totals tot combined together altogether overall".split())
IN_ALL = (("in", "all"), ("all", "in"), ("all", "told"), ("all", "up"))
STATES = {
    **dict.fromkeys(("original", "initial", "starting", "before", "beforehand", "undiluted", "originally"), "from"),
    **dict.fromkeys(("final", "resulting", "after", "afterwards", "new", "result"), "to"),
}
FURTHER = 6
STRENGTH = frozenset("strength abv proof alcohol".split())
IN_THE_END = Phrases((words, True) for words in (
    ("have", "then"), ("have", "afterwards"), ("end", "up"), ("in", "the", "end"), ("at", "the", "end"),
    ("there", "be"), ("are", "there", "?"), ("in", "the", "glass"), ("in", "my", "glass"), ("in", "a", "glass"),
))  # fmt: skip
REST = 0.4


class Said:
    """What a message's question says, whichever calculator looks at it.

    ``state`` is the role of what is asked for by its state: ``from`` for an original strength, ``to`` for a final
    one; ``ending`` says that what there is in the end is asked for; ``totals`` are the places where everything
    together is asked for; ``weighed`` says that a weight is asked for, ``poured`` that a volume is, ``each`` that
    something is asked of one of the things counted (``yield per lime``), ``both`` that two things are, ``old`` that
    an age is.
    """

    def __init__(self, m: Message):
        asked = m.asked
        self.zones = [(a, b, 1.0) for a, b in asked.zones] + [(a, b, REST) for a, b in asked.rest]
        said = [m.tokens[i] for a, b in asked.zones for i in range(a, b + 1)]
        self.weighed = any(t.stem in ("weigh", "weight") for t in said)
        self.each = _each_asked(m)
        self.both = any(t.text == "both" for t in said) or any(
            [t.text for t in m.tokens[i - 1 : i + 1]] == ["of", "each"] and i + 1 not in m.content
            for a, b in asked.zones
            for i in range(a + 1, b + 1)
        )
        self.old = any(t.text in ("old", "age") for t in said)
        self.poured = any(t.text in ("volume", "vol") for t in said)
        states = {STATES[t.text] for t in said if t.text in STATES}
        states = states or {STATES[m.tokens[i].text] for i in _said_besides(m) if m.tokens[i].text in STATES}
        self.state = states.pop() if len(states) == 1 else ""
        open_ = not self.state and not any(t.stem == "ratio" for t in said)
        self.ending = open_ and (_in_the_end(m) or _added_up(m))
        self.totals = totals_said(m)


def _in_the_end(m: Message) -> bool:
    """Is the end spoken of in a question, or directly after what it asks for (``how much rum do I end up with?``)?"""
    words = [t.text for t in m.tokens]
    return any(
        IN_THE_END.at(words, i)
        for a, b in (*m.asked.zones, *m.asked.rest)
        for i in range(a, min(b + FURTHER, len(words)))
    )


def _said_besides(m: Message) -> list[int]:
    """``what proof does my undiluted mix have to be?``, ``what strength had the mix before?``: what the rest of the
    question says of the thing whose strength is asked for, where it holds no number."""
    strong = "strength" in m.asked.how or any(m.tokens[i].stem in STRENGTH for a, b in m.asked.zones for i in range(a, b + 1))
    numbered = {i for q in m.quantities if not q.noise for i in range(q.first, q.last + 1)}
    rest = [range(a, b + 1) for a, b in m.asked.rest if strong and numbered.isdisjoint(range(a, b + 1))]
    return [i for r in rest for i in r]


def _added_up(m: Message) -> bool:
    """``1.2 l mix + 25 % dilution = ? l``: is a sum written out, and its end asked for?"""
    words = [t.text for t in m.tokens]
    if "+" not in words or "=" not in words[words.index("+") :]:
        return False
    at = words.index("=", words.index("+"))
    told = [q for q in m.quantities if not q.noise and q.last < at]
    blank = words[at + 1 : at + 2] in (["?"], []) or words[at + 1][0] in "_…"
    return blank and len(told) > 1 and any(a.last < words.index("+") < b.first for a in told for b in told)


def _each_asked(m: Message) -> bool:
    """``what's the yield per lime?``: is what is asked for asked of each of the things that are counted?"""
    counted = {m.tokens[i].stem for k, q in enumerate(m.quantities) if q.bare and (n := m.nouns[k])
               for i in range(n[0], n[1] + 1)}
    words = [t.text for t in m.tokens]
    return any(
        words[i] in ("per", "/", "each", "every") and (m.tokens[i + 1].stem in counted or words[i + 1] == "fruit")
        for a, b in m.asked.zones
        for i in range(a, min(b + 4, len(words) - 1))
    )


def counts_vessels(m: Message) -> bool:
    """``how many 90 ml drinks in 2.8 litres?``: is it asked how many of something of a size there are?"""
    words = [t.text for t in m.tokens]
    return any(q.units and not q.strength and words[max(0, q.first - 2) : q.first] == ["how", "many"]
               for q in m.quantities)


def one_asked(m: Message) -> bool:
    """``and per drink?``: is one of those that are served asked about?"""
    return any(a.text in ("per", "each", "every") and b.stem in SERVED for a, b in pairwise(m.tokens))


def totals_said(m: Message) -> list[int]:
    """Where a question says that it is for everything together; where it has no number, anywhere in the message."""
    spans = m.asked.zones if any(not q.noise and not q.carried for q in m.quantities) else [(0, len(m.tokens) - 1)]
    words = [t.text for t in m.tokens]
    return [
        i
        for a, b in spans
        for i in range(a, b + 1)
        if words[i] in TOTALS or tuple(words[i : i + 2]) in IN_ALL
    ]
