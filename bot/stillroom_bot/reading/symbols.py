"""A technician's symbols in plain words: ``V(syrup) = 2 l`` is 2 l of syrup, ``m(sugar) = ?`` asks for grams of it."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from .tokens import Token

QUANTITIES = {"v": "ml", "vol": "ml", "m": "g"}
"""What each symbol measures is asked for in, where no unit is."""
SHARES = frozenset({"w", "c", "φ"})
SUBSCRIPTED = frozenset({*QUANTITIES, "abv", "bx", "brix", "c"})
TOO_STRONG = frozenset("strong sweet sour weak thick thin bitter salty late".split())
TIMES_OVER = {"twice": "2", "thrice": "3"}
PRESSURES, GAUGE = frozenset({"bar", "psi"}), (["(", "g", ")"], ["(", "gauge", ")"], ["(", "gage", ")"])
"""A pressure is a gauge's unless it is told otherwise."""
RELATED = frozenset("as the its all my our this that".split())
"""After ``twice``, a relation: ``twice the peel``."""
ASKED = (["=", "?"], [":", "?"])
LONGEST_NAME = 4
PARTS, BY = frozenset({"pt", "pts"}), frozenset("weight wt mass volume vol".split())
SYMBOLS = SHARES | SUBSCRIPTED | PARTS | QUANTITIES.keys() | TIMES_OVER.keys() | {"2"}
"""What is written out; a message without any of these is left as it is."""


def in_words(tokens: list[Token]) -> list[Token]:
    """The tokens with such symbols written out; what they stand for in the text stays where it was."""
    if SYMBOLS.isdisjoint(t.text for t in tokens):
        return tokens
    found: list[Token] = []
    tokens = _in_parts(tokens)
    i = 0
    while i < len(tokens):
        t = tokens[i]
        name = _named(tokens, i) if t.text in QUANTITIES or t.text in SHARES else []
        digit = i + 1 + (tokens[i + 1 : i + 2] != [] and tokens[i + 1].text == "_" and tokens[i + 1].glued)
        zero = digit < len(tokens) and tokens[digit].text == "0" and tokens[digit].glued
        ends = i + 2 == len(tokens) or (i + 2 < len(tokens) and tokens[i + 2].kind != "word")
        if t.text == "2" and ends and tokens[i + 1].text in TOO_STRONG:
            found.append(replace(t, kind="word", text="too", stem="too"))
            i += 1
        elif t.text in PRESSURES and [x.text for x in tokens[i + 1 : i + 4]] in GAUGE:
            found.append(t)
            i += 4
        elif name and t.text in SHARES:
            found.append(replace(t, text="strength", stem="strength"))
            i += len(name) + 3
        elif name:
            i += len(name) + 3
            found += name
            if [x.text for x in tokens[i : i + 2]] in ASKED and (i + 2 == len(tokens) or tokens[i + 2].kind != "word"):
                mark = tokens[i + 1]
                unit = replace(mark, kind="word", text=QUANTITIES[t.text], stem=QUANTITIES[t.text], glued=False)
                found += [tokens[i], mark, unit]
                i += 2
        elif t.text in SUBSCRIPTED and zero and tokens[digit + 1 : digit + 2] and tokens[digit + 1].text in "=:":
            found += [replace(t, text="initial", stem="initial"), t]
            i = digit + 1
        elif t.text in TIMES_OVER and (i + 1 == len(tokens) or tokens[i + 1].text not in RELATED):
            times = TIMES_OVER[t.text]
            found += [replace(t, kind="number", text=times, stem=times), replace(t, text="times", stem="time")]
            i += 1
        else:
            found.append(t)
            i += 1
    return found


def _in_parts(tokens: list[Token]) -> list[Token]:
    """``3 pts citric, 2 pts malic by wt``: parts, and no pints, where it is said by what they are."""
    short = [i for i, t in enumerate(tokens) if t.text in PARTS and i and tokens[i - 1].kind == "number"]
    if len(short) < 2 or not any(a.text == "by" and b.text in BY for a, b in pairwise(tokens)):
        return tokens
    return [replace(t, text="parts", stem="part") if i in short else t for i, t in enumerate(tokens)]


def _named(tokens: list[Token], i: int) -> list[Token]:
    """The words in the brackets that follow a symbol directly."""
    if i + 2 >= len(tokens) or tokens[i + 1].text != "(" or not tokens[i + 1].glued:
        return []
    last = i + 2
    while last < len(tokens) and tokens[last].kind == "word" and last - i - 2 < LONGEST_NAME:
        last += 1
    name = tokens[i + 2 : last]
    return name if name and last < len(tokens) and tokens[last].text == ")" else []
