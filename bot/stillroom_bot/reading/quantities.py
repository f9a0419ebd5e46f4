"""What the numbers of a message measure: amounts with their units, rates, ratios, counts, and noise."""

from __future__ import annotations

from collections.abc import Sequence

from .candidate import HEAT
from .clauses import SENTENCE_ENDS
from .combining import Combining
from .lexicon import Lexicon
from .noise import Noise
from .numbers import NUMERIC, OPENING, Number, number_at
from .one_in import OneIn
from .quantity import BOTTLE_LITRES, HOMOPHONES, HUNDREDTHS, MASS, MONEY, MONEY_ASKED, VOLUME, Quantity
from .ratios import OPENING_RATIO, Ratios
from .said_after import SaidAfter
from .shorthand import Shorthand
from .tokens import Token

MULTIPLES = {
    "double": 2.0,
    "doubled": 2.0,
    "doubling": 2.0,
    "triple": 3.0,
    "tripled": 3.0,
    "quadruple": 4.0,
    "halve": 0.5,
    "halved": 0.5,
    "halving": 0.5,
}
LARGE = 400.0
"""From how many grams or millilitres on a measure may open a sentence without ``a`` (``Litre of rum``)."""
BOTTLES = frozenset({375.0, 700.0, 750.0})
BEFORE_BOTTLE = frozenset({"", ".", ",", "?", "!", "\n", ":", "the", "our", "my"})
NO_MULTIPLE = frozenset("strength cream shot proof strained strain check that".split())
BETWEEN = frozenset("of a an full whole us american good solid flat - more".split())
"""What may stand between a number and its unit."""
INTO, CONVERT = frozenset({"in", "to", "into", "as"}), frozenset({"convert", "what's", "whats"})
NEGATED = frozenset({"not", "isn't", "instead"})
SIPHONS = frozenset("siphon whipper canister dispenser charger".split())
"""What is called by a size not quite its own (``the quart one``)."""
SIGNS = frozenset({"$", "€", "£", "¥", "eur", "usd", "gbp"})
BEGINS = OPENING | OPENING_RATIO | MULTIPLES.keys() | HOMOPHONES.keys() | {*"the an one per twice thrice every".split()}
"""The words that a quantity may begin with, but for measures without a size."""


