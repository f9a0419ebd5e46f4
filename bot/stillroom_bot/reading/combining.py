"""Numbers that belong together: shared units, sums, rates, spans of time, so many times over."""

from __future__ import annotations

from itertools import pairwise

from stillroom.units import NONE

from .candidate import HEAT
from .costed import pour_costed
from .elapsed import Elapsed
from .lexicon import Lexicon, stop_words
from .numbers import HALVED
from .quantity import MONEY_ASKED, TIME, VOLUME, Looking, Quantity
from .rates import BREAKS, Rates
from .tokens import Token

VESSELS = frozenset(
    """bottle can keg carton tin jug tub bag box fill batch glass pour shot litre container jar bucket crock cask barrel
    carboy""".split()
)
PORTIONS = frozenset("serve serving portion pour glass cup cocktail drink shot".split())
CHARGERS = frozenset("charger cartridge bulb capsule n2o".split())
"""``6 x 8 g chargers``: so many of them, and the size of one."""
SPOONS = frozenset({"teaspoon", "tablespoon", "metric_teaspoon", "metric_tablespoon"})
SERVED = VESSELS | PORTIONS | frozenset("person people guest head pax ppl cover".split())
EACH = frozenset({"each", "apiece"})
PLURAL = frozenset({"bitter", "spirit", "lee"})
"""What is poured, and said in the plural."""
ENDING = frozenset({"and", "for", "to", "from", "per"})
PART_OF = [[*of, w] for of in ([], ["of"]) for w in ("the", "my", "our", "this", "that", "those", "these")]
LEAST_POURED, MOST_PARTS, FEWEST_LINES = 5, 4, 3
LARGE, TOO_MANY = frozenset({"liter", "gallon", "imperial_gallon"}), 10
TO = (["to"], ["down", "to"], ["up", "to"])
JOIN = frozenset({"to", "from", "and", "or", "-", "down", "up", ","})


