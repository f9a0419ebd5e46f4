"""``gin 45 ml, lemon 20 ml, syrup 15 ml``: a list with each thing before its amount, put the other way round."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from stillroom.units import PERCENTS

from .candidate import MASS, VOLUME
from .lexicon import Lexicon, stop_words
from .numbers import number_at
from .tokens import Token

BETWEEN = frozenset({",", ";", "\n", "+", "and", "&", "|", "/"})
BULLETS = frozenset("-*•·")
WITHIN = frozenset({":", "=", "-"})
FEWEST = 2
THING, AMOUNT, STRENGTH, BREAK = "thing", "amount", "strength", "break"


@dataclass(slots=True)
class Part:
    """A thing, an amount or a strength of a list: the tokens ``first`` to ``last``.

    ``known`` is a thing that is a substance, or an amount that stands for itself (not ``1.5 x all of it``);
    ``poured`` a thing that is liquid.
    """

    kind: str
    first: int
    last: int
    known: bool = False
    poured: bool = False


def amounts_first(tokens: list[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens with every thing of such a list after its amount; the same tokens where there is none.

    A list is a row of things and amounts by turns, that begins with a thing and ends with an amount, with what
    parts it, if anything, after each amount.
    """
    named, told_after = stop_words(), 0
    for a, b in pairwise(tokens):
        thing = b.kind == "number" and a.kind == "word" and (a.text not in named or a.stem in lexicon.starts)
        told_after += thing or a.text in WITHIN
    if told_after < FEWEST:
        return tokens
    told: list[Token] = []
    run: list[Part] = []
    at = 0
    for part in [*_parts(tokens, lexicon), Part(BREAK, len(tokens), len(tokens) - 1)]:
        if part.kind in (THING, AMOUNT, STRENGTH):
            run.append(part)
            continue
        headed = part.kind == "\n" and all(p.kind != THING for p in run)
        if part.kind in BETWEEN and run and run[-1].kind != THING and not headed:
            continue
        if part.kind in WITHIN and run and run[-1].kind == THING:
            continue
        told += [*tokens[at : run[0].first], *_turned(tokens, run)] if run else []
        at = run[-1].last + 1 if run else at
        run = []
    told += tokens[at:]
    for before, a, b in zip(told, told[1:], told[2:], strict=False):
        if a.text == "x" and b.kind == "number" and before.kind != "number":
            a.text = a.stem = "times"
    return told


def _parts(tokens: list[Token], lexicon: Lexicon) -> list[Part]:
    parts: list[Part] = []
    i = 0
    while i < len(tokens):
        part = _part(tokens, i, lexicon)
        if part.kind == THING and parts and parts[-1].kind == THING:
            a = parts[-1]
            a.last, a.known, a.poured = part.last, a.known or part.known, a.poured or part.poured
        else:
            parts.append(part)
        i = part.last + 1
    return parts


def _part(tokens: list[Token], i: int, lexicon: Lexicon) -> Part:
    t = tokens[i]
    number = number_at(tokens, i) if t.kind in ("number", "fraction") else None
    if number is not None:
        unit = lexicon.unit_at(tokens, number.last + 1)
        if unit is None:
            return Part(AMOUNT, i, number.last, known=_plain(tokens, number.last + 1))
        first = lexicon.units[unit[0][0]]
        measured = first.dimension in (MASS, VOLUME)
        return Part(AMOUNT if measured else STRENGTH if first.kind in PERCENTS else BREAK, i, unit[1], known=True)
    for n, entry in lexicon.begin(tokens, i) if t.stem in lexicon.starts else ():
        if entry.substances:
            return Part(THING, i, i + n - 1, True, any(s.state == "liquid" for s in entry.substances))
    if t.text in BULLETS and (i == 0 or tokens[i - 1].text == "\n"):
        return Part("\n", i, i)
    if t.text in BETWEEN or t.text in WITHIN:
        return Part(t.text, i, i)
    named = t.kind == "word" and len(t.text) > 2 and t.text not in stop_words() and not lexicon.known(t.stem)
    return Part(THING if named else BREAK, i, i)


def _over(run: list[Part]) -> int | None:
    """Where a second amount follows an amount: the rest is not of the list (``lime 25, 45 of them``)."""
    before = ""
    for k, p in enumerate(run):
        if p.kind == AMOUNT == before and k >= 2 * FEWEST:
            return k
        before = p.kind if p.kind != STRENGTH else before
    return None


def _plain(tokens: list[Token], i: int) -> bool:
    """Is a bare number done with before token ``i``: no ``x`` or ``times`` of something after it?"""
    times = i < len(tokens) and tokens[i].text in ("x", "times", "*")
    return not times or (i + 1 < len(tokens) and tokens[i + 1].kind == "number")


def _turned(tokens: list[Token], run: list[Part]) -> list[Token]:
    """A run of parts, turned if it is a list with its things first, else as it stands."""
    plain = tokens[run[0].first : run[-1].last + 1]
    if (over := _over(run)) is not None:
        return [*_turned(tokens, run[:over]), *tokens[run[over - 1].last + 1 : run[-1].last + 1]]
    kinds = [p.kind for p in run if p.kind != STRENGTH]
    if len(kinds) < 2 * FEWEST or kinds != [THING, AMOUNT] * (len(kinds) // 2):
        return plain
    things = [p for p in run if p.kind == THING]
    if sum(p.known for p in things) < FEWEST or not all(p.known for p in run if p.kind == AMOUNT):
        return plain
    if len(things) == FEWEST and not all(p.poured for p in things):
        return plain
    told: list[Token] = []
    held: list[Part] = []
    end = run[0].first
    for p in run:
        if p.kind == AMOUNT:
            told += tokens[p.first : p.last + 1]
            told += [t for h in held for t in tokens[h.first : h.last + 1]]
            held, end = [], p.last + 1
        else:
            if not held:
                told += tokens[end : p.first]
            held.append(p)
    told += [t for h in held for t in tokens[h.first : h.last + 1]]
    after = tokens[run[-1].last + 1] if run[-1].last + 1 < len(tokens) else None
    if after is not None and after.kind == "word" and after.text not in ("x", "times"):
        told.append(Token("line", "\n", after.start, after.start, "\n"))
    return told


__all__ = ["amounts_first"]
