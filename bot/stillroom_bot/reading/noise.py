"""Numbers that measure nothing: times of day, dates, table numbers."""

from __future__ import annotations

import re

from ..when.names import DAYS, MONTHS
from .lexicon import stop_words
from .numbers import Number, number_at
from .quantity import MONEY_ASKED, Looking, Quantity

OPENING_TIMES = frozenset("open close start begin arrive door doors party dinner lunch service meet leave".split())
NOISE_BEFORE = frozenset(
    """table tbl invoice order ticket page room floor number no nr # batch lot bin recipe step docket seat station rev
version bar phone tel tab shelf drawer fridge line cell row sheet ext error code covers account group item ref
reference quotation quote receipt policy memo hall slot stand gate project cask tank vat locker desk till van
building platform wing suite block card booking circular po edition letter contract section chapter annex
paragraph label centre center annexe delivery note memorandum folder file binder crate""".split()
)
QUOTED, MONEY = frozenset("quote quotation invoice receipt".split()), re.compile(r"\d+[.,]\d\d\Z")
"""``a supplier quotes 38.00``: a sum of money, and no name."""
HOLDERS = frozenset("jar keg bottle bucket tub pot jug carton sack bag barrel case flask demijohn carboy drum".split())
"""What is told apart by numbers where there are several: ``jars 14 to 19``."""
QUOTED = frozenset({"quote", "quotation"})
"""What has a number of its own, but for one that is written as money: ``the supplier quotes 38.50``."""
ORDINARY = frozenset("order no batch bar recipe lot line cask tank vat".split())
NOISE_AFTER = frozenset(
    """staff colleague employee delegate page table seat room floor bartender waiter waitress chef cook star apprentice
trainee volunteer musician speaker couple thing question problem""".split()
)
"""What may be counted in a message about drinks, and never in one of its jobs."""
TRIED = frozenset("counted measured checked weighed tested tried tasted repeated asked read recounted".split())
"""What is done so many times to be sure of it."""
LISTS = frozenset("menu list card selection range".split())
PLACED, PLACE_ENDS = frozenset("on in at from of near".split()), frozenset(".,;)?!\n") | {"and", "for", "at", "on"}
PARTS_OF_DAY = frozenset({"this", "tonight"}), frozenset({"evening", "morning", "afternoon"})
LONG_NUMBER = 1000
"""``order 5521 came late``: from here on a number after such a word is its name."""
CALENDAR = frozenset("the this last next per our".split())
TIMES_OF_DAY = frozenset({"morning", "afternoon", "evening"})
ABBREVIATED = frozenset({"no", "nr", "ref", "ext", "tel", "rev"})
ORDINALS = frozenset({"st", "nd", "rd", "th"})

ON_TOP = frozenset("with plus incl including add".split())
PRICED = frozenset("net gross menu sell margin profit".split())

