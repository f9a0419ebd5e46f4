"""What the numbers of a message measure: amounts with their units, rates, ratios, counts, and noise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .lexicon import Lexicon
from .numbers import Number, number_at
from .tokens import Token

OPENING_TIMES = frozenset("open close start begin arrive door doors party dinner lunch service meet leave".split())
NOISE_BEFORE = frozenset("""table tbl invoice order ticket page room floor number no nr # batch lot bin recipe step docket
seat station rev version bar phone tel room tab shelf drawer shelf fridge line cell row sheet ext error code covers""".split())
VOLUME = (0.0, 3.0, 0.0, 0.0, 0.0, 0.0)
MONTHS = frozenset("""january february march april may june july august september october november december jan feb mar apr
jun jul aug sep sept oct nov dec""".split())
DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
SHORT_DAYS = {"mon": 0, "tue": 1, "tues": 1, "wed": 2, "weds": 2, "thu": 3, "thur": 3, "thurs": 3, "fri": 4, "sat": 5, "sun": 6}
RELATIVE_DAYS = {"yesterday": 0, "today": 1, "now": 1, "tonight": 1, "tomorrow": 2}
ORDINALS = frozenset({"st", "nd", "rd", "th"})
EVERY = frozenset({"per", "every", "each", "/", "a", "an", "the"})
MONEY = {"$": "$", "€": "€", "£": "£", "¥": "¥", "usd": "$", "eur": "€", "gbp": "£", "dollar": "$", "buck": "$", "euro": "€",
         "quid": "£", "pound": "£", "sterling": "£", "cent": "¢", "pence": "p", "p": "p", "chf": "CHF", "franc": "CHF",
         "kr": "kr", "krona": "kr", "krone": "kr", "yen": "¥"}
HUNDREDTHS = frozenset({"¢", "p"})
HOMOPHONES = {"ate": 8.0, "too": 2.0, "to": 2.0, "for": 4.0, "fore": 4.0, "four": 4.0, "won": 1.0, "tree": 3.0, "sex": 6.0,
              "tin": 10.0, "tenn": 10.0, "sicks": 6.0, "fife": 5.0}
STRENGTHS = frozenset({"percent", "percent_ww", "percent_vv", "percent_wv", "brix", "abv", "proof"})
MULTIPLES = {"double": 2.0, "doubled": 2.0, "doubling": 2.0, "triple": 3.0, "tripled": 3.0, "quadruple": 4.0, "halve": 0.5,
             "halved": 0.5, "halving": 0.5}
VESSELS = frozenset("bottle can keg carton tin jug tub bag box fill batch glass pour shot litre container jar".split())
PORTIONS = frozenset("serve serving portion pour glass cup cocktail drink shot".split())
EACH = frozenset({"each", "apiece"})
BOTTLES = frozenset({375.0, 700.0, 750.0})
RANGE = frozenset({"-", "to", "or", "through", "till"})
JOIN = frozenset({"to", "from", "and", "or", "-", "down", "up", ","})
BREAKS = frozenset([",", ".", ";", "?", "!", "\n", "(", ")", *"""in into from is are was how what and or at with on want need
gives makes make gave was were of_it i we you that it's that's""".split()])
NEGATED = frozenset({"not", "isn't", "instead"})


@dataclass(slots=True)
class Quantity:
    """A number of the message.

    ``units`` are the candidates (names of the registry; empty for a bare number), ``per`` the unit or the
    amount under a rate, ``other`` a second reading of the number; ``ratio`` holds both terms and, where
    they are named, the tokens of their names.  ``noise`` says why it is no part of a job.
    """

    value: float
    first: int
    last: int
    units: tuple[str, ...] = ()
    other: float | None = None
    high: float | None = None
    ratio: tuple[float, float] | None = None
    names: tuple[tuple[int, int] | None, tuple[int, int] | None] = (None, None)
    per: tuple[str, float] | None = None
    per_span: tuple[int, int] | None = None
    money: str = ""
    noise: str = ""
    unsized: str = ""
    rejected: bool = False
    each: bool = False
    implied: bool = False
    weak: bool = False
    carried: bool = False
    noted: bool = False
    factor: bool = False
    times: tuple[int, float] | None = None

    @property
    def strength(self) -> bool:
        """A percent of any kind, which may stand before its noun as an adjective does (``20 % saline``)."""
        return any(u in STRENGTHS for u in self.units)

    @property
    def bare(self) -> bool:
        """A number without any unit."""
        return not self.units and self.ratio is None and not self.money and not self.unsized


class Quantities:
    """Finds the quantities of a message, left to right."""

    def __init__(self, tokens: list[Token], lexicon: Lexicon, comma: bool = False):
        self.t, self.lex, self.comma = tokens, lexicon, comma
        self.found: list[Quantity] = []
        self._many_parts = sum(t.stem == "part" for t in tokens) > 2

    def find(self) -> list[Quantity]:
        """The quantities in order."""
        i = 0
        while i < len(self.t):
            q = self._at(i)
            if q is None:
                i += 1
            else:
                self.found.append(q)
                i = max(q.last, i) + 1
        self._share_units()
        self._unspoken()
        self._sums()
        self._rates()
        self._spans()
        self._products()
        return self.found

    def _spans(self) -> None:
        """``made thursday 15:00, it is friday 21:00``: the hours between two instants."""
        instants = [(q, *i) for q in self.found if q.noise == "time" and (i := self._instant(q)) is not None]
        if len(instants) != 2:
            return
        (a, day_a, hour_a), (_, day_b, hour_b) = instants
        hours = ((day_b - day_a) % 7) * 24 + hour_b - hour_a
        if hours > 0:
            a.value, a.units, a.noise, a.implied = hours, ("hour",), "", True

    def _instant(self, q: Quantity) -> tuple[int, float] | None:
        minutes = self._word(q.last) if q.last > q.first and self._word(q.last).isdigit() else "0"
        hour = q.value + int(minutes) / 60 + (12 if self._word(q.last) == "pm" and q.value < 12 else 0)
        for k in (*range(q.first - 1, q.first - 4, -1), q.last + 1, q.last + 2):
            word = self._word(k)
            day = DAYS.index(self._stem(k)) if self._stem(k) in DAYS else SHORT_DAYS.get(word, RELATIVE_DAYS.get(word))
            if day is not None:
                return day, hour
        return None

    def _products(self) -> None:
        """``4 x 500 ml``, ``two 700 ml bottles``, ``3 bottles of 70 cl``: an amount so many times over."""
        for k, (a, b) in enumerate(zip(self.found, self.found[1:], strict=False)):
            if not (a.bare and b.units and not b.strength and not (a.noise or b.noise or b.money or b.unsized or b.implied)
                    and b.per is None and a.value == int(a.value) and 2 <= a.value <= 500):
                continue
            between = [self._stem(i) for i in range(a.last + 1, b.first)]
            after = self._stem(b.last + 1)
            each = bool({self._word(b.last + 1), self._word(b.last + 2)} & EACH)
            if between in (["x"], ["*"], ["times"]) or (not between and after in VESSELS) or (
                    len(between) in (2, 3) and between[0] in VESSELS and between[-1] in ("of", "at", "@")) or (
                    each and 1 < len(between) < 5 and between[-1] in ("of", "at", "@") and not set(between) & BREAKS - {"of", "at"}):
                b.times = (k, a.value)
                a.weak, a.factor = True, between in (["x"], ["*"], ["times"])
        self._portions()

    def _portions(self) -> None:
        """``serve 90 ml, 80 serves``, ``portion 45 ml, n = 60``: an amount and, beside it, how many of them."""
        for k, (a, b) in enumerate(zip(self.found, self.found[1:], strict=False)):
            for size, count, n in ((a, b, k + 1), (b, a, k)):
                if size.times or not size.units or size.per or size.strength or size.noise or not (
                        count.bare and not count.noise and count.value == int(count.value) and 2 <= count.value <= 500):
                    continue
                names = {self._stem(size.first - 1), self._stem(size.last + 1)} & PORTIONS
                said = self._stem(count.last + 1) in names or (
                    self._word(count.first - 1) == "=" and self._word(count.first - 2) == "n")
                if names and said:
                    size.times = (n, count.value)
                    count.weak = True
                    break


    def _word(self, i: int) -> str:
        return self.t[i].text if 0 <= i < len(self.t) else ""

    def _stem(self, i: int) -> str:
        return self.t[i].stem if 0 <= i < len(self.t) else ""

    def _at(self, i: int) -> Quantity | None:
        if self.t[i].text in MULTIPLES and self._word(i + 1) not in ("strength", "cream", "shot", "proof", "strained", "strain", "check", "that"):
            return Quantity(MULTIPLES[self.t[i].text], i, i, weak=True)
        parts = self._equal_parts(i) or self._money_first(i) or self._of_each(i) or self._ratio(i)
        if parts is not None:
            return parts
        n = number_at(self.t, i, self.comma)
        if n is None:
            return self._indefinite(i)
        if self._word(i) == "one" and self._stem(i + 1) not in MONEY and n.value == 1 and n.first == n.last and i + 1 < len(self.t) and (
                number_at(self.t, i + 1, self.comma) is not None or not self.lex.unit_at(self.t, i + 1)):
            return self._indefinite(i) or (Quantity(1.0, i, i, weak=True) if number_at(self.t, i + 1) is None else None)
        if self._shorthand(n):
            return Quantity(n.value, n.first, n.last, noise="word", weak=True)
        noise = self._noise(n)
        if noise:
            return noise
        n, i = self._range(n)
        q = Quantity(n.value, n.first, n.last, other=n.other, high=n.high, weak=n.value == 1)
        if self._word(n.first - 1) in ("-",) and n.first >= 1 and self.t[n.first].glued and not (
                n.first >= 2 and self.t[n.first - 1].glued and self.t[n.first - 2].kind in ("number", "word")):
            q.value = -q.value
        elif self._word(n.first - 1) == "minus" and not (n.first >= 2 and self.t[n.first - 2].kind == "number"):
            q.value = -q.value
        self._unit(q)
        if self._word(n.first - 1) == "to" and self._stem(n.first - 2) == "round":
            q.rejected = True
        if self._word(n.first - 1) in NEGATED or (self._word(n.first - 1) == "of" and self._word(n.first - 2) == "instead"):
            q.rejected = True
        return q

    def _unit(self, q: Quantity) -> None:
        j = q.last + 1
        skip = j
        while self._word(skip) in ("of", "a", "an", "full", "whole", "us", "american", "good", "solid", "flat", "-", "more"):
            if self._word(skip) in ("us", "american") and self.lex.unit_at(self.t, skip):
                break
            skip += 1
        for at in (j, skip):
            if at > j and self.t[q.first].kind != "fraction" and not self._fraction_like(q) and self._word(j) not in (
                    "full", "whole", "us", "american", "good", "solid", "flat", "-", "more"):
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
        if q.value in BOTTLES and self._word(j) == "s" and self.t[j].glued:
            q.units, q.last = ("milliliter",), j
            return
        if not q.units and q.value in BOTTLES and self._word(q.first - 1) in ("a", "an", "per", "the", "one", "each") and q.first == q.last:
            q.units, q.implied = ("milliliter",), True
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
            if cents is not None and q.units == ("currency",) and q.value == int(q.value) and cents.value == int(cents.value) and (
                    cents.worded and cents.value < 100) and self.lex.unit_at(self.t, cents.last + 1) is None:
                q.value, q.last = q.value + cents.value / 100, cents.last

    def _kind_of_percent(self, q: Quantity) -> None:
        """``8 % (w/w)``, ``42 % alcohol by weight``: the kind that is said after the sign."""
        at = q.last + 1 + (self._word(q.last + 1) == "(")
        hit = self.lex.unit_at(self.t, at)
        if hit and set(hit[0]) & {"percent_ww", "percent_vv", "percent_wv"}:
            q.units, q.last = hit[0], hit[1] + (self._word(hit[1] + 1) == ")")

    def _fraction_like(self, q: Quantity) -> bool:
        return 0 < q.value < 1 and any(t.kind == "word" for t in self.t[q.first:q.last + 1])

    def _half_after(self, q: Quantity) -> None:
        """``a litre and a half``."""
        j = q.last + 1
        words = [self._word(j + k) for k in range(4)]
        if words[:3] in (["and", "a", "half"], ["and", "a", "quarter"]):
            following = self.lex.unit_at(self.t, j + 3)
            if following is None:
                q.value += 0.5 if words[2] == "half" else 0.25
                q.last = j + 2

    def _indefinite(self, i: int) -> Quantity | None:
        """``a litre``, ``an ounce``, ``half kilo``, ``a pinch``; a homophone before a unit."""
        word = self._word(i)
        if word == "the" and (hit := self.lex.unit_at(self.t, i + 1)) and self._word(hit[1] + 1) in ("one", "size", "version"):
            return Quantity(1.0, i, hit[1] + 1, hit[0], implied=True)
        if word in ("a", "an", "one", "per"):
            if word == "per":
                return None
            j = i + 1
            while self._word(j) in ("full", "single",  "whole", "finished", "good", "big", "small", "little", "us", "exact"):
                j += 1
            if self.lex.longer_phrase(self.t, j):
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
                if before is not None and before.units and before.last == i - 1 and self._dimension(q) != self._dimension(before):
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
        hit = self.lex.unsized_at(self.t, i) if self._measured(i) else None
        if hit and not (self.found and self.found[-1].last >= i) and self._word(i - 1) not in ("many", "much"):
            if self.lex.longer_phrase(self.t, i):
                return None
            return Quantity(1.0, i, hit[1], hit[0], unsized=hit[0][0], implied=True)
        return None

    def _measured(self, i: int) -> bool:
        """May a measure without a size stand here: after an article or a number, before ``of``, or first in a line?"""
        before = self._word(i - 1)
        hit = self.lex.unsized_at(self.t, i)
        after = self._word(hit[1] + 1) if hit else ""
        return before in ("a", "an", "one", "per", "each", "few", "big", "small", "good", "healthy", "", ",", "\n", "and", "+", "half") or after == "of" \
            or (0 < i <= len(self.t) and self.t[i - 1].kind in ("number", "fraction"))

    def _percent(self, units: Sequence[str]) -> bool:
        return any(self.lex.units[u].kind in ("percent", "ww", "vv", "count") for u in units)

    def _shorthand(self, n: Number) -> bool:
        """``4`` and ``2`` for the words for and to: ``sugar 4 1 kg``, ``bottles 2 order``."""
        after = self._word(n.last + 1)
        if self.t[n.first].text == "2" and n.first == n.last:
            return after in ("order", "get", "buy", "make", "do", "use", "go", "the") and not self.t[n.first].glued
        if self.t[n.first].text == "4" and n.first == n.last and n.last + 1 < len(self.t) and n.first > 0 and self.t[n.first - 1].kind == "word":
            return after in ("the", "a", "my", "our") or (number_at(self.t, n.last + 1, self.comma) is not None
                                                          and self.t[n.last + 1].kind == "number")
        return False

    def _noise(self, n: Number) -> Quantity | None:
        before, after = self._stem(n.first - 1), self._word(n.last + 1)
        q = Quantity(n.value, n.first, n.last)
        if after == ":" and self.t[n.last + 1].glued and n.last + 2 < len(self.t) and self.t[n.last + 2].kind == "number":
            minutes = self.t[n.last + 2].text
            if len(minutes) == 2 and n.value < 24 and minutes < "60" and self.t[n.last + 2].glued and (
                    minutes in ("00", "15", "30", "45") or self._word(n.first - 1) in ("at", "by", "since", "until", "from")
                    or self._stem(n.first - 1) in DAYS or self._word(n.last + 3) in ("am", "pm")
                    or len(self.t[n.first].text) == 2):
                q.last, q.noise = n.last + 2, "time"
                if self._word(q.last + 1) in ("am", "pm"):
                    q.last += 1
                return q
        if after in ("am", "pm", "o'clock") or (after == "h" and self.t[n.last + 1].glued and n.last + 2 < len(self.t)
                                               and self.t[n.last + 2].kind == "number" and self.t[n.last + 2].glued):
            q.last, q.noise = n.last + 1, "time"
            return q
        if after in ORDINALS and self.t[n.last + 1].glued:
            q.last, q.noise = n.last + 1, "date"
            return q
        if (after in MONTHS and after != "may") or before in MONTHS - {"may", "mar"} or (
                after == "may" and self._word(n.first - 1) == "on"):
            if not self.lex.unit_at(self.t, n.last + 1):
                q.noise = "date"
                return q
        if (before in NOISE_BEFORE or self._word(n.first - 1) == "#") and not self.lex.unit_at(self.t, n.last + 1):
            if before in ("bar", "order", "batch", "line", "step", "cell", "row", "number", "no", "code", "recipe", "covers",
                          "tab", "bin", "lot") or before in NOISE_BEFORE:
                follows = self._stem(n.last + 1)
                if not (before in ("order", "no", "batch", "bar", "recipe", "lot", "line") and follows and self.lex.known(follows)):
                    q.noise = "reference"
                    return q
        text = self.t[n.first].text
        if len(text) > 1 and text[0] == "0" and text.isdigit() and not self.lex.unit_at(self.t, n.last + 1):
            q.noise = "reference"
            return q
        if before in ("at", "by", "until", "till") and n.value <= 24 and n.value == int(n.value) and any(
                self._stem(n.first - k) in OPENING_TIMES for k in range(2, 6)) and not self.lex.unit_at(self.t, n.last + 1):
            q.noise = "time"
            return q
        if before == "since" and not self.lex.unit_at(self.t, n.last + 1):
            q.noise = "time"
            return q
        if n.value in range(1900, 2100) and len(self.t[n.first].text) == 4 and before in ("in", "since", "from", "of") \
                and not self.lex.unit_at(self.t, n.last + 1) and n.first == n.last:
            q.noise = "date"
            return q
        return None

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
        if word in ("$", "€", "£", "¥", "eur", "usd", "gbp") and i + 1 < len(self.t):
            n = number_at(self.t, i + 1, self.comma)
            if n is not None:
                return Quantity(n.value, i, n.last, ("currency",), n.other, money=MONEY[word])
        return None

    def _equal_parts(self, i: int) -> Quantity | None:
        words = (self._word(i), self._stem(i + 1))
        if words in (("equal", "part"), ("equal", "weight"), ("same", "weight"), ("equal", "amount"), ("equal", "measure"),
                     ("even", "part"), ("equal", "mass"), ("equal", "volume"), ("equal", "sugar"), ("same", "amount")):
            return Quantity(1.0, i, i + (words[1] != "sugar"), ratio=(1.0, 1.0))
        if (self._word(i), self._word(i + 1), self._word(i + 2)) in (("half", "and", "half"), ("one", "for", "one")):
            return Quantity(1.0, i, i + 2, ratio=(1.0, 1.0))
        return None

    def _term(self, i: int) -> Number | None:
        """A term of a ratio: a number, or what dictation makes of one."""
        if not 0 <= i < len(self.t):
            return None
        n = number_at(self.t, i, self.comma)
        if n is not None:
            return n
        if self.t[i].text in ("too", "to", "won", "for", "fore", "tree", "a"):
            return Number(1.0 if self.t[i].text == "a" else HOMOPHONES[self.t[i].text], i, i, worded=True)
        return None

    def _ratio(self, i: int) -> Quantity | None:
        a = number_at(self.t, i, self.comma)
        homophone = a is None and self.t[i].text in ("too", "won", "tree", "fore") or (
            a is None and self.t[i].text in ("to", "for") and self._stem(i + 1) == "part")
        if homophone:
            a = self._term(i)
        if a is None or a.other is not None or (self._many_parts and self._stem(a.last + 1) == "part"):
            return None
        if self._stem(a.last + 1) == "part" or (self._stem(a.last + 1) == "measure" and self._word(a.last + 2) != "of"):
            return self._parts(a)
        if homophone:
            return None
        j = a.last + 1
        if self._word(j) == "-" and self._word(j + 1) == "to" and self._word(j + 2) == "-":
            b = number_at(self.t, j + 3, self.comma)
            if b is not None and b.value:
                return Quantity(a.value / b.value, i, b.last, ratio=(a.value, b.value), names=self._names(i, b.last))
        sign = self._word(j)
        if sign in (":", "to", "two", "too") and not self._noise(a):
            b = self._term(j + 1) if self._word(j + 1) not in ("a",) else None
            if b is None:
                return None
            if b.worded and self.t[b.first].text in ("to", "for", "too") and sign != ":" and self._word(b.first + 1) in (
                    "the", "a", "my", "our"):
                return None
            unit_after = self.lex.unit_at(self.t, b.last + 1)
            if sign == ":" and self.t[j].glued != self.t[j + 1].glued or (
                    sign == ":" and unit_after and not self.t[j].glued):
                return None
            if sign in ("to", "two", "too"):
                if self._word(i - 1) in ("from", "between") or unit_after and self._stem(b.last + 1) not in ("part", "in", "bar", "min"):
                    return None
                if a.worded != b.worded and self.t[b.first].kind == "word" and b.first == b.last and sign != "to":
                    return None
                if a.value > 60 or b.value > 60:
                    return None
            if b.value == 0:
                return None
            last = b.last
            if self._word(last + 1) == "ratio":
                last += 1
            return Quantity(a.value / b.value, i, last, ratio=(a.value, b.value), names=self._names(i, last))
        return None

    def _names(self, first: int, last: int) -> tuple[tuple[int, int] | None, tuple[int, int] | None]:
        """``drink to milk 3:1``, ``3:1 drink to milk``, ``sugar:peel 2:1``: the tokens of both names."""
        for start, step in ((first - 1, -1), (last + 1, 1)):
            k = start
            while self._word(k) in (":", "=", ",", "is", "at", "a", "of", "ratio", "in", "the", "by", "mass", "weight", "volume", "(", "for"):
                k += step
            window = range(max(0, k - 6), k + 1) if step < 0 else range(k, min(len(self.t), k + 7))
            for m in window:
                if self._word(m) in ("to", ":", "-", "/") and 0 < m < len(self.t) - 1:
                    left = self.lex.name_before(self.t, m)
                    right = self.lex.name_after(self.t, m)
                    if left and right and not (left[0] <= first <= left[1] or right[0] <= first <= right[1]) and (
                            right[1] <= k + 1 if step < 0 else left[0] >= k):
                        return left, right
        return None, None

    def _parts(self, a: Number) -> Quantity | None:
        """``3 parts X to 1 part Y``; a second term may lack its number's word, or be ``one``."""
        names: list[tuple[int, int] | None] = [None, None]
        said_first = self._label_parts(a)
        if said_first is not None:
            return said_first
        j = a.last + 2
        if self._word(j) == "of":
            j += 1
        k = j
        while k < min(len(self.t), j + 7):
            word = self._word(k)
            b = self._term(k + 1) if word in ("to", "two", "too", "and", ",", "with", "for", ":", "plus", "on", "per", "/", "-") else None
            if b is not None and not (self.t[k + 1].text in ("to", "for") and not self._stem(k + 2) == "part"):
                named = self._stem(b.last + 1) == "part"
                if not named and word in ("and", ",", "with", "plus", "for", "/", "-"):
                    k += 1
                    continue
                names[0] = (j, k - 1) if k > j else None
                last = b.last + (1 if named else 0)
                m = last + 1
                if self._word(m) == "of":
                    m += 1
                name = self.lex.name_after(self.t, m - 1)
                if name:
                    names[1], last = name, name[1]
                if b.value == 0:
                    return None
                if names[0] is None or names[1] is None:
                    found = self._names(a.first, last)
                    if found[0]:
                        names = list(found)
                return Quantity(a.value / b.value, a.first, last, ratio=(a.value, b.value), names=(names[0], names[1]))
            if b is None and word in ("to", "two", "too") and self._word(k + 1) in ("a", "one", "each"):
                break
            k += 1
        return None

    def _label_parts(self, a: Number) -> Quantity | None:
        """``milk 1 part : drink 4 parts``."""
        left = self.lex.name_before(self.t, a.first)
        if left is None or self._word(a.last + 2) not in (":", ",", "to", "-", "/", ";"):
            return None
        right = self.lex.name_after(self.t, a.last + 2)
        b = self._term(right[1] + 1) if right is not None else None
        if b is None or right is None or self._stem(b.last + 1) != "part" or b.value == 0:
            return None
        return Quantity(a.value / b.value, a.first, b.last + 1, ratio=(a.value, b.value), names=(left, right))

    def _of_each(self, i: int) -> Quantity | None:
        """``4 of drink and 1 of milk``: shares without the word part."""
        a = number_at(self.t, i, self.comma)
        if a is None or self._word(a.last + 1) != "of":
            return None
        left = self.lex.name_after(self.t, a.last + 1)
        if left is None or self._word(left[1] + 1) not in ("and", "to", ",", "with"):
            return None
        b = self._term(left[1] + 2)
        if b is None or self._word(b.last + 1) != "of" or b.value == 0:
            return None
        right = self.lex.name_after(self.t, b.last + 1)
        return Quantity(a.value / b.value, i, right[1], ratio=(a.value, b.value), names=(left, right)) if right else None

    def _dimension(self, q: Quantity) -> tuple[float, ...]:
        return self.lex.units[q.units[0]].dimension if q.units else ()

    def _share_units(self) -> None:
        """``from 60 to 40 %``, ``2 or 3 oz``: a bare number takes the unit of its neighbour."""
        for a, b in zip(self.found, self.found[1:], strict=False):
            between = [self._word(k) for k in range(a.last + 1, b.first)]
            if a.bare and not a.noise and b.units and not b.money and not b.noise and between and len(between) <= 3 and all(
                    w in JOIN or w in ("it", "up", "then") for w in between) and ("to" in between or "or" in between or "-" in between) \
                    and not b.implied:
                a.units, a.money = b.units, b.money

    def _unspoken(self) -> None:
        """``50 ml rum 25 lime 20 syrup``, ``40 gin 20 vermouth (ml)``: a bare number of something poured takes the
        volume unit of the list."""
        unit: tuple[str, ...] = ()
        poured = [q for q in self.found if q.bare and not q.noise and not q.weak and self.lex.poured_at(self.t, q.last + 1)]
        if not poured:
            return
        for q in self.found:
            if q.units and not (q.implied or q.unsized or q.noise) and self._dimension(q) == VOLUME and self.lex.units[q.units[-1]].sized \
                    and (self.lex.poured_at(self.t, q.last + 1) or not unit):
                unit = q.units
            elif q in poured and unit:
                q.units, q.noted = unit, True
        if not unit and len(poured) > 1:
            for i, t in enumerate(self.t):
                hit = self.lex.unit_at(self.t, i) if t.kind == "word" and self._word(i - 1) in ("(", "in", ",") else None
                if hit and self.lex.units[hit[0][0]].dimension == VOLUME:
                    for q in poured:
                        q.units, q.noted = hit[0], True
                    return

    def _sums(self) -> None:
        """``1 1/2 cups + 2 tbsp``, ``2 lb 3 oz``: one amount said in two units."""
        merged: list[Quantity] = []
        for q in self.found:
            a = merged[-1] if merged else None
            if a is not None and a.units and q.units and not (a.noise or q.noise or a.money or q.money or a.unsized or q.unsized):
                between = [self._word(k) for k in range(a.last + 1, q.first)]
                shared = [u for u in q.units if any(self.lex.units[u].dimension == self.lex.units[v].dimension for v in a.units)]
                if shared and (between in (["+"], ["plus"]) or (not between and a.units != q.units and a.value >= 1 and self._smaller(a, q))
                               or (between == ["and"] and a.units != q.units and self._smaller(a, q) and a.value == int(a.value))):
                    for v in a.units:
                        same = [u for u in shared if self.lex.units[u].dimension == self.lex.units[v].dimension]
                        if same:
                            a.value += q.value * self.lex.units[same[0]].factor / self.lex.units[v].factor
                            a.units, a.last = (v,), q.last
                            break
                    continue
            merged.append(q)
        self.found = merged

    def _smaller(self, a: Quantity, q: Quantity) -> bool:
        small, large = self.lex.units[q.units[-1]], self.lex.units[a.units[0]]
        return small.dimension == large.dimension and q.value * small.factor < large.factor

    def _rates(self) -> None:
        """``4 g of gelatine per litre``, ``1 g for every 80 ml``, ``3.2 l a day``: one quantity over another."""
        kept: list[Quantity] = []
        skip = -1
        for n, q in enumerate(self.found):
            if n == skip:
                continue
            kept.append(q)
            if q.bare and not q.noise and n + 1 < len(self.found) and (nxt := self.found[n + 1]).implied and nxt.first == q.last + 1 \
                    and nxt.units and not nxt.strength and "." in self.t[q.first].text + self.t[q.last].text:
                q.units, q.per, q.last, skip = ("currency",), (nxt.units[0], 1.0), nxt.last, n + 1
                continue
            if not q.units or q.noise or q.unsized or (q.money and "pound" not in q.units and False):
                continue
            j = q.last + 1
            following = self.found[n + 1] if n + 1 < len(self.found) else None
            limit = following.first if following is not None else len(self.t)
            for k in range(j, min(j + 5, len(self.t))):
                word = self._word(k)
                if word in BREAKS:
                    break
                start = self._every(k)
                if word == "for" and start is None:
                    break
                if start is None:
                    continue
                if following is not None and following.first in (start, k) and following.units and not following.noise and not following.strength:
                    if self._dimension(following) != self._dimension(q) and not following.unsized:
                        q.per, q.per_span = (following.units[0], following.value), (k, following.last)
                        skip = n + 1
                    break
                if start < limit and self._stem(start) != "part" and not self.lex.longer_phrase(self.t, start):
                    hit = self.lex.unit_at(self.t, start)
                    if hit and self.lex.units[hit[0][0]].sized and self.lex.units[hit[0][0]].dimension != self._dimension(q):
                        q.per, q.per_span = (hit[0][0], 1.0), (k, hit[1])
                break
            if q.per is not None and q.per_span is not None and q.per_span[0] == q.last + 1:
                q.last = q.per_span[1]
        self.found = kept

    def _every(self, k: int) -> int | None:
        """The token after ``per``, ``a``, ``for every``, ``to the``: where the unit under a rate begins."""
        words = (self._word(k), self._word(k + 1))
        if words in (("for", "every"), ("for", "each"), ("in", "every"), ("to", "every"), ("to", "each"), ("to", "the"), ("on", "every")):
            return k + 2
        if words[0] == "for" and words[1] in ("day", "night", "week", "hour"):
            return k + 1
        if words[0] == "/" and not self.t[k].glued:
            return None
        if words[0] in ("per", "every", "each", "/", "a", "an"):
            return k + 2 if words[1] in ("a", "one", "each", "every") else k + 1
        if words == ("for", "1"):
            return k + 1
        return None
