"""What a vessel takes: everything that goes into it together, and all of what is served from it; bottles of a size."""

from __future__ import annotations

from dataclasses import replace

from .clauses import SENTENCE_ENDS
from .lexicon import Lexicon
from .message import Message
from .numbers import number_at
from .phrases import Phrases
from .quantity import VOLUME, Quantity
from .tokens import Token

TAKING, SAID, NEAR = frozenset("hold holds take takes fit fits".split()), 1.3, 3
TOGETHER = frozenset({"both", "everything"})
TOGETHER_THEY = Phrases((said, True) for said in (("together",), ("two", "of", "them"), ("the", "two"), ("all", "of")))
INSIDE = frozenset("in into inside fit fits fill fills".split())
HOLDERS = frozenset("bucket tub box jar container vessel pot crock cambro bin pail".split())
SERVED_FROM = frozenset("pitcher jug bowl dispenser carafe decanter urn cooler bucket".split())
BROUGHT = frozenset("to should must lands".split())
BOTTLES, OF_A_SIZE = frozenset({"bottles", "cans", "cartons"}), frozenset({"of", "a", "à", "at", "with", "@"})
TOPPING = frozenset("topped top topping made make making filled fill filling brought bring diluted dilute".split())
UP_TO_WITHIN, ADDED = 7, frozenset({"with", "by", "using", "w"})
SIZED = frozenset("is are holds hold takes take has of for = :".split())


def takes_everything(m: Message, k: int, q: Quantity) -> None:
    """``a tub which can hold 10 l, both the drink and the milk go into it``, ``a 9 l bucket; the two of them fill it``:
    so much of everything together."""
    words = [t.text for t in m.tokens]
    vessel = (n := m.nouns[k]) is not None and m.tokens[n[1]].stem in HOLDERS and words[n[1] + 1 : n[1] + 2] != ["of"]
    if not vessel and TAKING.isdisjoint(words[max(0, q.first - NEAR) : q.first]):
        return
    last, ends = q.last, 1 + vessel
    while last + 1 < len(words) and (ends := ends - (words[last + 1] in SENTENCE_ENDS)):
        last += 1
    said = words[q.last + 1 : last + 1]
    together = not TOGETHER.isdisjoint(said) or (vessel and any(TOGETHER_THEY.all(said)))
    if together and not INSIDE.isdisjoint(said):
        others = {c: w for c, w in m.cues[k].items() if c not in ("each", "have", "from")}
        m.cues[k] = {**others, "whole": SAID}


def made_up_to(m: Message, k: int, q: Quantity) -> None:
    """``45 g of salt topped up with water to 300 ml``, ``then water up to the 300 ml line``: so much in the end, and
    none of what it is filled up with."""
    words = [t.text for t in m.tokens]
    to = q.first - 1 - (words[q.first - 1] in ("the", "a"))
    if to < 1 or words[to] != "to":
        return
    first = max(0, to - UP_TO_WITHIN)
    first = max([first, *(o.last + 1 for o in m.quantities if o.last < to)])
    verb = next((i for i in range(to - 1, first - 1, -1) if words[i] in TOPPING), None)
    water = next((i for i in range(to - 1, first - 1, -1) if words[i] == "water"), None)
    start = verb if verb is not None else water if words[to - 1] == "up" else None
    if start is None or not SENTENCE_ENDS.isdisjoint(words[start:to]):
        return
    after = q.last + 1 if words[q.last + 1 : q.last + 2] and words[q.last + 1] in ADDED else len(words)
    m.near[k] = [x for x in m.near[k] if not (start <= x.match.first < q.first or x.match.first == after + 1)]
    m.cues[k] = {"to": SAID, "need": SAID, "whole": SAID}


def is_filled(t: list[Token], q: Quantity) -> bool:
    """``my pitcher is 64 oz``, ``the bowl takes 5 l``, ``the 3 l carafe to land at 16 %``: the size of what a drink is
    served from, when it is full."""
    then = t[q.last + 1 : q.last + 4]
    if len(then) > 2 and then[0].stem in SERVED_FROM and then[1].text in BROUGHT and then[2].kind == "word":
        return True
    i, after = q.first - 1, t[q.last + 1].text if q.last + 1 < len(t) else ""
    i -= i > 0 and t[i].text in SIZED
    return i >= 0 and t[i].stem in SERVED_FROM and after not in ("of", "at")


def size_first(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """``how many bottles of 0.7 l gin`` as ``how many 0.7 l bottles of gin``: the size before what is of that size."""
    for i in range(len(tokens) - 4):
        if tokens[i].text not in BOTTLES or tokens[i + 1].text not in OF_A_SIZE:
            continue
        size = number_at(tokens, i + 2)
        unit = lexicon.unit_at(tokens, size.last + 1) if size is not None else None
        if unit is None or lexicon.units[unit[0][0]].dimension != VOLUME:
            continue
        thing = unit[1] + 1 + (unit[1] + 1 < len(tokens) and tokens[unit[1] + 1].text == "of")
        if thing < len(tokens) and any(entry.substances for _, entry in lexicon.begin(tokens, thing)):
            of = replace(tokens[i + 1], kind="word", text="of", stem="of")
            return [*tokens[:i], *tokens[i + 2 : unit[1] + 1], tokens[i], of, *tokens[thing:]]
    return tokens
