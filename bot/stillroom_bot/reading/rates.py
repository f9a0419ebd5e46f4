"""Rates: one quantity over another, said with a stroke, a word, a habit or a verb."""

from __future__ import annotations

import itertools

from .lexicon import Lexicon
from .quantity import MASS, MONEY_ASKED, TIME, VOLUME, Looking, Quantity
from .tokens import Token

BREAKS = frozenset(
    [
        ",",
        ".",
        ";",
        "?",
        "!",
        "\n",
        "(",
        ")",
        *"""in into from is are was how what and or at with on want need
gives makes make gave was were of_it i we you that it's that's whats what's if when where""".split(),
    ]
)
PERIODS = {"daily": "day", "nightly": "day", "weekly": "week", "hourly": "hour"}
EACH_TIME = frozenset({"every", "each", "per", "any", "a"})
TIMES = frozenset({"day", "night", "week", "hour", "shift", "evening", "service"})
VERBS = frozenset(
    "put puts use uses take takes go goes get gets give gives need needs want wants add adds dose doses".split()
)
DOSING = VERBS | frozenset("have has i we you they me us always usually normally of about in with it".split())
AT = frozenset({"at", "@"})
YIELDING = frozenset("get gets got getting give gives gave yield yields yielded press pressed squeeze".split())
WANTING = frozenset({"want", "need"})
INTO = frozenset({"in", "to", "for", "every", "each", "into"})
STRETCH = 6
SIZED = frozenset({"of", "at", "with"})
"""What stands between things that are served and the size of each."""
CLAUSE = frozenset([",", ".", ";", "?", "!", "\n", "(", ")", "|", *"keeps lasts good so that which".split()])


