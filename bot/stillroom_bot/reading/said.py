"""What a message's question says, whichever calculator looks at it: states, totals, volumes, each, both."""

from __future__ import annotations

from itertools import pairwise

from .each_of import SERVED
from .message import Message
from .phrases import Phrases
from .tokens import Token

TOTALS = frozenset("total totals tot combined together altogether overall".split())
IN_ALL = (("in", "all"), ("all", "in"), ("all", "told"), ("all", "up"))
STATES = {
    **dict.fromkeys(("original", "initial", "starting", "before", "beforehand", "undiluted", "originally"), "from"),
    **dict.fromkeys(("final", "resulting", "after", "afterwards", "new", "result"), "to"),
}
GONE = frozenset("gone runs run empty finished dry".split())
DRINKS = frozenset("drink punch cocktail mix mixture liquid batch".split())
FURTHER = 6
IN_EACH, EVERY = frozenset("in from for into to on".split()), frozenset("each every one".split())
STRENGTH = frozenset("strength abv proof alcohol".split())
IN_THE_END = Phrases((words, True) for words in (
    ("have", "then"), ("have", "afterwards"), ("end", "up"), ("in", "the", "end"), ("at", "the", "end"),
    ("there", "be"), ("are", "there", "?"), ("in", "the", "glass"), ("in", "my", "glass"), ("in", "a", "glass"),
))  # fmt: skip
REST = 0.4
ENDS = frozenset({".", ";", "?", "!", "\n", ":"})


class Said:
    """What a message's question says, whichever calculator looks at it.

    ``state`` is the role of what is asked for by its state: ``from`` for an original strength, ``to`` for a final
    one; ``ending`` says that what there is in the end is asked for; ``totals`` are the places where everything
    together is asked for; ``weighed`` says that a weight is asked for, ``poured`` that a volume is, ``each`` that
    something is asked of one of the things counted (``yield per lime``), ``both`` that two things are, ``old`` that
    an age is, ``drunk`` that it is asked how much drink there is (``how much punch does that make?``).
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
        self.poured = any(t.text in ("volume", "vol") for t in said) or _held(m)
        of = [m.tokens[i] for a, b in asked.zones if m.tokens[a].text == "of" for i in range(a, b + 1)]
        words = [*said, *_closing(m)]
        states = {
            STATES[t.text]
            for k, t in enumerate(words)
            if t.text in STATES and t not in of and not _until_gone(words[k : k + 5])
        }
        states = states or {STATES[m.tokens[i].text] for i in _said_besides(m) if m.tokens[i].text in STATES}
        self.state = states.pop() if len(states) == 1 else ""
        open_ = not self.state and not any(t.stem == "ratio" for t in said)
        self.ending = open_ and _in_the_end(m)
        self.totals = totals_said(m)
        self.drunk = _drunk(m)


def _drunk(m: Message) -> bool:
    """``how much drink will that make?``: is nothing asked for but how much of the drink there is, in the singular?"""
    asked = [m.tokens[i] for i in m.content if any(a <= i <= b for a, b in m.asked.zones)]
    return m.asked.how == {"much"} and bool(asked) and all(t.text in DRINKS for t in asked)


def _until_gone(said: list[Token]) -> bool:
    """``how many before the puree's gone``: until when, and no state of what is asked for."""
    return said[0].text == "before" and any(t.text in GONE for t in said)


def _closing(m: Message) -> list[Token]:
    """``what strength had the mix before?``: the last word of a question, beyond what it names."""
    asked = {i for a, b in m.asked.zones for i in range(a, min(b + FURTHER, len(m.tokens)))}
    return [m.tokens[i] for i in asked if m.tokens[i + 1 : i + 2] and m.tokens[i + 1].text == "?"]


def _in_the_end(m: Message) -> bool:
    """Is the end spoken of in a question, or directly after what it asks for (``how much rum do I end up with?``)?"""
    words = [t.text for t in m.tokens]
    return any(
        IN_THE_END.at(words, i)
        for a, b in (*m.asked.zones, *m.asked.rest)
        for i in range(a, min(b + FURTHER, len(words)))
    )


def _held(m: Message) -> bool:
    """``what does the glass hold after?``: is it asked how much there is in something?"""
    after = (m.tokens[b + 1].text for a, b in m.asked.zones if b + 1 < len(m.tokens))
    return not m.asked.how and not m.asked.units and any(word in ("hold", "holds") for word in after)


def _said_besides(m: Message) -> list[int]:
    """``what proof does my undiluted mix have to be?``, ``what strength had the mix before?``: what the rest of the
    question says of the thing whose strength is asked for, where it holds no number."""
    asked = (m.tokens[i].stem for a, b in m.asked.zones for i in range(a, b + 1))
    strong = "strength" in m.asked.how or any(word in STRENGTH for word in asked)
    numbered = {i for q in m.quantities if not q.noise for i in range(q.first, q.last + 1)}
    rest = [range(a, b + 1) for a, b in m.asked.rest if strong and numbered.isdisjoint(range(a, b + 1))]
    return [i for r in rest for i in r]


def _each_asked(m: Message) -> bool:
    """``what's the yield per lime?``: is what is asked for asked of each of the things that are counted?"""
    counted = {m.tokens[i].stem for k, q in enumerate(m.quantities) if q.bare and (n := m.nouns[k])
               for i in range(n[0], n[1] + 1)}
    words = [t.text for t in m.tokens]
    for a, b in (*m.asked.zones, *m.asked.rest):
        for i in range(a, min(b + 2, len(words) - 1)):
            one = words[i + 1] in EVERY or _in_one_of_them(m, i + 1, counted)
            last = i + 2 + (words[i + 1] not in EVERY)
            if words[i] in IN_EACH and one and words[last : last + 1] in ([], ["?"]):
                return True
    return any(
        words[i] in ("per", "/", "each", "every") and (m.tokens[i + 1].stem in counted or words[i + 1] == "fruit")
        for a, b in m.asked.zones
        for i in range(a, min(b + 4, len(words) - 1))
    )


def _in_one_of_them(m: Message, i: int, counted: set[str]) -> bool:
    """``how many limes are in a case?``: is it one of the things that are counted?"""
    thing = m.tokens[i + 1 : i + 2]
    return m.tokens[i].text in ("a", "one", "each", "every") and bool(thing) and thing[0].stem in counted


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
    return _added_up(m, words) + [
        i
        for a, b in spans
        for i in range(a, b + 1)
        if words[i] in TOTALS or tuple(words[i : i + 2]) in IN_ALL
    ]


def _added_up(m: Message, words: list[str]) -> list[int]:
    """``1.35 l of mix + 28 % dilution = ? l``: a sum of two, and nothing else named after the sign."""
    plus = [i for i, w in enumerate(words) if w == "+"]
    equal = next((i for i, w in enumerate(words) if w == "=" and words[i + 1 : i + 2] == ["?"]), 0)
    one = len(plus) == 1 and plus[0] < equal and not any(plus[0] < i < equal and w in ENDS for i, w in enumerate(words))
    both = one and any(q.last < plus[0] for q in m.quantities) and any(plus[0] < q.first < equal for q in m.quantities)
    return plus if both and not any(equal < i for i in m.content) else []
