"""A share told by counting: ``one in eight is bad``, ``3 out of 20 limes``, ``every tenth one is mouldy``."""

from __future__ import annotations

from .numbers import number_at
from .quantity import Looking, Quantity

BECOMES = frozenset("is are was were goes go went gets get got turns turn turned comes come end ends ended".split())
"""What is said of so many of them: a verb, and no more of the amount."""
ORDINALS = {"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "eighth": 8, "tenth": 10, "twentieth": 20}
AMONG = frozenset({"in", "out"})
MOST, MOST_NOUN = 100, 3


class OneIn(Looking):
    """Finds how many of how many something is true of."""

    def at(self, i: int) -> Quantity | None:
        """The share that begins at token ``i``, as a percent; None where the second number measures something."""
        if self._word(i) == "every":
            part = ORDINALS.get(self._word(i + 1))
            return Quantity(100 / part, i, i + 1, ("percent",)) if part and self._becomes(i + 2) else None
        if AMONG.isdisjoint(t.text for t in self.t[i + 1 : i + MOST_NOUN + 1]):
            return None
        some = number_at(self.t, i, self.comma)
        if some is None:
            return None
        j = self._among(some.last + 1) or (self._counted(some.last + 1) and self._among(some.last + 2))
        every = number_at(self.t, j, self.comma) if 0 < j < len(self.t) else None
        if every is None or self.lex.unit_at(self.t, every.last + 1):
            return None
        whole = some.value == int(some.value) and every.value == int(every.value)
        if not (whole and 0 < some.value < every.value <= MOST and self._becomes(every.last + 1)):
            return None
        return Quantity(100 * some.value / every.value, i, every.last, ("percent",))

    def _counted(self, k: int) -> bool:
        """Is the thing that is counted named at token ``k`` (``one lime in eight``)?"""
        return k < len(self.t) and self.t[k].kind == "word" and self.lex.unit_at(self.t, k) is None

    def _among(self, k: int) -> int:
        """The token after ``in``, ``in every``, ``out of`` at token ``k``; 0 where none of them stands there."""
        if self._word(k) == "in":
            return k + 1 + (self._word(k + 1) == "every")
        return k + 2 if (self._word(k), self._word(k + 1)) == ("out", "of") else 0

    def _becomes(self, k: int) -> bool:
        """Is it said, here or after the thing that is counted, what is true of them?"""
        for n in range(k, min(k + MOST_NOUN, len(self.t))):
            if self.t[n].kind != "word":
                return False
            if self.t[n].text in BECOMES:
                return True
        return False