class Combining(Looking):
    """Works on the quantities of a message in place, in the order in which they were found."""

    def __init__(self, tokens: list[Token], lexicon: Lexicon, found: list[Quantity]):
        super().__init__(tokens, lexicon)
        self.found = found

    def combined(self) -> list[Quantity]:
        """The quantities with everything that one of them says about another."""
        pour_costed(self.t, self.lex, self.found)
        self._share_units()
        self._listed()
        self._unspoken()
        self._parts_of_amounts()
        self._sums()
        self.found = Rates(self.t, self.lex, self.found).joined()
        self.found = Elapsed(self.t, self.lex).told(self.found)
        self._products()
        return self.found

    def _share_units(self) -> None:
        """``from 60 to 40 %``, ``2 or 3 oz``: a bare number takes the unit of its neighbour."""
        for a, b in pairwise(self.found):
            between = [self._word(k) for k in range(a.last + 1, b.first)]
            if (
                a.bare
                and not a.noise
                and b.units
                and not b.money
                and not b.noise
                and between
                and len(between) <= 3
                and all(w in JOIN or w in ("it", "up", "then") for w in between)
                and ("to" in between or "or" in between or "-" in between)
                and not b.implied
            ):
                a.units, a.money = b.units, b.money
            from_to = between in TO and self._word(a.first - 1) == "from"
            if from_to and b.bare and not (a.noise or b.noise) and self._degrees(a):
                b.units, b.weak = a.units, False

    def _degrees(self, q: Quantity) -> bool:
        """A temperature or a strength: ``from 22 C to 1``, ``from 60 brix down to 50``."""
        return q.strength or (bool(q.units) and self._dimension(q) == HEAT)

    def _listed(self) -> None:
        """``2 oz rye, 1 oz vermouth, 2 dashes bitters``: one of a measure is as much a line as two are."""
        lines = [q for q in self.found if q.units and not (q.noise or q.implied) and self._poured(q)]
        for q in lines if len(lines) >= FEWEST_LINES else ():
            q.weak = False

    def _unspoken(self) -> None:
        """``50 ml rum 25 lime 20 syrup``, ``40 gin 20 vermouth (ml)``: a bare number of something poured takes the
        volume unit of the list; beside litres, what would be ten litres of it and more is millilitres."""
        unit: tuple[str, ...] = ()
        poured = [
            q for q in self.found if q.bare and not q.noise and not q.weak and self._poured(q)
        ]
        places = {q.first for q in poured}
        for q in self.found if poured else ():
            if (
                q.units
                and not (q.implied or q.unsized or q.noise)
                and self._dimension(q) == VOLUME
                and self.lex.units[q.units[-1]].sized
                and (self.lex.poured_at(self.t, q.last + 1) or not unit)
            ):
                unit = q.units
            elif q.first in places and unit and not (unit[-1] in LARGE and q.value >= TOO_MANY):
                q.units, q.noted = unit, True
            elif q.first in places and unit[-1:] == ("liter",):
                q.units, q.noted = ("milliliter",), True
        if not unit and len(poured) > 1:
            for i, t in enumerate(self.t):
                hit = (
                    self.lex.unit_at(self.t, i) if t.kind == "word" and self._word(i - 1) in ("(", "in", ",") else None
                )
                if hit and self.lex.units[hit[0][0]].dimension == VOLUME:
                    for q in poured:
                        q.units, q.noted = hit[0], True
                    return
        self._unsaid_list()

    def _unsaid_list(self) -> None:
        """``60 rum, 30 lime, 20 syrup``: the bare numbers of a list of poured things are millilitres, if they are
        larger than ounces of a drink would be; ``2 rum, 1 lime, 1 syrup`` are parts."""
        poured = [q for q in self.found if q.bare and not (q.noise or q.factor) and self._poured(q)]
        liquid = [q for q in poured if not self.lex.fruit_at(self.t, q.last + 1)]
        before = self.found[: self.found.index(poured[-1])] if poured else []
        measured = (q for q in before if q.units and not (q.implied or q.noise or q.unsized))
        if len(poured) < 2 or not liquid or self._sums_of_money(poured):
            return
        if any(self._dimension(q) == VOLUME and self._poured(q) for q in measured):
            return
        first, last = self.found.index(poured[0]), self.found.index(poured[-1])
        places = {q.first for q in poured}
        listed = [q for q in self.found[first : last + 1] if q.first in places or self._named(q)]
        values = [q.value for q in listed]
        unit = "milliliter" if min(values) >= LEAST_POURED and max(values) >= 2 * LEAST_POURED else ""
        unit = "part" if max(values) <= MOST_PARTS and len(listed) > 2 else unit
        for q in listed if unit else ():
            q.units, q.noted, q.weak = (unit,), True, False

    def _sums_of_money(self, listed: list[Quantity]) -> bool:
        """``rum 0.98, lime 0.22: pour cost?``: what each thing costs, where money is asked about."""
        texts = [self.t[q.first].text for q in listed]
        written = all(len(x) > 3 and x[-3] in ".," for x in texts)
        return written and any(t.stem in MONEY_ASKED for t in self.t)

    def _poured(self, q: Quantity) -> bool:
        """Is a number of something poured (``120 vodka sodas`` are counted)?"""
        if not self.lex.poured_at(self.t, q.last + 1):
            return False
        for i in range(q.last + 1, min(q.last + 4, len(self.t))):
            t = self.t[i]
            if t.kind != "word" or t.text in stop_words() or t.text == "times":
                break
            if t.text != t.stem and t.stem not in PLURAL:
                return False
        return True

    def _named(self, q: Quantity) -> bool:
        """A bare number of some thing that nobody described."""
        i = q.last + 1
        plain = q.bare and not (q.noise or q.weak or q.factor or q.rejected)
        return plain and i < len(self.t) and self.t[i].kind == "word" and not self.lex.known(self.t[i].stem)

    def _parts_of_amounts(self) -> None:
        """``half of my 5 l``, ``a third of the 75 cl``: a part of an amount that is told with it."""
        kept: list[Quantity] = []
        for q in self.found:
            a = kept[-1] if kept else None
            between = [self._word(k) for k in range(a.last + 1, q.first)] if a is not None else []
            if (
                a is not None and a.bare and not a.noise and 0 < a.value < 1 and self.t[a.first].kind == "word"
                and q.units and not (q.noise or q.strength or q.money or q.unsized or q.implied or q.per)
                and (between in PART_OF or (not between and self._word(a.last) == "of"))
            ):
                q.value, q.first = a.value * q.value, a.first
                kept.pop()
            kept.append(q)
        self.found = kept

    def _sums(self) -> None:
        """``1 1/2 cups + 2 tbsp``, ``2 lb 3 oz``: one amount said in two units."""
        merged: list[Quantity] = []
        for q in self.found:
            a = merged[-1] if merged else None
            if a is not None and self._cents(a, q):
                a.value, a.last, a.units = a.value + q.value, q.last, q.units
                continue
            if (
                a is not None
                and a.units
                and q.units
                and not (a.noise or q.noise or a.money or q.money or a.unsized or q.unsized)
            ):
                between = [self._word(k) for k in range(a.last + 1, q.first)]
                shared = [
                    u
                    for u in q.units
                    if any(self.lex.units[u].dimension == self.lex.units[v].dimension != NONE for v in a.units)
                ]
                if shared and (
                    between in (["+"], ["plus"])
                    or (not between and a.units != q.units and a.value >= 1 and self._smaller(a, q) and self._old(a))
                    or (
                        between == ["and"]
                        and a.units != q.units
                        and self._smaller(a, q)
                        and (a.value == int(a.value) or bool(SPOONS & set(q.units)))
                    )
                ):
                    for v in a.units:
                        same = [u for u in shared if self.lex.units[u].dimension == self.lex.units[v].dimension]
                        if same:
                            a.value += q.value * self.lex.units[same[0]].factor / self.lex.units[v].factor
                            a.units, a.last = (v,), q.last
                            break
                    continue
            merged.append(q)
        self.found = merged

    def _cents(self, a: Quantity, q: Quantity) -> bool:
        """``two euros and ten cents``: an amount of money, and what is said of it in hundredths."""
        between = [self._word(k) for k in range(a.last + 1, q.first)]
        money = "currency" in a.units and q.units == ("currency",) and bool(q.money)
        return money and between in ([], ["and"]) and a.value == int(a.value) and 0 < q.value < 1

    def _old(self, q: Quantity) -> bool:
        """Is an amount in a measure whose parts are said after it (``2 lb 3 oz``), which a litre's are not?"""
        return not any(self.lex.units[u].system == "metric" or u in ("liter", "kilogram") for u in q.units)

    def _smaller(self, a: Quantity, q: Quantity) -> bool:
        large = self.lex.units[a.units[0]]
        return any(
            small.dimension == large.dimension and q.value * small.factor < large.factor
            for small in (self.lex.units[u] for u in q.units)
        )

    def _products(self) -> None:
        """``4 x 500 ml``, ``two 700 ml bottles``, ``3 bottles of 70 cl``: an amount so many times over."""
        for k, (a, b) in enumerate(pairwise(self.found)):
            if not (
                a.bare
                and b.units
                and not b.strength
                and not (a.noise or b.noise or b.money or b.unsized or b.implied)
                and (b.per is None or self.lex.units[b.per[0]].dimension == TIME)
                and 2 <= a.value <= 500
                and (a.value == int(a.value) or (a.last + 1 == b.first and self._stem(b.last + 1) in VESSELS))
                and not (self._stem(a.last + 1) in SERVED and self._of_a_spec(b))
            ):
                continue
            between = [self._stem(i) for i in range(a.last + 1, b.first)]
            after = self._stem(b.last + 1)
            if between == ["x"] and after in CHARGERS:
                self.t[a.last + 1].text = self.t[a.last + 1].stem = "charger"
                continue
            each = self._for_each(b.last + 1)
            if (
                between in (["x"], ["*"], ["times"])
                or (between in (["at"], ["@"]) and self._word(a.first - 1) == "for")
                or (not between and (after in VESSELS or self._halves(b)))
                or (len(between) in (2, 3) and between[0] in SERVED and between[-1] in ("of", "at", "@"))
                or (each and 0 < len(between) < 5 and between[0] in VESSELS and not set(between) & BREAKS)
                or (len(between) == 2 and between[1] in ("at", "@") and self._word(a.last + 1) != between[0])
                or (
                    each
                    and 1 < len(between) < 5
                    and between[-1] in ("of", "at", "@", "with")
                    and not set(between) & BREAKS - {"of", "at", "with"}
                )
            ):
                b.times = (k, a.value)
                a.weak, a.factor = True, between in (["x"], ["*"], ["times"])
        self._portions()

    def _halves(self, q: Quantity) -> bool:
        """``three half pints``: parts of a measure, of which there are so many."""
        return self._word(q.first) in ("half", "quarter") and self._word(q.last) in HALVED

    def _of_a_spec(self, q: Quantity) -> bool:
        """Is an amount one of several that are poured, so that ``30 serves`` before it are so many of them all?"""
        lines = [o for o in self.found if o.units and not (o.noise or o.strength) and self._poured(o)]
        return len(lines) > 1 and any(o.first == q.first for o in lines)

    def _for_each(self, i: int) -> bool:
        """``30 ml each``, ``30 ml orange juice inside each``: is an amount said of each, before the clause ends?"""
        for k in range(i, i + 5):
            if self._word(k) in EACH:
                return True
            if self._word(k) in ENDING or k >= len(self.t) or self.t[k].kind != "word":
                return False
        return False

    def _portions(self) -> None:
        """``serve 90 ml, 80 serves``, ``portion 45 ml, n = 60``: an amount and, beside it, how many of them."""
        for k, (a, b) in enumerate(pairwise(self.found)):
            for size, count, n in ((a, b, k + 1), (b, a, k)):
                if (
                    size.times
                    or not size.units
                    or size.per
                    or size.strength
                    or size.noise
                    or not (
                        count.bare and not count.noise and count.value == int(count.value) and 2 <= count.value <= 500
                    )
                ):
                    continue
                names = {self._stem(size.first - 1), self._stem(size.last + 1)} & PORTIONS
                said = self._stem(count.last + 1) in names or (
                    self._word(count.first - 1) == "=" and self._word(count.first - 2) == "n"
                )
                if names and said and not self._of_a_spec(size):
                    size.times = (n, count.value)
                    count.weak = True
                    break
