"""Which words of a clause name what is asked: before its first number, after its last, before a preposition."""

from __future__ import annotations

from .asked_forms import AskedForms
from .lexicon import stop_words

LINKS = frozenset("for in to on needed from with required per that if of".split())
OPENING_WHAT = frozenset("is are the a an 's s my our will would".split())
TOLD_OF = frozenset("of is are was were gets goes stays".split())
"""What follows a number and goes on telling of it: ``8 % is lost in the cloth. How much do we get?``"""
SHARES = frozenset("percent percentage share fraction proportion".split())
BEING = frozenset("is are was were did do does has have goes went gets got".split())
SUPPOSING = frozenset("suppose supposing assume assuming imagine say".split())


class AskedSpans(AskedForms):
    """Finds the words of a clause that may be what is asked."""

    def _predicates(self) -> None:
        """``what percentage is usable?``, ``what share did I bin?``: what the share is of is told behind it."""
        for a, b in list(self.asked.zones):
            shares = [i for i in range(a, b + 1) if self.t[i].stem in SHARES]
            if not shares or self._contentful((a, shares[0] - 1)) or self._contentful((shares[0] + 1, b)):
                continue
            for rest in [r for r in self.asked.rest if r[0] == b + 1 and self._word(r[0]) in BEING]:
                if not any(i in self.taken for i in range(rest[0], rest[1] + 1)):
                    self.asked.rest.remove(rest)
                    self.asked.zones.append(rest)

    def _one_thing(self, i: int) -> bool:
        """``what's one wedge?``: does token ``i`` say that one of the things named after it is asked about?"""
        plain = self._word(i) == "one" and i + 1 < len(self.t) and self.t[i + 1].kind == "word"
        return plain and i + 1 not in self.taken and self._unit_span(i + 1) is None

    def _with_its_strength(self, i: int) -> None:
        """``oz of 80 proof tequila?``, ``how much 40 % rum?``: the thing that is asked for, after its strength."""
        i += self._word(i) in ("of", "the", "a")
        strength = next((q for q in self.quantities if q.first == i and q.strength and not q.noise), None)
        if strength is None:
            return
        first = last = strength.last + 1
        while last < len(self.t) and self.t[last].kind == "word" and self._word(last) not in stop_words():
            last += 1
        if first < last and self._contentful((first, last - 1)):
            self.asked.zones.append((first, last - 1))
            self.asked.shared.append((first, last - 1))

    def _measured(self, chunk: tuple[int, int]) -> tuple[int, int] | None:
        """``Final volume at 20 °C, litres?``: what stands before a condition, when only a unit comes after it."""
        label = self._leading(chunk)
        if label is None or self._word(label[1]) != "at" or label[0] == label[1]:
            return None
        return label[0], label[1] - 1

    def _last_word(self, chunk: tuple[int, int]) -> tuple[int, int] | None:
        """``450 g sugar 300 g peel ratio?``: the last of two or more words after the last number."""
        k = chunk[1]
        while k > chunk[0] and k not in self.taken and self.t[k].kind == "word":
            k -= 1
        plural = chunk[1] - k == 1 and self.t[chunk[1]].text != self.t[chunk[1]].stem
        before = next((q for q in self.quantities if q.last == k), None)
        labelled = chunk[0] not in self.taken and self._contentful((chunk[0], chunk[0]))
        if before is not None and (before.strength or before.ratio or labelled) and not self.asked.zones:
            plural = True
        return (
            (chunk[1], chunk[1]) if (chunk[1] - k >= 2 or plural) and self._contentful((chunk[1], chunk[1])) else None
        )

    def _leading(self, chunk: tuple[int, int]) -> tuple[int, int] | None:
        """``agar .9 % 650 ml``: the words before the first number, where nothing else is asked."""
        k = chunk[0]
        while k <= chunk[1] and k not in self.taken:
            k += 1
        span = (chunk[0], k - 1)
        return span if span[0] <= span[1] and span[1] - span[0] < 4 and self._contentful(span) else None

    def _tail(self, chunk: tuple[int, int]) -> tuple[int, int]:
        k = chunk[1]
        while k > chunk[0] and k - 1 not in self.taken:
            k -= 1
        return k, chunk[1]

    def _head(self, chunk: tuple[int, int]) -> tuple[int, int] | None:
        """``water needed to cut 700 ml``, ``uk units in a 70 cl bottle``: what stands before the first preposition.

        What is supposed is not asked (``suppose the ingredients go up to 2.90``).
        """
        if self._word(chunk[0]) in SUPPOSING:
            return None
        for k in range(chunk[0], chunk[1] + 1):
            if k in self.taken or self._word(chunk[0]) == "for":
                return None
            at_a = self._word(k) == "at" and self._word(k + 1) in ("a", "an", "the")
            if (self._word(k) in LINKS or at_a) and k > chunk[0]:
                span = (chunk[0], k - 1)
                wordy = any(t.kind == "word" and t.text not in stop_words() for t in self.t[span[0] : span[1] + 1])
                return span if wordy and k - chunk[0] <= 6 else None
        return None
