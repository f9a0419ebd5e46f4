"""What a form asks: a label before a line to write on, or before a unit in brackets."""

from __future__ import annotations

from .asked_units import AskedUnits
from .clauses import SENTENCE_ENDS
from .lexicon import stop_words

LABEL_ENDS = frozenset({"", "of"})
FEWEST_TOLD = 2
"""With fewer numbers, what a message begins with may be what the number is one of (``saline, 300 g``)."""

DIVIDING, SPLIT_WITHIN = frozenset("split divide divided splitting dividing".split()), 6
LONGEST_END = 3
ENDINGS = frozenset(
    """pressure volume strength abv ratio dose cost price margin profit dilution density brix weight mass acidity time
    temperature proof yield""".split()
)
"""Measures, which a message may end with as a question (``batch``, ``spirit`` may be what the last number is of)."""


class AskedForms(AskedUnits):
    """Finds the labels of a form's empty places."""

    def forms(self) -> None:
        """Zones and units of the empty places."""
        self._blanks()
        self._symbols()
        self._labelled()
        self._with_units()
        self._at_the_end()
        self._split()

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
            owned = first in self.taken or self._word(last) == "to"
            if first < last and not owned and self._contentful((first + 1, last)):
                self.asked.zones.append((first + 1, last))
            end = i
            while self._word(end + 1)[:1] == "_":
                end += 1
            hit = self.lex.unit_at(self.t, end + 1) if end + 1 < len(self.t) and end + 1 not in self.taken else None
            if hit:
                spelled, last = self._rate(hit[0], hit[1], end + 1)
                self.asked.units.append(spelled)
                self.asked.unit_spans.append((end + 1, last))

    def _symbols(self) -> None:
        """``T/°C = ?``, ``thats ? ml``: a symbol over its unit, or a mark for the number before it."""
        for i, t in enumerate(self.t):
            if t.text != "?" or i == 0:
                continue
            after = self._unit_span(i + 1) if i + 1 < len(self.t) else None
            if after is not None and after[1] + 1 >= len(self.t) and self.t[i - 1].kind == "word":
                self._ask_in(after)
            k = i - 1 - (self._word(i - 1) in (":", "="))
            over = next((n for n in range(k - 1, max(k - 4, 0), -1) if self._word(n) == "/"), None)
            span = self._unit_span(over + 1) if over is not None and self.t[over].glued else None
            if over is not None and span is not None and span[1] == k and len(self._word(over - 1)) == 1:
                self._ask_in(span)

    def _ask_in(self, span: tuple[int, int]) -> None:
        hit = self.lex.unit_at(self.t, span[0])
        if hit:
            self.asked.units.append(hit[0])
            self.asked.unit_spans.append(span)

    def _labelled(self) -> None:
        """``Spirit (ml): ?``, ``Boxes to order (whole)?``: the label before what stands in brackets, and its unit."""
        for i, t in enumerate(self.t):
            k = i - 1 - (self._word(i - 1) in (":", "="))
            if t.text != "?" or self._word(k) != ")":
                continue
            opening = next((n for n in range(k - 1, max(k - 5, 0), -1) if self._word(n) == "("), 0)
            first = opening
            while first > 0 and self.t[first - 1].kind == "word" and first - 1 not in self.taken:
                first -= 1
            named = any(self.lex.known(x.stem) and x.text not in stop_words() for x in self.t[first:opening])
            if not first < opening or not named:
                continue
            self.asked.zones.append((first, opening - 1))
            span = self._unit_span(opening + 1)
            if span is not None and span[1] == k - 1 and (hit := self.lex.unit_at(self.t, opening + 1)):
                self.asked.units.append(hit[0])
                self.asked.unit_spans.append(span)

    def _with_units(self) -> None:
        """``Spirit, l; water, l.``, ``Stirred dilution, % of what went in``: what begins a clause, and its unit."""
        for i in range(2, len(self.t)):
            span = self._unit_span(i) if self._word(i - 1) == "," else None
            hit = self.lex.unit_at(self.t, i) if span else None
            if span is None or hit is None or not (self._word(span[1] + 1) in LABEL_ENDS or self._ends(span[1] + 1)):
                continue
            first = i - 1
            while first > 0 and self.t[first - 1].kind == "word" and first - 1 not in self.taken and i - first <= 4:
                first -= 1
            label = (first, i - 2)
            whole = first == 0 or (self._ends(first - 1) and self._word(first - 1) != ",")
            if not whole or not self._contentful(label) or self._overlaps(label) or span[1] + 2 in self.taken:
                continue
            self.asked.zones.append(label)
            self.asked.units.append(hit[0])
            self.asked.unit_spans.append(span)

    def _at_the_end(self) -> None:
        """``in 90 ml out 128 ml dilution %?``: one word between the last amount and the unit that is asked in."""
        last = self.quantities[-1] if self.quantities else None
        at = len(self.t) - 3
        if last is None or last.last != at - 1 or not last.units or self._word(at + 2) != "?":
            return
        span = self._unit_span(at + 1) if self.t[at].kind == "word" and self._word(at + 1) == "%" else None
        if span is not None and self._contentful((at, at)) and not self._overlaps((at, at)):
            self.asked.zones.append((at, at))

    def _split(self) -> None:
        """``split 6 l into drink and milk``: the two parts into which a whole is to be divided."""
        for i, t in enumerate(self.t):
            into = next((k for k in range(i + 1, i + SPLIT_WITHIN) if self._word(k) == "into"), 0)
            if t.text not in DIVIDING or not into:
                continue
            both = next((k for k in range(into + 2, into + SPLIT_WITHIN) if self._word(k) == "and"), 0)
            last = both + 1
            while both and not self._ends(last + 1) and last + 1 < len(self.t) and last + 1 not in self.taken:
                last += 1
            parts = [(into + 1, both - 1), (both + 1, last)]
            if both and last < len(self.t) and all(self._contentful(p) and not self._overlaps(p) for p in parts):
                self.asked.zones += parts
                self.asked.split = True

    def opening(self) -> None:
        """``vol after shaking, 100 ml 22 %``: what a message begins with, where nothing else is asked."""
        if self.asked.zones or self.asked.units or sum(not q.noise for q in self.quantities) < FEWEST_TOLD:
            return
        if not SENTENCE_ENDS.isdisjoint(t.text for t in self.t[:-1]):
            return
        end = next((i for i in range(len(self.t)) if self._ends(i)), 0)
        label = (0, end - 1)
        numbered = any(q.last < end for q in self.quantities)
        if self._word(end) == "," and end + 1 in self.taken and not numbered and self._contentful(label):
            self.asked.zones.append(label)

    def ending(self) -> None:
        """``90 ml at 25 %, final volume``, ``2.5 volumes at 4 °C pressure``: the measure that a message ends with, and
        that its last number is none of, where nothing else is asked (``28 % shaken final abv``: a word is between)."""
        if self.asked.zones or self.asked.how:
            return
        end = len(self.t)
        while end and self.t[end - 1].kind in ("mark", "line"):
            end -= 1
        if any(b != end - 1 for _, b in self.asked.unit_spans):
            return
        before = [q for q in self.quantities if q.last < end]
        last = before[-1] if before else None
        if last is None or last.per or last.ratio is not None or not 1 <= end - 1 - last.last <= LONGEST_END:
            return
        degrees = self.t[last.last + 1].stem == "degree"
        if last.bare and not degrees:
            return
        for i in range(last.last + 1 + degrees, end if self.t[end - 1].stem in ENDINGS else 0):
            entry = next((e for n, e in self.lex.begin(self.t, i) if i + n == end), None)
            if entry is not None and entry.meanings and not entry.substances:
                own = () if last.money or degrees else self.lex.units[last.units[0]].dimension
                apart = i > last.last + 1 + degrees and self.lex.known(self.t[last.last + 1].stem)
                if apart or own not in self.lex.dimensions(entry):
                    self.asked.zones.append((i, end - 1))
                return

    def turned_into(self) -> None:
        """``65 brix to ratio``, ``40 proof as strength``: one number, and what it is to be said as."""
        if self.asked.zones or self.asked.units or len(self.quantities) != 1:
            return
        i = self.quantities[0].last + 1
        if self._word(i) not in ("to", "in", "as", "into") or not 1 <= len(self.t) - i - 1 <= 4:
            return
        unit = self.lex.unit_at(self.t, i + 1)
        if unit is None:
            self.asked.zones.append((i + 1, len(self.t) - 1))
        else:
            self.asked.units.append(unit[0])
            self.asked.unit_spans.append((i + 1, unit[1]))