class Rates(Looking):
    """Works on the quantities of a message in place."""

    def __init__(self, tokens: list[Token], lexicon: Lexicon, found: list[Quantity]):
        super().__init__(tokens, lexicon)
        self.found = found

    def joined(self) -> list[Quantity]:
        """The quantities, those under a rate taken up by the one above it."""
        self._over()
        self._under_first()
        self._habits()
        self._so_many_a_day()
        return self.found

    def _over(self) -> None:
        """``4 g of gelatine per litre``, ``1 g for every 80 ml``, ``3.2 l a day``: one quantity over another."""
        kept: list[Quantity] = []
        skip = -1
        for n, q in enumerate(self.found):
            if n == skip:
                continue
            kept.append(q)
            if (
                q.bare
                and not q.noise
                and n + 1 < len(self.found)
                and (nxt := self.found[n + 1]).implied
                and nxt.first == q.last + 1
                and nxt.units
                and not nxt.strength
                and self._is_price(q, nxt)
            ):
                q.units, q.per, q.last, skip = ("currency",), (nxt.units[0], 1.0), nxt.last, n + 1
                continue
            if q.bare and not q.noise and (under := self._price_under(q)):
                q.units, q.per, q.last = ("currency",), (under[0][0], 1.0), under[1]
                continue
            if not q.units or q.noise or q.unsized or q.strength:
                continue
            j = q.last + 1
            following = self.found[n + 1] if n + 1 < len(self.found) else None
            limit = following.first if following is not None else len(self.t)
            weighed = any(self._word(k) == "by" and self._word(k + 1) == "weight" for k in range(j, j + 4))
            for k in range(j, min(j + 5 + 2 * weighed, len(self.t))):
                word = self._word(k)
                start = self._every(k) or (k + 1 if k == j and self._the_measure(q, k) else None)
                if word in BREAKS and start is None:
                    break
                if word == "for" and start is None:
                    break
                if start is None:
                    continue
                if (
                    following is not None
                    and following.first in (start, k)
                    and following.units
                    and following.value
                    and not following.noise
                    and not following.money
                    and not following.strength
                    and not any(x < 0 for u in following.units for x in self.lex.units[u].dimension)
                ):
                    if self._dimension(following) != self._dimension(q) and not following.unsized:
                        q.per, q.per_span = (following.units[0], following.value), (k, following.last)
                        skip = n + 1
                    break
                if start < limit and self._stem(start) != "part" and not self.lex.longer_phrase(self.t, start):
                    hit = self.lex.unit_at(self.t, start)
                    if (
                        hit
                        and self.lex.units[hit[0][0]].sized
                        and (self.lex.units[hit[0][0]].dimension != self._dimension(q) or self._a_larger(word, hit, q))
                    ):
                        q.per, q.per_span = (hit[0][0], 1.0), (k, hit[1])
                break
            if q.per is not None and q.per_span is not None and q.per_span[0] == q.last + 1:
                q.last = q.per_span[1]
        self.found = kept

    def _a_larger(self, word: str, hit: tuple[tuple[str, ...], int], q: Quantity) -> bool:
        """``70 g of peel per kilo``: is it so much of a weight to each of a larger one?"""
        under, over = self.lex.units[hit[0][0]], self.lex.units[q.units[0]]
        return word in ("per", "/", "from", "out") and under.dimension == MASS and under.to_base(1) > over.to_base(1)

    def _is_price(self, q: Quantity, of: Quantity) -> bool:
        """``9.50 a litre``, ``at 30 a litre``, ``22 a kilo, what is a cup?``: is so much a price of a measure?"""
        if "." in self.t[q.first].text + self.t[q.last].text:
            return True
        measure = self._dimension(of) in (VOLUME, MASS)
        return measure and (self._word(q.first - 1) in AT or any(t.stem in MONEY_ASKED for t in self.t))

    def _price_under(self, q: Quantity) -> tuple[tuple[str, ...], int] | None:
        """``30.00 per litre``: the measure under a number that is written as money is, and its last token."""
        text = self.t[q.last].text
        if self._word(q.first - 1) == "@" and self._word(q.last + 1) == "/" and self.t[q.last + 1].glued:
            asked = any(t.stem in MONEY_ASKED for t in self.t)
            hit = self.lex.unit_at(self.t, q.last + 2) if asked else None
            return hit if hit and self.lex.units[hit[0][0]].dimension in (VOLUME, MASS) else None
        if not (len(text) > 3 and text[-3] in ".," and self._word(q.last + 1) in ("per", "/", "the")):
            return None
        hit = self.lex.unit_at(self.t, q.last + 2)
        return hit if hit and self.lex.units[hit[0][0]].dimension in (VOLUME, MASS) else None

    def _every(self, k: int) -> int | None:
        """The token after ``per``, ``a``, ``for every``, ``to the``: where the unit under a rate begins."""
        words = (self._word(k), self._word(k + 1))
        if words in (
            ("for", "every"),
            ("for", "each"),
            ("in", "every"),
            ("to", "every"),
            ("to", "each"),
            ("to", "the"),
            ("on", "every"),
        ):
            return k + 2
        if words in (("for", "the"), ("on", "the"), ("in", "the"), ("for", "one")) and self._unit_closes(k + 2):
            return k + 1 if words[1] == "one" else k + 2
        if words[0] == "for" and words[1] == self._stem(k + 1) and self._unit_closes(k + 1):
            return k + 1
        if words[0] == "in" and words[1] in ("a", "one") and self._word(k + 2) in TIMES:
            return k + 2
        if words[0] == "for" and words[1] in ("day", "night", "week", "hour"):
            return k + 1
        if words[0] == "/" and not self.t[k].glued:
            return None
        if words[0] == "from" or words == ("out", "of"):
            j = k + 1 + (words[0] == "out")
            one = self._word(j) in ("a", "one", "each", "every") and self._unit_at_all(j + 1)
            return j + 1 if one and any(self._word(n) in YIELDING for n in range(max(0, k - STRETCH), k)) else None
        if words[0] in ("per", "pro", "every", "each", "/", "a", "an"):
            return k + 2 if words[1] in ("a", "one", "each", "every") else k + 1
        if words == ("for", "1"):
            return k + 1
        return None

    def _the_measure(self, q: Quantity, k: int) -> bool:
        """``400 euro the kilo``: is a sum of money told of one of the measure after token ``k``?"""
        hit = self.lex.unit_at(self.t, k + 1) if q.units == ("currency",) and self._word(k) == "the" else None
        return hit is not None and self.lex.units[hit[0][0]].dimension in (VOLUME, MASS)

    def _unit_at_all(self, k: int) -> bool:
        return k < len(self.t) and self.lex.unit_at(self.t, k) is not None

    def _unit_closes(self, k: int) -> bool:
        """``6 g for the litre.``: is there a unit at token ``k``, and nothing after it in its clause?"""
        hit = self.lex.unit_at(self.t, k)
        return hit is not None and (hit[1] + 1 >= len(self.t) or self._word(hit[1] + 1) in CLAUSE)

    def _under_first(self) -> None:
        """``in one litre I put 28 g``, ``every litre takes 5 g``: what the amount goes into is said first."""
        kept = list(self.found)
        for n, q in enumerate(self.found):
            if not q.units or q.per or q.noise or q.strength or q.money or q.unsized or q.implied:
                continue
            before = self.found[n - 1] if n else None
            under: tuple[str, float] | None = None
            if (
                before is not None
                and before.units
                and not (before.per or before.noise or before.strength or before.unsized)
                and (self._word(before.first - 1) in INTO or before.implied or before.value == 1)
                and self._doses(self._past_thing(before.last + 1), q.first)
                and self._dimension(before) != self._dimension(q)
                and (self._again(before) or (self._of_each(before) and self._again(q)))
            ):
                under = (before.units[0], before.value)
                kept.remove(before)
            else:
                for k in range(max(0, q.first - STRETCH), q.first - 1):
                    hit = self.lex.unit_at(self.t, k + 1) if self._word(k) in ("every", "each") else None
                    if (
                        hit
                        and self.lex.units[hit[0][0]].sized
                        and self._doses(self._past_thing(hit[1] + 1), q.first)
                    ):
                        under = (hit[0][0], 1.0)
                        break
            if under is not None and self.lex.units[under[0]].dimension not in self._dimensions(q):
                q.per = under
        self.found = kept

    def _past_thing(self, k: int) -> int:
        """The token after ``of`` and the one thing that it names, if they stand at token ``k``."""
        if self._word(k) != "of":
            return k
        k += 1
        while k < len(self.t) and self.t[k].kind == "word" and self._word(k) not in DOSING:
            k += 1
        return k

    def _of_each(self, before: Quantity) -> bool:
        """``one kilo gives``, ``for each 60 ml goes``: is an amount one of many?"""
        return before.value == 1 or self._word(before.first - 1) in ("each", "every")

    def _again(self, q: Quantity) -> bool:
        """Is there another amount of the same measure, to which the rate may be applied, or is one asked for?"""
        return any(
            o is not q and o.units and not (o.per or o.noise) and self._dimension(o) == self._dimension(q)
            for o in self.found
        ) or any(
            (hit := self.lex.unit_at(self.t, k)) and self._dimension(q) == self.lex.units[hit[0][0]].dimension
            for k in range(len(self.t))
            if self._word(k + 1) == "of" and not self._held(k)
        )

    def _doses(self, first: int, end: int) -> bool:
        """Do only words of putting in stand at tokens ``first`` to ``end``, at least one of them a verb?"""
        words = [self._word(k) for k in range(first, end)]
        return len(words) < STRETCH and not VERBS.isdisjoint(words) and all(w in DOSING for w in words)

    def _dimensions(self, q: Quantity) -> set[tuple[float, ...]]:
        return {self.lex.units[u].dimension for u in q.units}

    def _habits(self) -> None:
        """``every day we sell 3.5 l``, ``we sell 4.5 litres of it daily``: an amount that comes again and again."""
        places = [
            (k, PERIODS.get(t.text) or ("day" if t.text == "evening" else t.text))
            for k, t in enumerate(self.t)
            if t.text in PERIODS or (t.text in TIMES and self._word(k - 1) in EACH_TIME)
        ]
        for at, name in places:
            unit = self.lex.unit_at(self.t, at) if name == self._word(at) else ((name,), at)
            held = [q for q in self.found if q.first <= at <= q.last or (q.per_span and q.per_span[1] == at)]
            if unit is None or any(not q.implied or q.per for q in held):
                continue
            q = self._nearest(at - len(held))
            if q is not None and q.bare:
                each = self._each_of(q)
                if each is not None:
                    self.found = [o for o in self.found if o not in held]
                    each.times, each.per, q.weak = (self.found.index(q), q.value), (unit[0][0], 1.0), True
            elif q is not None and not held and (count := self._served(q)) is not None:
                q.times, q.per, count.weak = (self.found.index(count), count.value), (unit[0][0], 1.0), True
            elif q is not None and not held:
                q.per, q.per_span = (unit[0][0], 1.0), (at, at)

    def _so_many_a_day(self) -> None:
        """``at 3 a day``: how often a plain number comes, and no time of its own."""
        for q, period in itertools.pairwise(self.found):
            a_day = period.implied and period.value == 1 and period.first == q.last + 1
            if q.bare and not q.weak and a_day and self._dimension(period) == TIME:
                period.noise = "rate"

    def _nearest(self, at: int) -> Quantity | None:
        """The amount or number in the clause of a period at token ``at`` that it can be a rate of."""
        best: tuple[int, Quantity] | None = None
        for q in self.found:
            if q.per or q.noise or q.ratio or q.strength or q.money or q.unsized or self._dimension(q) == TIME:
                continue
            span = range(q.last + 1, at) if q.last < at else range(at + 1, q.first)
            if len(span) > STRETCH or any(self._word(k) in CLAUSE | WANTING or self._held(k) for k in span):
                continue
            if best is None or len(span) < best[0]:
                best = (len(span), q)
        return best[1] if best else None

    def _each_of(self, count: Quantity) -> Quantity | None:
        """``80 spritzes a day with 30 ml in each``: the amount that each of a number takes."""
        for q in self.found:
            if q.units and q.first > count.last and not (q.per or q.noise or q.strength or q.money or q.unsized):
                after = {self._word(k) for k in range(q.last + 1, q.last + 6)}
                return q if after & {"each", "apiece"} and count.value == int(count.value) else None
        return None

    def _served(self, q: Quantity) -> Quantity | None:
        """``40 serves of 60 ml each day``: the count of things that an amount is the size of."""
        n = self.found.index(q)
        count = self.found[n - 1] if n else None
        if count is None or not count.bare or count.noise or count.value <= 1 or count.value != int(count.value):
            return None
        sized = self._word(q.first - 1) in SIZED and 0 < q.first - 1 - count.last <= 2
        return count if sized and all(self.t[k].kind == "word" for k in range(count.last + 1, q.first - 1)) else None

    def _held(self, k: int) -> bool:
        return any(q.first <= k <= q.last for q in self.found)
