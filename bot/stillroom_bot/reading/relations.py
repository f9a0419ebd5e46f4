"""So many times another thing, in words: ``sugar = 1.2 x the peel``, ``half of the peel's weight``, ``twice it``."""

from __future__ import annotations

from .numbers import Number
from .quantity import Looking, Quantity

TIMES = frozenset({"x", "*", "times"})
BEING = frozenset("is are = : be must should of to weighs was makes at".split())
OWN = frozenset("the all its my our this that whole as much".split())
MEASURE = frozenset("weight mass volume".split())
MULTIPLES = {"twice": 2.0, "double": 2.0, "thrice": 3.0, "triple": 3.0}
POURED = frozenset({"drink", "punch"})
PERCENT = frozenset({"%", "percent", "pct"})
MORE = {"more": 1.0, "less": -1.0}
MOST_BEING, MOST_TIMES = 4, 20


class Relations(Looking):
    """Finds the relation of two things that a number states."""

    def multiple(self, i: int) -> Quantity | None:
        """``twice the peel``, ``double its weight of sugar``: a relation that begins with one word."""
        times = MULTIPLES.get(self._word(i))
        return self.at(Number(times, i, i, worded=True)) if times is not None else None

    def at(self, a: Number) -> Quantity | None:
        """The relation that begins with number ``a``: the thing before it to the one after it."""
        if a.other is not None or a.value <= 0:
            return None
        if self._word(a.last + 1) == "as":
            return self._as_much(a)
        times, after = self._times(a)
        if not 0 < times <= MOST_TIMES:
            return None
        while self._word(after) in OWN:
            after += 1
        right = self._thing(self.lex.name_after(self.t, after - 1))
        left = self._thing(self._before(a.first))
        if right is None or left is None or right[0] != after or self._stems(right) == self._stems(left):
            return None
        last = right[1] + (self._stem(right[1] + 1) in MEASURE)
        return Quantity(times, a.first, last, ratio=(times, 1.0), names=(left, right))

    def _as_much(self, a: Number) -> Quantity | None:
        """``half as much sugar as peel``."""
        if self._word(a.last + 2) != "much":
            return None
        left = self._thing(self.lex.name_after(self.t, a.last + 2))
        if left is None or self._word(left[1] + 1) != "as":
            return None
        right = self._thing(self.lex.name_after(self.t, left[1] + 1))
        if right is None:
            return None
        return Quantity(a.value, a.first, right[1], ratio=(a.value, 1.0), names=(left, right))

    def _times(self, a: Number) -> tuple[float, int]:
        """How many times the thing that follows, and where that begins; 0 if nothing is related."""
        word, after = self._word(a.last + 1), a.last + 2
        if self._word(a.first) in MULTIPLES and word in OWN:
            return a.value, a.last + 1
        if word in TIMES:
            return a.value, after
        if word in MORE and self._word(after) == "than" and a.value < 1:
            return 1.0 + MORE[word] * a.value, after + 1
        if word in PERCENT and self._word(after) in MORE and self._word(after + 1) == "than":
            return 1.0 + MORE[self._word(after)] * a.value / 100, after + 2
        if a.value < 1 and any(t.kind == "word" for t in self.t[a.first : a.last + 1]):
            if word == "of":
                return a.value, after
            if self._word(a.last) == "of":
                return a.value, a.last + 1
        return 0.0, 0

    def _before(self, first: int) -> tuple[int, int] | None:
        """The name before a number, and before what says that it is so much."""
        k = first
        while first - k < MOST_BEING and self._word(k - 1) in BEING:
            k -= 1
        return self.lex.name_before(self.t, k)

    def _thing(self, span: tuple[int, int] | None) -> tuple[int, int] | None:
        """A name that is known as a thing, and as more than a word of some job."""
        entry = self.lex.entries.get(self._stems(span)) if span is not None else None
        named = entry is not None and (bool(entry.substances) or entry.stems[0] in POURED)
        return span if named else None

    def _stems(self, span: tuple[int, int]) -> tuple[str, ...]:
        return tuple(t.stem for t in self.t[span[0] : span[1] + 1])
