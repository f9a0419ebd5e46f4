"""The rates that an answer is asked in: ``grams per litre``, ``ml of juice is that per kilo``, ``from one kilo ml?``"""

from __future__ import annotations

from .clauses import Clauses
from .quantity import MASS, TIME, VOLUME, Quantity

FAR_AFTER = 8
EACH_OF = frozenset("per each every a by for from".split())
ONE = frozenset("one each every a single".split())


class AskedRates(Clauses):
    """Finds the measure under a unit that is asked in."""

    def _in_one(self, k: int) -> Quantity | None:
        """``how many grams in a litre is that?``: the one measure at token ``k``, of which nothing else is said."""
        q = next((q for q in self.quantities if q.first == k and q.value == 1 and q.units and not q.unsized), None)
        told = q is not None and (self._word(q.last + 1) in ("is", "are", "?", "does", "") or self._ends(q.last + 1))
        return q if told else None

    def _rate(self, names: tuple[str, ...], last: int, first: int) -> tuple[tuple[str, ...], int]:
        """``grams per litre``, ``ml a kilo``: a rate that is asked in."""
        k = last + 1
        if self._word(k) in ("in", "on") and self._word(k + 1) == "the":
            k += 2
            hit = self.lex.unit_at(self.t, k)
            below = hit and self.lex.units[hit[0][0]].dimension in (MASS, VOLUME)
            if hit and below and (self._ends(hit[1] + 1) or self._word(hit[1] + 1) in ("", "is", "are", "does")):
                return tuple(f"{a} / {b}" for a in names for b in hit[0]), hit[1]
            k = last + 1
        if self._word(k) in ("per", "/", "a", "an", "each", "every", "to", "for", "by"):
            k += 1
            if self._word(k) in ("the", "each"):
                k += 1
            hit = (
                self.lex.unit_at(self.t, k)
                if k not in self.taken and self.t[k : k + 1] and self.t[k].stem != "part"
                else None
            )
            if hit is None and k in self.taken:
                for q in self.quantities:
                    if q.first in (k, k - 1) and q.implied and q.units:
                        hit = (q.units, q.last)
            if hit:
                return tuple(
                    f"{a} / {b}" for a in names for b in hit[0] if a in self.lex.units and b in self.lex.units
                ), hit[1]
        one = self._in_one(last + 2) if self._word(last + 1) == "in" else None
        if one is not None and self._dimensions(one.units).isdisjoint(self._dimensions(names)):
            one.noise = "asked"
            return tuple(f"{a} / {b}" for a in names for b in one.units if a in self.lex.units), one.last
        for q in self.quantities:
            if (
                q.implied
                and q.units
                and q.first > last
                and not q.unsized
                and q.value == 1
                and all(not self._ends(k) and k not in self.taken for k in range(last + 1, q.first))
                and self._word(q.first) in ("a", "an")
                and self._word(q.first - 1) in ("that", "is", "it", "i", "we", "get")
                and [self._word(q.first - 1), self._word(q.last + 1)] != ["is", "of"]
            ):
                q.noise = "asked"
                return tuple(f"{a} / {b}" for a in names for b in q.units if a in self.lex.units), last
        return self._per_one(names, first, last) or (names, last)

    def _per_one(self, names: tuple[str, ...], first: int, last: int) -> tuple[tuple[str, ...], int] | None:
        """``how many ml of juice is that per kilo?``, ``from one kilo it is how many ml?``: the measure of which one
        is asked about stands at the end of the question, or before it beside an amount of that measure."""
        own = self.lex.units[names[0]].dimension
        k = last + 1
        while k < len(self.t) and k - last <= FAR_AFTER and not self._ends(k) and k not in self.taken:
            at = k + 1 + (self._word(k + 1) in ONE)
            span = self._unit_span(at) if self._word(k) in EACH_OF else None
            hit = self.lex.unit_at(self.t, at) if span else None
            if hit and self.lex.units[hit[0][0]].dimension not in (own, TIME):
                return tuple(f"{a} / {b}" for a in names for b in hit[0]), hit[1]
            k += 1
        q = next((q for q in reversed(self.quantities) if q.last < first), None)
        if q is None or q.value != 1 or not q.units or q.noise or q.per or self._word(q.first) not in ONE | {"1"}:
            return None
        opens = q.first == 0 or self._ends(q.first - 1) or self._word(q.first - 1) in ("for", "from", "in")
        if own not in (MASS, VOLUME) or not opens or any(self._ends(i) for i in range(q.last, first)):
            return None
        told = (o for o in self.quantities if o is not q and o.units and not (o.noise or o.per))
        if q.units[0] not in self.lex.units or self.lex.units[q.units[0]].dimension == own:
            return None
        if not any(self._same_measure(o, q) for o in told):
            return None
        q.noise = "asked"
        return tuple(f"{a} / {b}" for a in names for b in q.units), last

    def _dimensions(self, names: tuple[str, ...]) -> set[tuple[float, ...]]:
        return {self.lex.units[u].dimension for u in names}

    def _same_measure(self, o: Quantity, q: Quantity) -> bool:
        return self.lex.units[o.units[0]].dimension == self.lex.units[q.units[0]].dimension
