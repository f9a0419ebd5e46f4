"""The units that an answer is asked in: ``in ml``, ``how many grams per litre``, ``= $?``."""

from __future__ import annotations

from itertools import pairwise

from .asked_rates import AskedRates
from .clauses import ENDS
from .lexicon import stop_words
from .quantity import MONEY, MONEY_ASKED, TIME

CONVERTING = frozenset("convert conversion translate".split())
ONLY, ONLY_NEAR = frozenset("only just keep keeps knows think thinks work works".split()), 3
EXCHANGED = frozenset({"exchange", "menu", "list", "tab"})
KINDS, NEAR = frozenset({"ww", "vv", "wv"}), 4
SERVED_IN = frozenset({"cup", "glass"})
AS_A_SHARE, LONGEST_SHARED = [["as", "a", "of"], ["as", "the", "of"], ["in", "a", "of"]], 6
LASTING = frozenset("left lft remaining remain old".split())


class AskedUnits(AskedRates):
    """Finds the units of the question."""

    def units_asked(self) -> None:
        """Add them to what is asked."""
        self._money()
        self._bare_units()
        self._mentioned()
        self._own_unit()
        self._share_of()
        if self.per and self.asked.units and not any(" / " in u for s in self.asked.units for u in s):
            self.asked.units = [tuple(f"{a} / {b}" for a in spelled for b in self.per) for spelled in self.asked.units]

    def _share_of(self) -> None:
        """``the water as a percentage of the finished drink``: what a share is asked of says which share it is."""
        for a, b in self.asked.unit_spans:
            if [self._word(a - 2), self._word(a - 1), self._word(b + 1)] not in AS_A_SHARE:
                continue
            last = b + 1
            while last + 1 < len(self.t) and not self._ends(last + 1) and last + 1 not in self.taken:
                last += 1
            if last - b <= LONGEST_SHARED and not self._overlaps((b + 1, last)):
                self.asked.zones.append((b + 1, last))

    def _mentioned(self) -> None:
        """``it shows 26 psi, our manual only speaks of bar: convert it``, ``our gauge only has bar: what should it
        read?``: the one other unit of that measure."""
        said = [q for q in self.quantities if q.units and not (q.noise or q.rejected or q.weak)]
        if len(said) != 1 or said[0].per:
            return
        if self.asked.units:
            other = not set(self.asked.units[0]) & set(said[0].units)
            self.asked.mentioned = len(self.asked.units) == 1 and other and self._only_that(self.asked.unit_spans[0])
            return
        own = {self.lex.units[u].dimension for u in said[0].units}
        converted = any(t.stem in CONVERTING for t in self.t)
        for i in range(len(self.t)):
            span = self._unit_span(i)
            hit = self.lex.unit_at(self.t, i) if span else None
            if not (span and hit and (converted or self._only_that(span))):
                continue
            if len(self._word(i)) > 1 and not set(hit[0]) & set(said[0].units) and any(
                self.lex.units[u].dimension in own for u in hit[0]
            ):
                self.asked.units.append(hit[0])
                self.asked.unit_spans.append(span)
                self.asked.mentioned = True
                return

    def _only_that(self, span: tuple[int, int]) -> bool:
        """``my gauge only has bar``, ``our scale does grams only``: is a unit the one that somebody has or knows?"""
        near = range(max(0, span[0] - ONLY_NEAR), span[0]), range(span[1] + 1, span[1] + 2)
        wholly = (self._word(span[0] - 2), self._word(span[0] - 1)) == ("all", "in")
        return wholly or any(self._word(k) in ONLY for ks in near for k in ks)

    def _counted(self, i: int) -> bool:
        """``24 jelly cups``, ``every cup is to be so much: how many cups?``: is the unit at token ``i`` counted?"""
        if self.t[i].stem in SERVED_IN and any(
            a.text in ("every", "each") and b.stem == self.t[i].stem for a, b in pairwise(self.t)
        ):
            return True
        plain = i - 1 not in self.taken and self.t[i - 1].kind == "word" and self._word(i - 1) not in stop_words()
        return plain and any(q.last == i - 2 and q.bare and not q.noise for q in self.quantities)

    def _said_before(self, i: int) -> bool:
        """``what weight of 5 % solution (w/w)``: is the kind of a percent told in brackets after it?"""
        kind = (hit := self.lex.unit_at(self.t, i)) is not None and self.lex.units[hit[0][0]].kind in KINDS
        return kind and self._word(i - 1) == "(" and any(q.strength and 0 < i - q.last <= NEAR for q in self.quantities)

    def _of_the_list(self, i: int) -> bool:
        """``ml: 45 tequila, 20 lime``, ``40 rum, 20 lime (ml)``: is the unit before token ``i`` that of a list which
        begins after it, or which ends before it?"""
        if self._word(i) == ")" and self._word(i - 2) == "(":
            return any(q.noted and q.last < i for q in self.quantities)
        return self._word(i) == ":" and any(q.noted and q.first == i + 1 for q in self.quantities)

    def _own_unit(self) -> None:
        """``the display is in fahrenheit, says 5 °F: in celsius?``: the unit of the one amount is not asked for."""
        said = [q for q in self.quantities if q.units and not (q.noise or q.rejected or q.weak)]
        if len(said) != 1 or len(self.asked.units) < 2:
            return
        own = {self.lex.units[u].dimension for u in said[0].units}
        other = [
            k
            for k, spelled in enumerate(self.asked.units)
            if not set(spelled) & set(said[0].units)
            and any(u in self.lex.units and self.lex.units[u].dimension in own for u in spelled)
        ]
        if other:
            self.asked.units = [self.asked.units[k] for k in other]
            self.asked.unit_spans = [self.asked.unit_spans[k] for k in other]

    def _money(self) -> None:
        """``in dollars``, ``= $?``, ``how many euros``."""
        for i, t in enumerate(self.t):
            if (
                t.stem in MONEY
                and i not in self.taken
                and t.stem != "p"
                and (self._word(i - 1) in ("in", "many", "=", ":", "the", "is") or self._word(i + 1) in ("?", ""))
                and not (t.stem == "pound" and (self._word(i - 1) != "in" or not self._about_money()))
            ):
                self.asked.units.append(("currency",))
                self.asked.unit_spans.append((i, i))

    def _about_money(self) -> bool:
        """Is any sum of money told, or a price asked for (``in pounds`` is a weight where none is)?"""
        told = any(q.money or "currency" in q.units for q in self.quantities)
        return told or any(t.stem in MONEY_ASKED | EXCHANGED for t in self.t)

    def _bare_units(self) -> None:
        for i in range(len(self.t)):
            span = self._unit_span(i)
            if (
                span is None
                or any(a <= i <= b for a, b in self.asked.unit_spans)
                or (self.lex.longer_phrase(self.t, i, topics=True) and not self._lasting(i))
            ):
                continue
            before = self._word(i - 1)
            if self._word(i) == "count" and before in ("to", "i", "we", "not", "don't", "do"):
                continue
            if self._said_before(i) or self._counted(i) or self._of_the_list(span[1] + 1):
                continue
            if self._lasting(i) and self._word(span[1] + 1) in LASTING:
                self.asked.zones.append((i, span[1] + 1))
            units = self.lex.unit_at(self.t, i)
            assert units is not None
            in_zone = any(a <= i <= b for a, b in self.asked.zones)
            told = (
                before
                in ("in", "into", "what", "which", "many", "to", "as", "a", "an", "(", "of", "the", "total", "whole")
                or before in ENDS | {":", "-", "/"}
                or i == 0
            )
            unit = self.lex.units[units[0][0]]
            if self._word(span[1] + 1) == "(" and span[1] + 2 in self.taken:
                continue
            if (
                unit.state == "numeral"
                or unit.name == "part"
                or any(q.noise and q.first == span[1] + 1 for q in self.quantities)
            ):
                continue
            if before == "/" and self.t[i].glued:
                continue
            if before not in ("in", "many") and any(q.first == span[1] + 1 and q.bare for q in self.quantities):
                continue
            if before == "per" and any(a <= i <= b or b == i - 2 for a, b in self.asked.zones):
                self.per = units[0]
            if (
                before in ("per", "each", "one")
                or (before == "the" and not in_zone)
                or (before in ("a", "an") and unit.kind not in ("percent", "ww", "vv"))
            ):
                continue
            short = len(self._word(i)) == 1 and self._word(span[1] + 1) not in ("/", "per")
            share = self._word(span[1] + 1) == "of" or (self._ends(i - 1) and self.t[span[1] + 1 :][:1])
            short = short and not (self._word(i) == "%" and share)
            short = short and not (self._word(span[1] + 1) == "?" and self._word(i - 1) not in ENDS)
            alone = (i == 0 or self._ends(i - 1)) and (span[1] + 1 >= len(self.t) or self._ends(span[1] + 1))
            if (
                (alone and i > 0)
                or (in_zone and not (short and before not in ("in", "many", "(")))
                or (told and before not in ("of", "the") and not short)
                or (short and before in ("in", "many", "(", "?"))
                or (before == "what" and self._word(span[1] + 1) in ("", "?"))
                or (self._word(i) == "%" and before in ("what", "which", "what's", "whats") and self._alone(i))
                or (
                    self._word(span[1] + 1) in ("?", "", "pl", "pls", "please", "needed", "of", "again")
                    and not short
                    and before not in ("of",)
                )
            ):
                spelled, last = self._rate(units[0], span[1], i)
                self.asked.units.append(spelled)
                self.asked.unit_spans.append((i, last))

    def _lasting(self, i: int) -> bool:
        """``hours left``: a unit of time is one in whatever name it stands."""
        units = self.lex.unit_at(self.t, i)
        return units is not None and self.lex.units[units[0][0]].dimension == TIME

    def _alone(self, i: int) -> bool:
        """Is nothing else asked for by name than the unit at token ``i``?"""
        return not any(self._contentful(z) for z in self.asked.zones if not z[0] <= i <= z[1])
