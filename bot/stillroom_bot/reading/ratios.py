"""Ratios: ``3:1``, ``two to one``, ``3 parts X to 1 part Y``, equal parts, and the names of their terms."""

from __future__ import annotations

from itertools import pairwise

from .by_parts import parts_of_a_drink
from .lexicon import Lexicon
from .noise import Noise
from .numbers import Number, number_at
from .quantity import HOMOPHONES, Looking, Quantity
from .relations import Relations
from .tokens import Token

HEARD = frozenset({"too", "won", "tree", "fore", "to", "for"})
"""What dictation makes of a ratio's first number."""
NO_TERM = frozenset("part measure serve serving drink-serve guest people person day hour night week bottle".split())
EQUALS = frozenset({"equal", "same", "even", "half", "one", "weight", "gram", "measure"})
OPENING_RATIO = HEARD | EQUALS


class Ratios(Looking):
    """Finds the ratio that begins at a token."""

    def __init__(self, tokens: list[Token], lexicon: Lexicon, comma: bool, noise: Noise):
        super().__init__(tokens, lexicon, comma)
        self.noise = noise
        self.relations = Relations(tokens, lexicon, comma)
        self._parts_for_short()
        self.many_parts = parts_of_a_drink(tokens, lexicon)

    def _parts_for_short(self) -> None:
        """``5 pts sugar to 4 pts peel``: parts, and no pints."""
        at = [i for i, t in enumerate(self.t) if t.text in ("pt", "pts")]
        for i, j in pairwise(at):
            between = [t.text for t in self.t[i + 1 : j]]
            after = self.t[j + 1].kind if j + 1 < len(self.t) else ""
            if len(between) in (3, 4) and between[-2] in ("to", ":") and after == "word":
                for t in (self.t[i], self.t[j]):
                    t.text, t.stem = "parts", "part"

    def at(self, i: int) -> Quantity | None:
        """The ratio that begins at token ``i``."""
        if self.t[i].text in EQUALS and (equal := self._equal_parts(i)) is not None:
            return equal
        a = number_at(self.t, i, self.comma)
        if a is None:
            return self._ratio(i, None) if self.t[i].text in HEARD else None
        return self.relations.at(a) or self._of_each(i, a) or self._after_each(i, a) or self._ratio(i, a)

    def _equal_parts(self, i: int) -> Quantity | None:
        words = (self._word(i), self._stem(i + 1))
        if words in (
            ("equal", "part"),
            ("equal", "weight"),
            ("same", "weight"),
            ("equal", "amount"),
            ("equal", "measure"),
            ("even", "part"),
            ("equal", "mass"),
            ("equal", "volume"),
            ("equal", "sugar"),
            ("same", "amount"),
        ):
            return Quantity(1.0, i, i + (words[1] != "sugar"), ratio=(1.0, 1.0))
        if (self._word(i), self._word(i + 1), self._word(i + 2)) in (
            ("half", "and", "half"),
            ("one", "for", "one"),
            ("weight", "for", "weight"),
            ("gram", "for", "gram"),
            ("measure", "for", "measure"),
        ):
            return Quantity(1.0, i, i + 2, ratio=(1.0, 1.0))
        return None

    def _of_each(self, i: int, a: Number) -> Quantity | None:
        """``4 of drink and 1 of milk``: shares without the word part."""
        if self._word(a.last + 1) != "of":
            return None
        left = self.lex.name_after(self.t, a.last + 1)
        if left is None or self._word(left[1] + 1) not in ("and", "to", ",", "with"):
            return None
        b = self._term(left[1] + 2)
        if b is None or self._word(b.last + 1) != "of" or b.value == 0:
            return None
        right = self.lex.name_after(self.t, b.last + 1)
        return (
            Quantity(a.value / b.value, i, right[1], ratio=(a.value, b.value), names=(left, right)) if right else None
        )

    def _after_each(self, i: int, a: Number) -> Quantity | None:
        """``5 drink : 1 milk``, ``4 drink to 1 milk``: each term with its thing after it."""
        j = a.last + 1
        if a.other is not None or self.lex.unit_at(self.t, j) or self._stem(j) in NO_TERM:
            return None
        left = self.lex.name_after(self.t, a.last)
        if left is None or left[0] != j or self._word(left[1] + 1) not in (":", "to") or self._word(left[1]) == "x":
            return None
        b = self._term(left[1] + 2)
        if b is None or b.value == 0 or self.t[left[1] + 2].kind == "word" or self.lex.unit_at(self.t, b.last + 1):
            return None
        right = self.lex.name_after(self.t, b.last)
        if right is None or right[0] != b.last + 1 or self._stem(right[0]) in NO_TERM or max(a.value, b.value) > 60:
            return None
        if not (self._known(left) and self._known(right)) or self._word(right[1] + 1) in (":", "to"):
            return None
        return Quantity(a.value / b.value, i, right[1], ratio=(a.value, b.value), names=(left, right))

    def _thing(self, span: tuple[int, int]) -> bool:
        entry = self.lex.entries.get(tuple(t.stem for t in self.t[span[0] : span[1] + 1]))
        return entry is not None and bool(entry.substances)

    def _known(self, span: tuple[int, int]) -> bool:
        return tuple(t.stem for t in self.t[span[0] : span[1] + 1]) in self.lex.entries

    def _ratio(self, i: int, a: Number | None) -> Quantity | None:
        homophone = (a is None and self.t[i].text in ("too", "won", "tree", "fore")) or (
            a is None and self.t[i].text in ("to", "for") and self._stem(i + 1) == "part"
        )
        if homophone:
            a = self._term(i)
        if a is None or a.other is not None or (self.many_parts and self._stem(a.last + 1) == "part"):
            return None
        if self._stem(a.last + 1) == "part" or (self._stem(a.last + 1) == "measure" and self._word(a.last + 2) != "of"):
            return self._parts(a)
        if homophone and [self._word(a.last + k) for k in (1, 2)] != ["to", "one"]:
            return None
        j = a.last + 1
        if self._word(j) == "-" and self._word(j + 1) == "to" and self._word(j + 2) == "-":
            b = number_at(self.t, j + 3, self.comma)
            if b is not None and b.value:
                return Quantity(a.value / b.value, i, b.last, ratio=(a.value, b.value), names=self._names(i, b.last))
        sign = self._word(j)
        if sign in (":", "to", "two", "too") and not self.noise.of(a):
            b = self._term(j + 1) if self._word(j + 1) not in ("a",) else None
            if b is None:
                return None
            if (
                b.worded
                and self.t[b.first].text in ("to", "for", "too")
                and sign != ":"
                and self._word(b.first + 1) in ("the", "a", "my", "our")
            ):
                return None
            unit_after = self.lex.unit_at(self.t, b.last + 1)
            if (sign == ":" and self.t[j].glued != self.t[j + 1].glued) or (
                sign == ":" and unit_after and not self.t[j].glued
            ):
                return None
            if sign in ("to", "two", "too"):
                if self._word(i - 1) in ("from", "between") or (
                    unit_after and self._stem(b.last + 1) not in ("part", "in", "bar", "min")
                ):
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

    def _names(self, first: int, last: int) -> tuple[tuple[int, int] | None, tuple[int, int] | None]:
        """``drink to milk 3:1``, ``3:1 drink to milk``, ``sugar:peel 2:1``: the tokens of both names."""
        for start, step in ((first - 1, -1), (last + 1, 1)):
            k = start
            while self._word(k) in (
                ":",
                "=",
                ",",
                "is",
                "at",
                "a",
                "of",
                "ratio",
                "in",
                "the",
                "by",
                "mass",
                "weight",
                "volume",
                "(",
                "for",
            ):
                k += step
            window = range(max(0, k - 6), k + 1) if step < 0 else range(k, min(len(self.t), k + 7))
            for m in window:
                if self._word(m) in ("to", ":", "-", "/") and 0 < m < len(self.t) - 1:
                    left = self.lex.name_before(self.t, m)
                    right = self.lex.name_after(self.t, m)
                    if (
                        left
                        and right
                        and len(self._word(m - 1)) > 1
                        and (self._word(m) != "-" or self._named_thing(right))
                        and not (left[0] <= first <= left[1] or right[0] <= first <= right[1])
                        and (k <= right[1] <= k + 1 if step < 0 else k <= left[0] <= k + 1)
                    ):
                        return left, right
        left, right = self._shared(first)
        return (left, right) if left else self._shared_after(last)

    def _named_thing(self, span: tuple[int, int]) -> bool:
        """``milk-clarify at 4:1``: is a name that of a thing, and no verb that a hyphen joins to one?"""
        entry = self.lex.entries.get(tuple(t.stem for t in self.t[span[0] : span[1] + 1]))
        return entry is not None and (bool(entry.substances) or any(m.variables for m in entry.meanings.values()))

    def _shared_after(self, last: int) -> tuple[tuple[int, int] | None, tuple[int, int] | None]:
        """``2:1 citric and malic``, ``3:2 into peel and sugar``: two things after the ratio of the one to the other."""
        i = last + 1 + (self._word(last + 1) in ("of", "into"))
        both = next((m for m in range(i + 1, i + 4) if self._word(m) in ("and", "&")), 0)
        left = self.lex.name_before(self.t, both) if both else None
        right = self.lex.name_after(self.t, both) if both else None
        told = left is not None and right is not None and left[0] == i and self._known(left) and self._thing(right)
        return (left, right) if told else (None, None)

    def _shared(self, first: int) -> tuple[tuple[int, int] | None, tuple[int, int] | None]:
        """``split between citric and malic in the ratio 3:2``: two things, and the ratio of the one to the other."""
        for m in range(first - 1, max(0, first - 9), -1):
            if self.t[m].kind == "number" or self._word(m) in (".", ";", "?", "\n"):
                break
            if self._word(m) in ("and", "&"):
                left, right = self.lex.name_before(self.t, m), self.lex.name_after(self.t, m)
                told = any(self._word(k) == "ratio" for k in range(m, first)) or (right and right[1] == first - 1)
                if told and left and right and self._known(left) and self._known(right):
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
            if word == "\n" or (self.t[k].kind in ("number", "fraction") and not self._parts_at(k)):
                break
            b = (
                self._term(k + 1)
                if word in ("to", "two", "too", "and", ",", "with", "for", ":", "plus", "on", "per", "/", "-")
                else None
            )
            if b is None and k > j and self._word(a.first - 1) != "=" and self._parts_at(k):
                b = number_at(self.t, k, self.comma)
            if b is not None and not (self.t[k + 1].text in ("to", "for") and self._stem(k + 2) != "part"):
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

    def _parts_at(self, k: int) -> bool:
        """``3 parts malic 2 parts tartaric``: do the parts of the second thing begin here?"""
        n = number_at(self.t, k, self.comma)
        return n is not None and self._stem(n.last + 1) == "part"

    def _label_parts(self, a: Number) -> Quantity | None:
        """``milk 1 part : drink 4 parts``."""
        left = self.lex.name_before(self.t, a.first - (self._word(a.first - 1) in (":", "=")))
        if left is None or self._word(a.last + 2) not in (":", ",", "to", "-", "/", ";", "\n", "and"):
            return None
        right = self.lex.name_after(self.t, a.last + 2)
        after = right[1] + 1 + (self._word(right[1] + 1) in (":", "=")) if right is not None else 0
        b = self._term(after) if right is not None else None
        if b is None or right is None or self._stem(b.last + 1) != "part" or b.value == 0:
            return None
        return Quantity(a.value / b.value, a.first, b.last + 1, ratio=(a.value, b.value), names=(left, right))
