"""What is asked for: the words and units in the part of the message that holds the question."""

from __future__ import annotations

from dataclasses import dataclass, field

from .lexicon import Lexicon, stop_words
from .quantities import MONEY, Quantity
from .tokens import Token

STOP_ZONE = frozenset("""is are was were do does did should would will can could must may might shall have has had go goes went
to for in into from with makes make making made need needs i we you they he she it will'll per when if that which gets get got
comes come came fit fits give gives per by at on as fills fill contain contains hold holds carry carries bring brings take
takes equal equals needed required please left over remain remaining""".split())
HOW = {"much": "much", "many": "many", "long": "time", "strong": "strength", "cold": "temperature", "hot": "temperature",
       "big": "size", "large": "size", "old": "time", "sweet": "sweet", "sour": "sour", "soon": "time", "far": "much", "thick": "much",
       "wide": "much", "heavy": "weight"}
ORDERS = frozenset("""give tell calculate calc compute find state express report show convert work say name determine figure
wondering wonder ask know""".split())
LINKS = frozenset("for in to on needed from with required per that if of".split())
MEASURES = frozenset("number amount weight mass volume quantity strength ratio proportion dose".split())
ENDS = frozenset({".", ";", "?", "!", "\n", ",", "=", "(", ")", "|", "[", "]", '"'})


@dataclass(slots=True)
class Asked:
    """``zones`` are runs of tokens in which what is asked is named; ``units`` those it is asked in;
    ``how`` the kind of question word; ``rest`` zones of less weight; ``shared`` zones whose words may
    belong to the number before them as well."""

    zones: list[tuple[int, int]] = field(default_factory=list)
    shared: list[tuple[int, int]] = field(default_factory=list)
    rest: list[tuple[int, int]] = field(default_factory=list)
    units: list[tuple[str, ...]] = field(default_factory=list)
    unit_spans: list[tuple[int, int]] = field(default_factory=list)
    how: set[str] = field(default_factory=set)


