"""The size of a drop, dash or barspoon that is said: ``27 drops per ml``, ``1 ml is 32 drops``, ``0.6 ml a dash``."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from stillroom.units import Unit, Units

from .reading.candidate import VOLUME
from .reading.lexicon import Lexicon
from .reading.quantities import Quantities
from .reading.quantity import Quantity
from .reading.spelling import Speller
from .reading.tokens import Token, stem, tokens_of

PER = frozenset({"per", "to", "too", "/", "a", "an", "each", "every"})
MAKES = frozenset({"=", "is", "are", "makes", "make", "equals", "gives", "holds", "has"})
ARTICLES = frozenset({"a", "an", "the", "one", "each", "every"})
FALLING, MADE = frozenset("get gets got does do measured falls fall".split()), 3
FAR = 9
FILLING = frozenset({"fill", "make", "get", "give"})
TWO_AMOUNTS = 2
"""What counted drops came to, and what is asked of them."""
FARTHEST = 6.0
"""How many times larger or smaller than usual a measure may be said to be; beyond that it is a dose, no size."""
HOW_MANY = re.compile(
    r"\bhow many\b(?=\s*[?.!,]|\s*$|\s(?:is|are|in|for|do|does|will|would|then|now)\b)", re.IGNORECASE
)
OWNED = frozenset({"my", "our", "the", "this"})
COUNTED = frozenset({"count", "counted", "counting", "calibrated"})
DROPPERS = frozenset({"dropper", "pipette"})
ASKING = frozenset({"how", "what", "what's", "which", "whats"})
OF_THEM = re.compile(r"\bof\s+(?:'em|’em|them|those|these)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Size:
    """A measure, its size on the base unit, how it was said, and the characters that say it."""

    unit: Unit
    base: float
    said: str
    start: int
    end: int


class SizeFinder:
    """Finds sizes with the vocabulary of one kernel."""

    def __init__(self, lexicon: Lexicon, units: Units, speller: Speller):
        self.lexicon, self.units, self.speller = lexicon, units, speller
        self.measures = {stem(w.split()[-1]) for u in units if u.adjustable for w in (*u.words, u.name)}
        self.spoken = re.compile("|".join(map(re.escape, sorted(self.measures | DROPPERS))))

    def find(self, text: str) -> list[Size]:
        """The sizes that a text says, in order; a size far from the usual one is none.

        A dropper that is counted and asked about in one breath is a question of its own.
        """
        if not self.spoken.search(text.lower()):
            return []
        tokens = tokens_of(text)
        self.speller.apply(tokens)
        if not any(t.stem in self.measures or t.stem in DROPPERS for t in tokens):
            return []
        asked = next((i for i, t in enumerate(tokens) if t.text in ASKING), None)
        told = any(
            t.text in ("dropper", "pipette") and any(x.text in OWNED for x in tokens[max(0, i - 3) : i])
            for i, t in enumerate(tokens)
        )
        counted = any(
            t.text in COUNTED and not _to_do(tokens, i) and not (t.text == "counting" and _numbered(tokens, i + 1))
            for i, t in enumerate(tokens)
        )
        quantities = Quantities(tokens, self.lexicon).find()
        if asked is not None and counted and not told and sum(map(self._poured, quantities)) < TWO_AMOUNTS:
            return []
        found: list[Size] = []
        for size in self._sizes(tokens, quantities):
            usual = size.unit.factor if size.unit.sized else 0.0
            near = usual > 0 and usual / FARTHEST <= size.base <= usual * FARTHEST
            if near and not (found and size.start < found[-1].end):
                found.append(size)
        return found

    def _sizes(self, tokens: list[Token], quantities: list[Quantity]) -> Iterator[Size]:
        for k, q in enumerate(quantities):
            following = quantities[k + 1] if k + 1 < len(quantities) else None
            if q.value <= 0 or q.noise or (q.implied and tokens[q.first].text not in ARTICLES):
                continue
            unit = self._measure(q) or self._dropper(tokens, q)
            if unit is not None:
                yield from self._rate(tokens, q, unit, following)
            elif self._volume(q):
                yield from self._volume_first(tokens, q, following)

    def _rate(self, tokens: list[Token], q: Quantity, unit: Unit, following: Quantity | None) -> Iterator[Size]:
        """``24 drops to the ml``, ``34 drops a mil``, ``20 drops in 1 ml``."""
        i = q.last + 1
        if following is not None and following.first == i and self._volume(following) and following.value == 1:
            yield self._size(tokens, unit, q, 1.0 * self._base(following), q.first, following.last)
            return
        i += 2 * (i + 2 < len(tokens) and tokens[i].text == "of" and tokens[i + 2].text in PER | {"for", "in"})
        i += i + 1 < len(tokens) and tokens[i].text == "for" and tokens[i + 1].text in ("every", "each")
        word = tokens[i].text if i < len(tokens) else ""
        if word == "out" and tokens[i + 1 : i + 2] and tokens[i + 1].text == "of":
            i, word = i + 1, "from"
        if word == "from" and not _made(tokens, q.first):
            return
        dropper = any(t.stem in DROPPERS for t in tokens[max(0, q.first - FAR) : q.first])
        if word == "for" and not dropper:
            return
        filled = i + 1 + (word == "for" and [t.text for t in tokens[i + 1 : i + 2]] == ["to"])
        i = filled if dropper and filled < len(tokens) and tokens[filled].text in FILLING else i
        if word not in PER | MAKES | {"in", "from", "for"}:
            return
        j = i + 1
        article = j < len(tokens) and tokens[j].text in ARTICLES
        if following is not None and following.first <= j and self._volume(following):
            told = dropper and word in ("for", "to")
            if told or following.value == 1 or word in MAKES | {"per"} or any(t.stem in COUNTED for t in tokens):
                yield self._size(tokens, unit, q, self._base(following), q.first, following.last)
            return
        hit = self.lexicon.unit_at(tokens, j + article)
        one = article or word in ("per", "/", "to", "every", "each")
        if hit and one and self.units[hit[0][0]].name == "milliliter":
            yield self._size(tokens, unit, q, 1.0, q.first, hit[1])

    def _volume_first(self, tokens: list[Token], q: Quantity, following: Quantity | None) -> Iterator[Size]:
        """``1 ml is 32 drops``, ``0.6 ml a dash``, ``0.6 ml per dash``."""
        i = q.last + 1
        word = tokens[i].text if i < len(tokens) else ""
        if following is not None and (unit := self._measure(following)) is not None and following.value > 0:
            made = word in MAKES and following.first == i + 1 and q.value == 1
            if made or (following.first == i and following.value == 1 and word in PER):
                yield self._size(tokens, unit, following, self._base(q), q.first, following.last)
            return
        hit = self.lexicon.unit_at(tokens, i + 1) if word in ("per", "/") and i + 1 < len(tokens) else None
        if hit and self.units[hit[0][0]].adjustable:
            yield self._size(tokens, self.units[hit[0][0]], None, self._base(q), q.first, hit[1])

    def _size(
        self, tokens: list[Token], unit: Unit, count: Quantity | None, volume: float, first: int, last: int
    ) -> Size:
        n = count.value if count is not None else 1.0
        said = f"{n:g} {unit.words[0]}s to {volume:g} ml" if n != 1 else f"{volume:g} ml"
        return Size(unit, volume / n, said, tokens[first].start, tokens[last].end)

    def _dropper(self, tokens: list[Token], q: Quantity) -> Unit | None:
        """``my dropper does 30 per ml``: drops, where a dropper is spoken of just before the number."""
        before = {t.stem for t in tokens[max(0, q.first - 4) : q.first]}
        return self.units["drop"] if q.bare and before & {"dropper", "pipette"} else None

    def _measure(self, q: Quantity) -> Unit | None:
        return next((self.units[u] for u in q.units if self.units[u].adjustable), None)

    def _volume(self, q: Quantity) -> bool:
        return bool(q.units) and not q.unsized and self.units[q.units[0]].dimension == VOLUME and q.per is None

    def _poured(self, q: Quantity) -> bool:
        return self._volume(q) and not q.noise and self._measure(q) is None

    def _base(self, q: Quantity) -> float:
        return q.value * self.units[q.units[0]].factor


def _made(tokens: list[Token], first: int) -> bool:
    """``it makes 40 drops from one ml``: are the drops before token ``first`` what a dropper makes, or were counted?"""
    return any(t.text in MAKES | COUNTED | FALLING for t in tokens[max(0, first - MADE) : first])


def _numbered(tokens: list[Token], i: int) -> bool:
    """``counting 20 drops to the millilitre``: so many are taken, and none are counted here."""
    return i < len(tokens) and tokens[i].kind == "number"


def _to_do(tokens: list[Token], i: int) -> bool:
    """``how many drops do I count``: what is still to be counted, at token ``i``."""
    return [t.text for t in tokens[max(0, i - 2) : i]] in (["do", "i"], ["do", "we"], ["should", "i"], ["should", "we"])


def without(text: str, sizes: list[Size]) -> str:
    """The text without what it says of sizes."""
    left, at = [], 0
    for size in sizes:
        left.append(text[at : size.start])
        at = size.end
    return "".join([*left, text[at:]])


def with_names(text: str, names: str) -> str:
    """``how many?`` and ``60 of 'em``, where a measure was told before: with the measure's name."""
    return OF_THEM.sub(names, HOW_MANY.sub(f"how many {names}", text))