class Quantities(SaidAfter):
    """Finds the quantities of a message, left to right."""

    def __init__(self, tokens: list[Token], lexicon: Lexicon, comma: bool = False):
        super().__init__(tokens, lexicon, comma)
        self.found: list[Quantity] = []
        self.noise = Noise(tokens, lexicon, comma)
        self.shorthand = Shorthand(tokens, lexicon, comma)
        self.ratios = Ratios(tokens, lexicon, comma, self.noise)
        self.shares = OneIn(tokens, lexicon, comma)

    def find(self) -> list[Quantity]:
        """The quantities in order."""
        i = 0
        while i < len(self.t):
            t = self.t[i]
            opens = t.kind in NUMERIC or t.text in BEGINS or t.stem in SIGNS
            q = self._at(i) if opens else self._unsized(i) if self.lex.begins_unit(t.stem) else None
            if q is None:
                i += 1
            else:
                self.found.append(q)
                i = max(q.last, i) + 1
        self._asked_at_the_end()
        return Combining(self.t, self.lex, self.found).combined()

    def _asked_at_the_end(self) -> None:
        """``60 ml gin 40 % 30 ml vermouth 16 % abv?``: the last word is what is asked, and no kind of percent."""
        last = self.found[-1] if self.found else None
        if last is None or "abv" not in last.units or self.t[last.last].text not in ("abv", "alc", "strength"):
            return
        ends = [t.text for t in self.t[last.last + 1 :]]
        others = any(q.units[:1] == ("percent",) for q in self.found[:-1])
        if others and ends in ([], ["?"]) and self._word(last.last - 1) in ("%", "percent", "pct"):
            last.units, last.last = ("percent",), last.last - 1

    def _at(self, i: int) -> Quantity | None:
        t = self.t[i]
        if t.text == "one" and self._pronoun_one(i):
            return None
        if (related := self.ratios.relations.multiple(i)) is not None:
            return related
        if (share := self.shares.at(i)) is not None:
            return share
        multiple = self.t[i].text in MULTIPLES and self._word(i + 1) not in NO_MULTIPLE
        if multiple and not self.lex.longer_phrase(self.t, i):
            return Quantity(MULTIPLES[self.t[i].text], i, i, weak=True)
        parts = (self._money_first(i) if t.stem in SIGNS else None) or self.ratios.at(i)
        if parts is not None:
            return parts
        n = number_at(self.t, i, self.comma)
        if n is None:
            return self._indefinite(i)
        if (
            self._word(i) == "one"
            and not (self._word(i + 1) == "-" and self.lex.unit_at(self.t, i + 2))
            and self._stem(i + 1) not in MONEY
            and n.value == 1
            and n.first == n.last
            and i + 1 < len(self.t)
            and (number_at(self.t, i + 1, self.comma) is not None or not self.lex.unit_at(self.t, i + 1))
        ):
            return self._indefinite(i) or (Quantity(1.0, i, i, weak=True) if number_at(self.t, i + 1) is None else None)
        if self.shorthand.of(n):
            return Quantity(n.value, n.first, n.last, noise="word", weak=True)
        noise = self.noise.of(n)
        if noise:
            return noise
        n, i = self._range(n)
        q = Quantity(n.value, n.first, n.last, other=n.other, high=n.high, weak=n.value == 1)
        if (
            self._word(n.first - 1) in ("-",)
            and n.first >= 1
            and self.t[n.first].glued
            and not (n.first >= 2 and self.t[n.first - 1].glued and self.t[n.first - 2].kind in ("number", "word"))
        ) or (self._word(n.first - 1) == "minus" and not (n.first >= 2 and self.t[n.first - 2].kind == "number")):
            q.value, q.first, q.weak = -q.value, q.first - 1, False
        self._unit(q)
        q.weak = q.weak and not q.units
        if self._word(n.first - 1) == "to" and self._stem(n.first - 2) == "round":
            q.rejected = True
        if self._word(n.first - 1) in NEGATED or (
            self._word(n.first - 1) == "of" and self._word(n.first - 2) == "instead"
        ):
            q.rejected = True
        return q

    def _pronoun_one(self, i: int) -> bool:
        """``the 46 % one``, ``a 500 ml one?``, ``off each one``: is the ``one`` at token ``i`` no number?"""
        before = self.found[-1] if self.found else None
        if self._word(i - 1) in ("each", "every") and not self.lex.unit_at(self.t, i + 1):
            return True
        return (
            before is not None
            and before.last == i - 1
            and bool(before.units)
            and not self.lex.unit_at(self.t, i + 1)
            and (i + 1 == len(self.t) or number_at(self.t, i + 1, self.comma) is None)
        )

    def _unit(self, q: Quantity) -> None:
        j = q.last + 1
        skip = j
        while self._word(skip) in BETWEEN:
            if self._word(skip) in ("us", "american") and self.lex.unit_at(self.t, skip):
                break
            skip += 1
        for at in (j, skip):
            if (
                at > j
                and self.t[q.first].kind != "fraction"
                and not self._fraction_like(q)
                and self._word(j) not in ("full", "whole", "us", "american", "good", "solid", "flat", "-", "more")
            ):
                continue
            if self.lex.longer_phrase(self.t, at):
                continue
            hit = self.lex.unit_at(self.t, at)
            if hit:
                q.units, q.last = hit[0], hit[1]
                if any(not self.lex.units[u].sized for u in q.units):
                    q.unsized = q.units[0]
                self._half_after(q)
                break
        if "percent" in q.units:
            self._kind_of_percent(q)
        elif q.units:
            self._imperial(q)
        if q.value in BOTTLES and self._word(j) == "s" and self.t[j].glued:
            q.units, q.last = ("milliliter",), j - 1
            self.t[j].text, self.t[j].stem = "bottles", "bottle"
            return
        if not q.units and q.value in BOTTLES and (q.first == q.last or self.t[q.first].kind == "word"):
            if self._word(q.first - 1) in ("a", "an", "per", "the", "one", "each", "bottle", "bottles"):
                q.units, q.implied = ("milliliter",), True
            elif self._of_bottles(q):
                q.units, q.noted = ("milliliter",), True
        if not q.units and self._buys(j):
            q.units = ("currency",)
            return
        word = self._stem(j)
        if word in MONEY and (not q.units or "pound" in q.units) and not (word == "p" and not self.t[j].glued):
            sign = MONEY[word]
            if sign in HUNDREDTHS:
                q.value /= 100
                sign = {"¢": "$", "p": "£"}[sign]
            if "pound" in q.units:
                q.units = ("pound", "currency")
            else:
                q.units, q.last = ("currency",), j
            q.money = "£" if "pound" in q.units else sign
            cents = number_at(self.t, q.last + 1) if q.last + 1 < len(self.t) else None
            if (
                cents is not None
                and "currency" in q.units
                and q.value == int(q.value)
                and cents.value == int(cents.value)
                and (cents.worded and cents.value < 100)
                and self.lex.unit_at(self.t, cents.last + 1) is None
            ):
                q.value, q.last, q.units = q.value + cents.value / 100, cents.last, ("currency",)

    def _of_bottles(self, q: Quantity) -> bool:
        """``seven fifty bottles``, ``bottles of 700``: is a number the size of bottles?"""
        ends = self._word(q.last + 1) in ("", "?", ",", "\n")
        return self._stem(q.last + 1) == "bottle" or (ends and any(t.stem == "bottle" for t in self.t[: q.first]))

    def _buys(self, i: int) -> bool:
        """``42 for a 70 cl``, ``24 for the 750 ml bottle``: is a bottle bought for the number before token ``i``?"""
        if self._word(i) in ("a", "per", "/") and self._stem(i + 1) == "bottle":
            return any(t.stem in MONEY_ASKED for t in self.t)
        if self._word(i) != "for" or self._word(i + 1) not in ("a", "the", "one") or i + 2 >= len(self.t):
            return False
        size = number_at(self.t, i + 2, self.comma)
        unit = self.lex.unit_at(self.t, size.last + 1) if size is not None else None
        if size is None or unit is None or self.lex.units[unit[0][0]].dimension != VOLUME:
            return False
        litres = size.value * self.lex.units[unit[0][0]].factor / 1000
        return any(abs(litres - b) < 1e-6 for b in BOTTLE_LITRES)

    def _indefinite(self, i: int) -> Quantity | None:
        """``a litre``, ``an ounce``, ``half kilo``, ``a pinch``; a homophone before a unit."""
        word = self._word(i)
        if (
            word == "the"
            and (hit := self.lex.unit_at(self.t, i + 1))
            and self._word(hit[1] + 1) in ("one", "size", "version")
        ):
            if self.lex.longer_phrase(self.t, i + 1) and any(t.stem in SIPHONS for t in self.t):
                return None
            return Quantity(1.0, i, hit[1] + 1, hit[0], implied=True)
        if word in ("a", "an", "one", "per"):
            if word == "per":
                return None
            j = i + 1
            while self._word(j) in (
                "full",
                "single",
                "whole",
                "finished",
                "good",
                "big",
                "small",
                "little",
                "us",
                "exact",
            ):
                j += 1
            if self.lex.longer_phrase(self.t, j) or self._ordinal(j):
                return None
            hit = self.lex.unit_at(self.t, j)
            if hit and self._word(i - 1) not in ("many", "much", "half") and not self._percent(hit[0]):
                if len(self._word(j)) == 1 and hit[1] == j and self.t[j].kind == "word":
                    return None
                q = Quantity(1.0, i, hit[1], hit[0], implied=True)
                if any(not self.lex.units[u].sized for u in q.units):
                    q.unsized = q.units[0]
                self._half_after(q)
                before = self.found[-1] if self.found else None
                if (
                    before is not None
                    and before.units
                    and before.last == i - 1
                    and self._dimension(q) != self._dimension(before)
                ):
                    return q
                return q
        if word in HOMOPHONES and word not in ("to", "for", "four", "too"):
            hit = self.lex.unit_at(self.t, i + 1)
            if hit:
                return Quantity(HOMOPHONES[word], i, hit[1], hit[0])
        if word in ("for", "too") and self._word(i - 1) in ("for", "to", "two", "too", "at", "of"):
            hit = self.lex.unit_at(self.t, i + 1)
            if hit and len(self._word(i + 1)) > 1:
                return Quantity(HOMOPHONES[word], i, hit[1], hit[0])
        return self._unsized(i)

    def _one_of(self, i: int) -> Quantity | None:
        """``Litre of 57 % rum``: one of a vessel's or a scale's measure, where a sentence begins with it."""
        if i in (0, 1) and (last := self._turned_into(i)) is not None:
            return last
        if (i and self._word(i - 1) not in SENTENCE_ENDS) or self.t[i].text != self.t[i].stem or len(self._word(i)) < 3:
            return None
        hit = self.lex.unit_at(self.t, i)
        if hit is None or self._word(hit[1] + 1) != "of":
            return None
        unit = self.lex.units[hit[0][0]]
        large = unit.dimension in (MASS, VOLUME) and unit.factor >= LARGE
        return Quantity(1.0, i, hit[1], hit[0], implied=True) if large else None

    def _turned_into(self, i: int) -> Quantity | None:
        """``oz in ml``, ``convert pint to ml``, ``cup of sugar in grams?``: all of it one unit in another."""
        hit = self.lex.unit_at(self.t, i) if i == 0 or self._word(0) in CONVERT else None
        heat = hit is not None and self.lex.units[hit[0][0]].dimension == HEAT
        if hit is None or heat or self._percent(hit[0]) or self.lex.longer_phrase(self.t, i):
            return None
        k = hit[1] + 1
        if self._word(k) == "of":
            k = next((n for n in range(k + 1, k + 4) if self._word(n) in INTO), k)
        other = self.lex.unit_at(self.t, k + 1) if self._word(k) in INTO and k + 1 < len(self.t) else None
        if other is None or any(t.kind != "mark" and t.text != "please" for t in self.t[other[1] + 1 :]):
            return None
        q = Quantity(1.0, i, hit[1], hit[0], implied=True)
        q.unsized = next((u for u in q.units if not self.lex.units[u].sized), "")
        return q

    def _ordinal(self, i: int) -> bool:
        """``a second-hand siphon``, ``a second bottle``: no time."""
        after = self.t[i + 1] if i + 1 < len(self.t) else None
        return self._word(i) == "second" and after is not None and (after.kind == "word" or after.text == "-")

    def _unsized(self, i: int) -> Quantity | None:
        """``a splash of``: a measure that has no size of its own."""
        if not self.lex.begins_unit(self.t[i].stem):
            return None
        hit = self.lex.unsized_at(self.t, i)
        if hit is None and (one := self._siphon_size(i) or self._one_of(i)) is not None:
            return one
        sized = bool(self.found) and self.found[-1].last == i - 1 and bool(self.found[-1].units)
        if hit is None or sized or self._word(i).endswith("ing") or not self._measured(i, hit[1]):
            return None
        if self._of_a_size(hit[1] + 1):
            return None
        if not (self.found and self.found[-1].last >= i) and self._word(i - 1) not in ("many", "much"):
            if self.lex.longer_phrase(self.t, i):
                return None
            return Quantity(1.0, i, hit[1], hit[0], unsized=hit[0][0], implied=True)
        return None

    def _of_a_size(self, i: int) -> bool:
        """``200 shots of 25 ml``: is the size of one told at token ``i``, after ``of`` or ``at``?"""
        n = number_at(self.t, i + 1, self.comma) if self._word(i) in ("of", "at") and i + 1 < len(self.t) else None
        hit = self.lex.unit_at(self.t, n.last + 1) if n is not None else None
        return hit is not None and self.lex.units[hit[0][0]].dimension == VOLUME

    def _siphon_size(self, i: int) -> Quantity | None:
        """``litre siphon``, ``the litre bottle``: one of the unit that a vessel is called by, with no number."""
        unit = self.lex.unit_at(self.t, i)
        counted = bool(self.found) and self.found[-1].last == i - 1
        bottle = unit is not None and self._stem(unit[1] + 1) == "bottle" and self._word(i - 1) in BEFORE_BOTTLE
        named = unit is not None and (bottle or self._stem(unit[1] + 1) in ("siphon", "whipper"))
        named = named and not self.lex.longer_phrase(self.t, i)
        if unit is None or not named or counted or self.lex.units[unit[0][0]].dimension != VOLUME:
            return None
        return Quantity(1.0, i, unit[1], unit[0], implied=True)

    def _measured(self, i: int, last: int) -> bool:
        """May a measure without a size stand here: after an article or a number, before ``of``, or first in a line?"""
        before, after = self._word(i - 1), self._word(last + 1)
        return (
            before
            in (
                "a",
                "an",
                "one",
                "per",
                "each",
                "few",
                "big",
                "small",
                "good",
                "healthy",
                "",
                ",",
                "\n",
                "and",
                "+",
                "half",
            )
            or after == "of"
            or (0 < i <= len(self.t) and self.t[i - 1].kind in ("number", "fraction"))
        )

    def _percent(self, units: Sequence[str]) -> bool:
        return any(self.lex.units[u].kind in ("percent", "ww", "vv", "count") for u in units)

    def _range(self, n: Number) -> tuple[Number, int]:
        """``5-6 g``, ``5 to 6 g``: the middle is asked about, both ends are kept."""
        j = n.last + 1
        if self._word(j) == "-" and j + 1 < len(self.t) and not n.worded and n.other is None:
            m = number_at(self.t, j + 1, self.comma)
            if m is not None and m.value > n.value and (self.lex.unit_at(self.t, m.last + 1) or not self.t[j].glued):
                return Number((n.value + m.value) / 2, n.first, m.last, high=m.value), j
        return n, j

    def _money_first(self, i: int) -> Quantity | None:
        word = self._stem(i)
        if word in SIGNS and i + 1 < len(self.t):
            n = number_at(self.t, i + 1, self.comma)
            if n is not None:
                return Quantity(n.value, i, n.last, ("currency",), n.other, money=MONEY[word])
        return None