class Noise(Looking):
    """Tells the numbers that are no part of a job."""

    def of(self, n: Number) -> Quantity | None:
        dotted = self._word(n.first - 1) == "." and self._stem(n.first - 2) in ABBREVIATED
        before, after = self._stem(n.first - 1 - dotted), self._word(n.last + 1)
        q = Quantity(n.value, n.first, n.last)
        if (
            after == ":"
            and self.t[n.last + 1].glued
            and n.last + 2 < len(self.t)
            and self.t[n.last + 2].kind == "number"
        ):
            minutes = self.t[n.last + 2].text
            if (
                len(minutes) == 2
                and n.value < 24
                and minutes < "60"
                and self.t[n.last + 2].glued
                and (
                    minutes in ("00", "15", "30", "45")
                    or self._word(n.first - 1) in ("at", "by", "since", "until", "from")
                    or self._stem(n.first - 1) in DAYS
                    or self._word(n.last + 3) in ("am", "pm")
                    or len(self.t[n.first].text) == 2
                )
            ):
                q.last, q.noise = n.last + 2, "time"
                if self._word(q.last + 1) in ("am", "pm"):
                    q.last += 1
                return q
        if before == "at" and n.value in range(1, 25) and after in PARTS_OF_DAY[0] and (
            after == "tonight" or self._word(n.last + 2) in PARTS_OF_DAY[1]
        ):
            q.noise = "time"
            return q
        if after in ("am", "pm", "o'clock") or (
            after == "h"
            and self.t[n.last + 1].glued
            and n.last + 2 < len(self.t)
            and self.t[n.last + 2].kind == "number"
            and self.t[n.last + 2].glued
        ):
            q.last, q.noise = n.last + 1, "time"
            return q
        if n.value in range(1, 13) and after == "in" and self._word(n.last + 3) in TIMES_OF_DAY:
            q.last, q.noise = n.last + 3, "time"
            return q
        if after in ORDINALS and self.t[n.last + 1].glued:
            q.last, q.noise = n.last + 1, "date"
            return q
        if (
            (after in MONTHS and after != "may")
            or (before in MONTHS and before not in ("may", "mar"))
            or (after == "may" and self._word(n.first - 1) == "on")
        ) and not self.lex.unit_at(self.t, n.last + 1):
            q.noise = "date"
            return q
        named = (before in NOISE_BEFORE and not self._taxed(n)) or self._word(n.first - 1) == "#"
        money = before in QUOTED and MONEY.match(self.t[n.first].text)
        if named and not self.lex.unit_at(self.t, n.last + 1) and not money:
            follows = self._stem(n.last + 1)
            quoted = before in QUOTED and self.t[n.last].text[-3:-2] in (".", ",")
            counted = before in ORDINARY and follows and self.lex.known(follows) and n.value < LONG_NUMBER
            if not (quoted or counted):
                q.noise, q.last = "reference", self._to_the_last(n.last)
                return q
        if before in HOLDERS and before != self._word(n.first - 1) and self._to_the_last(n.last) != n.last:
            q.noise, q.last = "reference", self._to_the_last(n.last)
            return q
        if self._word(n.first - 1) == "of" and self._stem(n.first - 2) in LISTS:
            q.noise = "count"
            return q
        if before in CALENDAR and self._word(n.first) == "quarter" and after != "of" and not self.lex.unit_at(
            self.t, n.last + 1
        ):
            q.noise = "date"
            return q
        if self._place(n):
            q.noise = "reference"
            return q
        told = n.last + 1 + (self._word(n.last + 1) in ("new", "young", "old"))
        if self._stem(told) in NOISE_AFTER and not self.lex.unit_at(self.t, n.last + 1):
            q.noise = "count"
            return q
        if after == "times" and any(self._word(n.first - k) in TRIED for k in range(1, 5)):
            q.noise, q.last = "count", n.last + 1
            return q
        text = self.t[n.first].text
        if len(text) > 1 and text[0] == "0" and text.isdigit() and not self.lex.unit_at(self.t, n.last + 1):
            q.noise = "reference"
            return q
        if (
            before in ("at", "by", "until", "till")
            and n.value <= 24
            and n.value == int(n.value)
            and any(self._stem(n.first - k) in OPENING_TIMES for k in range(2, 6))
            and not self.lex.unit_at(self.t, n.last + 1)
        ):
            q.noise = "time"
            return q
        if self._word(n.first) in ("half", "quarter") and after in ("past", "to") and self._clock(n.last + 2):
            q.last, q.noise = n.last + 2, "time"
            return q
        if before == "since" and not self.lex.unit_at(self.t, n.last + 1):
            q.noise = "time"
            return q
        if (
            n.value in range(1900, 2100)
            and len(self.t[n.first].text) == 4
            and before in ("in", "since", "from", "of")
            and not self.lex.unit_at(self.t, n.last + 1)
            and n.first == n.last
        ):
            q.noise = "date"
            return q
        return None

    def _taxed(self, n: Number) -> bool:
        """``with vat 20``, ``price 8 net, vat 20``: a tax, and none of several vats."""
        if self._word(n.first - 1) != "vat":
            return False
        return self._word(n.first - 2) in ON_TOP or any(t.stem in MONEY_ASKED | PRICED for t in self.t)

    def _to_the_last(self, last: int) -> int:
        """``tables 40 to 58``, ``note 26-118``: where the last of several numbers ends."""
        while self._word(last + 1) in ("to", "-", "/", "and", "of") and (n := number_at(self.t, last + 2, self.comma)):
            closed = self._word(n.last + 1) in ")],."
            if self.lex.unit_at(self.t, n.last + 1) or (self._word(last + 1) == "and" and not closed):
                break
            last = n.last
        return last

    def _clock(self, i: int) -> bool:
        """``half past eight``: does an hour stand at token ``i``?"""
        hour = number_at(self.t, i, self.comma)
        return hour is not None and hour.value in range(1, 13) and not self.lex.unit_at(self.t, hour.last + 1)

    def _place(self, n: Number) -> bool:
        """``on terrace 2``, ``in the marquee 3``: a word that no job knows, after a preposition, and its number."""
        if [self._word(n.first - k) for k in (3, 2, 1)] == ["walk", "-", "in"]:
            return not self.lex.unit_at(self.t, n.last + 1)
        name, i = self._word(n.first - 1), n.first - 2
        i -= self._word(i) in ("the", "our")
        whole = self.t[n.first].text.isdigit() and n.first == n.last
        ends = n.last + 1 == len(self.t) or self._word(n.last + 1) in PLACE_ENDS
        strange = name.isalpha() and name not in stop_words() and not self.lex.known(self._stem(n.first - 1))
        return whole and ends and strange and self._word(i) in PLACED
