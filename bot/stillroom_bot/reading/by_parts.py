"""``2:1:1 rum, lime, syrup``, ``3:1 gin to vermouth``: what goes into a drink by its parts, written as so many parts
of each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from .lexicon import Lexicon
from .numbers import number_at
from .tokens import Token

Span = tuple[int, int]

DRUNK = frozenset({"spirit", "wine", "liqueur"})
"""The kinds of which a drink is made: of two things by parts, both must be (``2:1 sugar to water`` is a syrup)."""
SOUR, JUICE = frozenset("acid acidic acidity sour tart".split()), frozenset({"juice", "fruit"})
"""Where it is asked how sour they are, two juices are such a drink as well."""
TWO = 2
MOST, LARGEST = 8, 60
BETWEEN = frozenset({",", "and", "&", "+", "to", ":", "/", "-", "with"})
LEADING = frozenset({"of", "mix", "blend", "ratio", "in", "a", "the", "at", "is", "=", ",", "parts", "by"})
FILLED = 4


def by_parts(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens with ``2 parts rum, 1 part lime`` for such a ratio and its things; the same where there is none."""
    for i, t in enumerate(tokens):
        if t.kind != "number" or (i and tokens[i - 1].text == ":"):
            continue
        terms, last = _terms(tokens, i)
        if len(terms) < TWO:
            continue
        for first, things in ((i, _after(tokens, last + 1, lexicon)), (None, _before(tokens, i, lexicon))):
            if len(things) == len(terms) and _drink(tokens, things, lexicon):
                begin = things[0][0] if first is None else first
                end = last if first is None else things[-1][1]
                return [*tokens[:begin], *_written(tokens, terms, things), *tokens[end + 1 :]]
    return tokens


def parts_of_a_drink(tokens: list[Token], lexicon: Lexicon) -> bool:
    """Are the parts of a message lines of a spec, and no ratio (``3 parts gin, 1 part vermouth``)?"""
    at = [i for i, t in enumerate(tokens) if t.stem == "part"]
    return len(at) > TWO or (len(at) == TWO and all(_drunk(tokens, i, lexicon) for i in at))


def _drunk(tokens: list[Token], i: int, lexicon: Lexicon) -> bool:
    """Does something that a drink is made of stand after token ``i``?"""
    i += 1 + (tokens[i + 1 : i + 2] != [] and tokens[i + 1].text == "of")
    kinds = DRUNK if SOUR.isdisjoint(t.stem for t in tokens) else DRUNK | JUICE
    return any(e.kinds & kinds for _, e in lexicon.begin(tokens, i)) if i < len(tokens) else False


def _terms(tokens: list[Token], i: int) -> tuple[list[Token], int]:
    """The terms of ``2:1:1``, or of ``3 to 1``, that begin at token ``i``, and the last token of them."""
    terms = [tokens[i]]
    sign = tokens[i + 1].text if i + 1 < len(tokens) else ""
    while sign in (":", "to", "-", "/") and i + 2 < len(tokens) and tokens[i + 1].text == sign:
        number = number_at(tokens, i + 2)
        if number is None or number.last != i + 2 or number.other is not None or not 0 < number.value <= LARGEST:
            break
        if sign in ("-", "/") and not tokens[i + 2].glued:
            break
        terms.append(tokens[i + 2])
        i += 2
    return (terms, i) if len(terms) > TWO or sign in (":", "to") else ([], i)


def _things(tokens: list[Token], i: int, lexicon: Lexicon) -> Iterator[Span]:
    """The names of poured things in a row from token ``i``."""
    while i < len(tokens):
        name = next((n for n, e in lexicon.begin(tokens, i) if e.substances), 0)
        if not name or not lexicon.poured_at(tokens, i):
            return
        yield i, i + name - 1
        i += name
        while i < len(tokens) and tokens[i].text in BETWEEN:
            i += 1


def _after(tokens: list[Token], i: int, lexicon: Lexicon) -> list[Span]:
    """The things that follow a ratio."""
    for k in range(i, min(i + FILLED, len(tokens))):
        if things := list(_things(tokens, k, lexicon)):
            return things
        if tokens[k].text not in LEADING:
            break
    return []


def _before(tokens: list[Token], i: int, lexicon: Lexicon) -> list[Span]:
    """The things that a ratio follows."""
    while i and tokens[i - 1].text in LEADING:
        i -= 1
    for k in range(max(0, i - 4 * MOST), i):
        things = list(_things(tokens, k, lexicon))
        if things and things[-1][1] == i - 1:
            return things
    return []


def _drink(tokens: list[Token], things: list[Span], lexicon: Lexicon) -> bool:
    """Are the things what a drink is made of?"""
    drunk = [_drunk(tokens, a - 1, lexicon) for a, _ in things]
    return any(drunk) if len(things) > TWO else all(drunk)


def _written(tokens: list[Token], terms: list[Token], things: list[Span]) -> Iterator[Token]:
    for k, (term, (a, b)) in enumerate(zip(terms, things, strict=True)):
        if k:
            yield replace(term, kind="mark", text=",", stem=",")
        yield term
        yield replace(term, kind="word", text="parts", stem="part")
        yield from tokens[a : b + 1]
