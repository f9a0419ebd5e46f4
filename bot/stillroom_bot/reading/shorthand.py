"""``4`` and ``2`` for the words for and to, as people in a hurry write them: ``sugar 4 oleo``, ``2 lime strength``."""

from __future__ import annotations

from itertools import takewhile

from .numbers import Number, number_at
from .quantity import STRENGTHS, Looking

TO_DO = frozenset("order get buy make do use go the load put add fill mix cut bring prep top serve pour".split())
TOO = frozenset("much many strong sweet sour weak thick thin bitter salty late".split())
SOLD, SOLD_THING = frozenset("sell charge ask price".split()), frozenset("it this that them these those one".split())
WHAT, CLAUSE_ENDS = frozenset("what what's whats how".split()), frozenset({"", ".", ",", ";", "?", "!", "\n"})
POINTING = frozenset("the a my our it this that them us".split())
LEVELS, WITHIN = frozenset("strength level acidity sharpness".split()), 3
ASKING, ASKED_WITHIN = frozenset({"much", "many"}), 4


class Shorthand(Looking):
    """Tells the digits that stand for a word."""

    def of(self, n: Number) -> bool:
        """Does a number stand for a word that sounds like it?"""
        if n.first != n.last or self.t[n.first].text not in ("2", "4"):
            return False
        return self._for(n) if self.t[n.first].text == "4" else self._to(n)

    def _to(self, n: Number) -> bool:
        """``2 much``, ``bottles 2 order``, ``grapefruit 2 lime strength``, ``rum 2 40 %``."""
        after = self._word(n.last + 1)
        if after in TOO:
            return True
        if self.t[n.first].glued:
            return False
        if not self._after_a_word(n):
            return after in TO_DO or (self._word(n.first - 1) == "%" and self._strength(n))
        level = next((k for k in range(WITHIN) if self._word(n.last + 2 + k) in LEVELS), None)
        like = level is not None and self._thing_until(n.last + 1, level)
        return after in TO_DO or like or self._strength(n)

    def _thing_until(self, i: int, last: int) -> bool:
        """Is what stands at token ``i``, and for so many more, one thing in the singular (``lemon juice``)?"""
        named = (e for k, e in self.lex.begin(self.t, i) if k == last + 1 and e.substances)
        return any(True for _ in named) and self.t[i + last].text == self.t[i + last].stem

    def _strength(self, n: Number) -> bool:
        """``rum 2 40 %``: does a strength follow at once?"""
        strength = number_at(self.t, n.last + 1, self.comma) if self._digits(n.last + 1) else None
        hit = self.lex.unit_at(self.t, strength.last + 1) if strength is not None else None
        return hit is not None and not STRENGTHS.isdisjoint(hit[0])

    def _for(self, n: Number) -> bool:
        """``it 4``, ``what do I sell it 4?``, ``sugar 4 the oleo``, ``sugar 4 1 kg``, ``how much sugar 4 oleo``."""
        after = self._word(n.last + 1)
        if after in ("", "?") and self._word(n.first - 1) in ("it", "them", "that"):
            return True
        if self._what_for(n.first):
            return True
        if not self._after_a_word(n) or n.last + 1 >= len(self.t):
            return False
        return after in POINTING or self._digits(n.last + 1) or self._asked_for(n)

    def _asked_for(self, n: Number) -> bool:
        """``how much sugar 4 oleo``: is so much asked of a thing, and what follows no thing that is counted?"""
        before = (self._word(n.first - k) for k in range(1, ASKED_WITHIN))
        said = list(takewhile(lambda w: w not in CLAUSE_ENDS, before))
        asked = next((k for k, w in enumerate(said) if w in ASKING), 0)
        one = self.t[n.last + 1].kind == "word" and self.t[n.last + 1].text == self.t[n.last + 1].stem
        counted = any("fruit" in e.kinds or any(s.state == "piece" for s in e.substances)
                      for _, e in self.lex.begin(self.t, n.last + 1))
        return bool(asked) and one and not counted and self.lex.unit_at(self.t, n.last + 1) is None and (
            self.lex.known(self._stem(n.last + 1)))

    def _after_a_word(self, n: Number) -> bool:
        return n.first > 0 and self.t[n.first - 1].kind == "word"

    def _digits(self, i: int) -> bool:
        return i < len(self.t) and self.t[i].kind == "number" and number_at(self.t, i, self.comma) is not None

    def _what_for(self, i: int) -> bool:
        """``what do I sell it 4?``: does a clause that asks for a price end in the number at token ``i``?"""
        if self._word(i + 1) not in ("", "?", ".", "\n") or self._word(i - 1) not in SOLD | SOLD_THING:
            return False
        before = [self._word(i - k) for k in range(1, 8)]
        said = list(takewhile(lambda w: w not in CLAUSE_ENDS, before))
        return not SOLD.isdisjoint(said) and not WHAT.isdisjoint(said)
