"""What is said of a number after its unit: imperial, by weight, and a half."""

from __future__ import annotations

from .quantity import Looking, Quantity

OWNED = frozenset("the my our that it this".split())


class SaidAfter(Looking):
    """Reads on behind the unit of a quantity."""

    def _imperial(self, q: Quantity) -> None:
        """``one pint, the imperial one``, ``2 gallons (imperial)``: the kind that is said after the unit."""
        k = q.last + 1
        while k <= q.last + 3 and self._word(k) in (",", "the", "(", "an"):
            k += 1
        kind = f"imperial_{q.units[0]}"
        if self._word(k) == "imperial" and kind in self.lex.units and not self.lex.unit_at(self.t, k):
            ends = k + 1 + (self._word(k + 1) in ("one", "ones", "measure", "kind"))
            q.units, q.last = (kind,), ends - (self._word(ends) != ")")

    def _kind_of_percent(self, q: Quantity) -> None:
        """``8 % (w/w)``, ``42 % alcohol by weight``: the kind that is said after the sign."""
        at = q.last + 1 + (self._word(q.last + 1) == "(")
        hit = self.lex.unit_at(self.t, at)
        if hit and set(hit[0]) & {"percent_ww", "percent_vv", "percent_wv"}:
            q.units, q.last = hit[0], hit[1] + (self._word(hit[1] + 1) == ")")

    def _fraction_like(self, q: Quantity) -> bool:
        of = q.value < 1 and self._word(q.last + 1) == "of"
        return q.value % 1 > 0 and (of or any(t.kind == "word" for t in self.t[q.first : q.last + 1]))

    def _of_them(self, k: int) -> bool:
        """``15 g and a quarter of it is lost``: a part of what was told, and no more of the number."""
        return self._word(k) == "of" and self._word(k + 1) in OWNED | {"them", "these", "those"}

    def _half_after(self, q: Quantity) -> None:
        """``a litre and a half``."""
        j = q.last + 1
        words = [self._word(j + k) for k in range(4)]
        if words[:2] == ["and", "half"] and words[2] in ("of", "") and words[3] not in OWNED:
            q.value, q.last = q.value + 0.5, j + 1
        elif words[:3] in (["and", "a", "half"], ["and", "a", "quarter"]) and not self._of_them(j + 3):
            following = self.lex.unit_at(self.t, j + 3)
            if following is None:
                q.value += 0.5 if words[2] == "half" else 0.25
                q.last = j + 2