class Asking:
    """Finds what a message asks."""

    def __init__(self, tokens: list[Token], quantities: list[Quantity], lexicon: Lexicon):
        self.t, self.lex = tokens, lexicon
        self.taken = set()
        for q in quantities:
            self.taken.update(range(q.first, q.last + 1))
        self.quantities = quantities
        self.asked = Asked()
        self.per: tuple[str, ...] = ()

    def find(self) -> Asked:
        """Zones and units of the question."""
        self._question_words()
        self._blanks()
        self._measures()
        self._orders()
        self._chunks()
        self._money()
        self._bare_units()
        if self.per and self.asked.units and not any(" / " in u for s in self.asked.units for u in s):
            self.asked.units = [tuple(f"{a} / {b}" for a in spelled for b in self.per) for spelled in self.asked.units]
        return self.asked

    def _word(self, i: int) -> str:
        return self.t[i].text if 0 <= i < len(self.t) else ""

    def _ends(self, i: int) -> bool:
        """Does token ``i`` end a clause: a mark, or a dash between spaces?"""
        word = self._word(i)
        if word in ("-", "/"):
            return not self.t[i].glued and i + 1 < len(self.t) and not self.t[i + 1].glued
        return word in ENDS

    def _zone(self, start: int, stop: frozenset[str] = STOP_ZONE, most: int = 9) -> tuple[int, int] | None:
        i, content = start, False
        while i < len(self.t) and i - start < most:
            word = self._word(i)
            if self._ends(i) or i in self.taken:
                break
            if word in stop and content:
                if word == "in" and self.t[i - 1].stem == "weigh":
                    i += 1
                    continue
                if word == "to" and any(self._word(k) == "ratio" for k in range(i + 1, i + 4)):
                    i += 1
                    continue
                break
            if word in stop and word not in ("is", "are", "to", "the", "of", "do", "does", "i", "we", "need", "should", "you", "make", "it",
                                            "would", "will", "can", "must", "go", "goes", "have", "get", "take", "come", "fit", "give", "add"):
                break
            content = content or (self.t[i].kind == "word" and word not in stop_words()) or self._unit_span(i) is not None
            i += 1
        return (start, i - 1) if content else None

    def _unit_span(self, i: int) -> tuple[int, int] | None:
        if i in self.taken:
            return None
        hit = self.lex.unit_at(self.t, i)
        return (i, hit[1]) if hit else None

    def _question_words(self) -> None:
        for i, t in enumerate(self.t):
            if t.text == "how" and self._word(i + 1) in HOW:
                self.asked.how.add(HOW[self._word(i + 1)])
                self._subject(i)
                if self._word(i + 1) == "many" and (i + 2 >= len(self.t) or self._ends(i + 2)):
                    self.asked.how.add("pieces")
                else:
                    self._add(i + 2)
            elif t.text in ("what", "which", "what's", "whats", "wich", "wat"):
                self._subject(i)
                j = i + 1
                while self._word(j) in ("is", "are", "the", "a", "an", "'s", "s", "my", "our", "will", "would"):
                    j += 1
                if self._word(j) not in ("if", "about"):
                    self._add(j)
            elif t.text in ("much", "many") and self._word(i - 1) not in ("how", "as", "so", "too", "that", "very", "not"):
                self.asked.how.add(HOW[t.text])
                self._add(i + 1)

    def _blanks(self) -> None:
        """``WATER ___ g``, ``strength: ____ %``: the label before a line to write on, and the unit after it."""
        for i, t in enumerate(self.t):
            if t.text[0] != "_" or self._word(i - 1)[:1] == "_":
                continue
            last = i - 1
            while last >= 0 and self._word(last) in (":", "=", "is", "->"):
                last -= 1
            first = last
            while first >= 0 and self.t[first].kind == "word" and first not in self.taken and last - first < 4:
                first -= 1
            if first < last and self._contentful((first + 1, last)):
                self.asked.zones.append((first + 1, last))
            end = i
            while self._word(end + 1)[:1] == "_":
                end += 1
            hit = self.lex.unit_at(self.t, end + 1) if end + 1 < len(self.t) and end + 1 not in self.taken else None
            if hit:
                self.asked.units.append(hit[0])
                self.asked.unit_spans.append((end + 1, hit[1]))

    def _subject(self, i: int) -> None:
        """``the water is how many grams``: what is spoken of before the question word at token ``i``."""
        last = i - 1
        if self._word(last) not in ("is", "are", "makes", "=", "equals", "weighs", "holds", "takes", "then", "be"):
            return
        last -= 1
        first = last
        while first >= 0 and self.t[first].kind == "word" and first not in self.taken and last - first < 4 and self._word(first) not in LINKS:
            first -= 1
        if first < last and first not in self.taken and self._contentful((first + 1, last)):
            self.asked.zones.append((first + 1, last))

    def _measures(self) -> None:
        """``number of drops of``, ``weight of salt``: a measure that is named and not given."""
        for i, t in enumerate(self.t):
            if t.stem in MEASURES and self._word(i + 1) == "of" and (i == 0 or self._ends(i - 1) or self._word(i - 1) in (
                    "the", "what", "which", "total", "final", "whole")):
                zone = self._zone(i - (self._word(i - 1) in ("total", "final", "whole")))
                if zone is not None and not self._overlaps(zone):
                    self.asked.zones.append(zone)

    def _add(self, start: int) -> None:
        zone = self._zone(start)
        if zone is None:
            rest = (start, min(start + 8, len(self.t) - 1))
            if rest[0] <= rest[1]:
                self.asked.rest.append(rest)
            return
        self.asked.zones.append(zone)
        end = zone[1] + 1
        tail = end
        while tail < len(self.t) and self._word(tail) not in (".", "?", ";", "\n", "!") and tail - end < 9:
            tail += 1
        if tail > end:
            self.asked.rest.append((end, tail - 1))

    def _orders(self) -> None:
        for i, t in enumerate(self.t):
            if t.stem in ORDERS and i + 1 < len(self.t):
                j = i + 1
                while self._word(j) in ("me", "us", "the", "out", "my", "our", "it", "to", "how", "what", "a", "an", "for", "about", "exact", "just", "please"):
                    j += 1
                if (zone := self._zone(j)) is not None and not self._overlaps(zone):
                    self.asked.zones.append(zone)

    def _overlaps(self, zone: tuple[int, int]) -> bool:
        return any(a <= zone[1] and zone[0] <= b for a, b in self.asked.zones)

    def _chunks(self) -> None:
        """A clause without a number that ends in a question mark, an equals sign or a colon, or the message: ``Milk?``"""
        start = 0
        n = len(self.t)
        while n and self.t[n - 1].kind in ("mark", "line") and self._word(n - 1) not in ("?", "=", ":", ")"):
            n -= 1
        before: tuple[int, int] | None = None
        for i in range(n + 1):
            word = self._word(i) if i < n else "\n"
            if i < n and not self._ends(i) and word != ":":
                continue
            chunk = (start, i - 1)
            start = i + 1
            if chunk[0] > chunk[1]:
                continue
            numbered = any(k in self.taken for k in range(chunk[0], chunk[1] + 1))
            closing = word in ("?", "=") or i == n
            blank = word in (":", "=") and (self._word(i + 1) in ("?", "_", "|", "…") or i + 1 >= n)
            if not numbered and (closing or blank) and chunk[1] - chunk[0] <= 9 and not self._overlaps(chunk):
                if i == n and word not in ("?", "=") and any(self._contentful(z) for z in self.asked.zones):
                    self.asked.rest.append(chunk)
                    before = chunk
                    continue
                self.asked.zones.append(chunk)
                if before is not None and (
                        not self._contentful(chunk) or self._word(before[1] + 1) in (",", "|", "and")):
                    tail = self._tail(before)
                    owned = tail[0] - 1 in self.taken and tail[1] - tail[0] < 2
                    if not owned and self._word(tail[0]) != "of" and self._contentful(tail) and not self._overlaps(tail):
                        self.asked.zones.append(tail)
                        if tail[0] - 1 in self.taken:
                            self.asked.shared.append(tail)
            elif numbered and (closing or before is None and not self.asked.zones) and not blank:
                head = self._head(chunk)
                if head is not None and not self._overlaps(head):
                    self.asked.zones.append(head)
                if word == "?" and (last := self._last_word(chunk)) is not None:
                    self.asked.rest.append(last)
                if head is None and before is None and (label := self._leading(chunk)) is not None:
                    self.asked.rest.append(label)
            before = chunk

    def _last_word(self, chunk: tuple[int, int]) -> tuple[int, int] | None:
        """``450 g sugar 300 g peel ratio?``: the last of two or more words after the last number."""
        k = chunk[1]
        while k > chunk[0] and k not in self.taken and self.t[k].kind == "word":
            k -= 1
        plural = chunk[1] - k == 1 and self.t[chunk[1]].text != self.t[chunk[1]].stem
        return (chunk[1], chunk[1]) if (chunk[1] - k >= 2 or plural) and self._contentful((chunk[1], chunk[1])) else None

    def _leading(self, chunk: tuple[int, int]) -> tuple[int, int] | None:
        """``agar .9 % 650 ml``: the words before the first number, where nothing else is asked."""
        k = chunk[0]
        while k <= chunk[1] and k not in self.taken:
            k += 1
        span = (chunk[0], k - 1)
        return span if span[0] <= span[1] and span[1] - span[0] < 4 and self._contentful(span) else None

    def _contentful(self, span: tuple[int, int]) -> bool:
        """Does a span name anything that the vocabulary knows, units apart?"""
        return any(self.lex.known(t.stem) and t.text not in stop_words() and self.lex.unit_at(self.t, k) is None
                   for k, t in enumerate(self.t[span[0]:span[1] + 1], span[0]))

    def _tail(self, chunk: tuple[int, int]) -> tuple[int, int]:
        k = chunk[1]
        while k > chunk[0] and k - 1 not in self.taken:
            k -= 1
        return k, chunk[1]

    def _head(self, chunk: tuple[int, int]) -> tuple[int, int] | None:
        """``water needed to cut 700 ml``, ``uk units in a 70 cl bottle``: what stands before the first preposition."""
        for k in range(chunk[0], chunk[1] + 1):
            if k in self.taken:
                return None
            if self._word(k) in LINKS and k > chunk[0]:
                span = (chunk[0], k - 1)
                wordy = any(t.kind == "word" and t.text not in stop_words() for t in self.t[span[0]:span[1] + 1])
                return span if wordy and k - chunk[0] <= 6 else None
        return None

    def _money(self) -> None:
        """``in dollars``, ``= $?``, ``how many euros``."""
        for i, t in enumerate(self.t):
            if t.stem in MONEY and i not in self.taken and t.stem != "p" and (
                    self._word(i - 1) in ("in", "many", "=", ":", "the", "is") or self._word(i + 1) in ("?", "")) \
                    and not (t.stem == "pound" and self._word(i - 1) != "in"):
                self.asked.units.append(("currency",))
                self.asked.unit_spans.append((i, i))

    def _bare_units(self) -> None:
        for i in range(len(self.t)):
            span = self._unit_span(i)
            if span is None or any(a <= i <= b for a, b in self.asked.unit_spans) or self.lex.longer_phrase(self.t, i, topics=True):
                continue
            before = self._word(i - 1)
            units = self.lex.unit_at(self.t, i)
            assert units is not None
            in_zone = any(a <= i <= b for a, b in self.asked.zones)
            told = before in ("in", "into", "what", "which", "many", "to", "as", "a", "an", "(", "of", "the", "total", "whole") or before in ENDS | {":", "-", "/"} or i == 0
            unit = self.lex.units[units[0][0]]
            if self._word(span[1] + 1) == "(" and span[1] + 2 in self.taken:
                continue
            if unit.state == "numeral" or unit.name == "part" or any(q.noise and q.first == span[1] + 1 for q in self.quantities):
                continue
            if before == "/" and self.t[i].glued:
                continue
            if before == "per" and any(a <= i <= b or b == i - 2 for a, b in self.asked.zones):
                self.per = units[0]
            if before in ("per", "each", "one") or (before == "the" and not in_zone) or (
                    before in ("a", "an") and unit.kind not in ("percent", "ww", "vv")):
                continue
            short = len(self._word(i)) == 1 and self._word(span[1] + 1) not in ("/", "per")
            alone = (i == 0 or self._ends(i - 1)) and (span[1] + 1 >= len(self.t) or self._ends(span[1] + 1))
            if alone and i > 0 or in_zone and not (short and before not in ("in", "many", "(")) or (told and before not in ("of", "the") and not short) or (
                    short and before in ("in", "many", "(", "?")) or (
                    self._word(span[1] + 1) in ("?", "", "pl", "pls", "please", "needed", "of") and not short and before not in ("of",)):
                spelled, last = self._rate(units[0], span[1], i)
                self.asked.units.append(spelled)
                self.asked.unit_spans.append((i, last))

    def _rate(self, names: tuple[str, ...], last: int, first: int) -> tuple[tuple[str, ...], int]:
        """``grams per litre``, ``ml a kilo``: a rate that is asked in."""
        k = last + 1
        if self._word(k) in ("per", "/", "a", "an", "each", "every", "to", "for"):
            k += 1
            if self._word(k) in ("the", "each"):
                k += 1
            hit = self.lex.unit_at(self.t, k) if k not in self.taken and self.t[k:k + 1] and self.t[k].stem != "part" else None
            if hit is None and k in self.taken:
                for q in self.quantities:
                    if q.first == k and q.implied and q.units:
                        hit = (q.units, q.last)
            if hit:
                return tuple(f"{a} / {b}" for a in names for b in hit[0] if a in self.lex.units and b in self.lex.units), hit[1]
        for q in self.quantities:
            if q.implied and q.units and q.first > last and not q.unsized and q.value == 1 and all(
                    not self._ends(k) and k not in self.taken for k in range(last + 1, q.first)) \
                    and self._word(q.first) in ("a", "an") and self._word(q.first - 1) in ("that", "is", "it", "i", "we", "get", *()):
                q.noise = "asked"
                return tuple(f"{a} / {b}" for a in names for b in q.units if a in self.lex.units), last
        return names, last
