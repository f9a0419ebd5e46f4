"""Subjects that are never answered, as the plugins declare them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Any, TypeAlias

from .reading.lexicon import common_words, stems_of
from .reading.spelling import closest
from .reading.tokens import Token

if TYPE_CHECKING:
    from stillroom import Kernel

    from .reading.reader import Reader

Words: TypeAlias = tuple[frozenset[str], ...]
Pattern: TypeAlias = tuple[Words, ...]

DENIALS = frozenset("not no non isn't ain't never without nor neither".split())
SHORTEST, NEAR = 7, 87.0


class Refusals:
    """Patterns of stems: one holds when each of its parts occurs, and a part is words in a row.

    Several words with ``|`` between them stand for any one of them.  A word of ``SHORTEST`` letters or more
    counts when it is misspelled too, unless it is among the ``known`` words.
    """

    def __init__(self, rows: Iterable[Mapping[str, Any]], known: frozenset[str] = frozenset()):
        self._by_word: dict[str, list[tuple[frozenset[str], Pattern, int]]] = {}
        self._rows: list[tuple[list[Pattern], str]] = []
        self._known = known
        long: set[str] = set()
        for n, r in enumerate(rows):
            self._rows.append((_patterns(r.get("unless")), str(r["reason"])))
            for pattern in _patterns(r["words"]):
                needed = frozenset(s for words in pattern for w in words if len(w) == 1 for s in w)
                for first in pattern[0][0]:
                    self._by_word.setdefault(first, []).append((needed, pattern, n))
                if len(pattern) == len(pattern[0]) == 1:
                    long |= {w for w in pattern[0][0] if len(w) >= SHORTEST}
        self._long = sorted(long)
        self._meant = lru_cache(4096)(self._misspelled)

    @property
    def words(self) -> frozenset[str]:
        """Every word that a pattern begins with."""
        return frozenset(self._by_word)

    def reason(self, tokens: list[Token]) -> str | None:
        """Why a message is refused, or None."""
        stems = [self._meant(t.stem) if t.kind == "word" and len(t.stem) >= SHORTEST else t.stem for t in tokens]
        present = set(stems)
        hits = {
            n
            for s in present
            for needed, pattern, n in self._by_word.get(s, ())
            if needed <= present and _holds(pattern, stems, present)
        }
        for n in sorted(hits):
            unless, reason = self._rows[n]
            if not any(_holds(p, stems, present, affirmed=True) for p in unless):
                return reason
        return None

    def _misspelled(self, word: str) -> str:
        """The word of a refusal that ``methonal`` must be, or the word itself."""
        if word in self._known or word in self._by_word:
            return word
        like = closest(word, self._long, NEAR)
        return like if like is not None and like[:2] == word[:2] else word


def refusals_of(kernel: Kernel, reader: Reader) -> Refusals:
    """The refusals of a kernel's plugins; what its reader knows is not taken for a misspelling."""
    return Refusals(kernel.refusals, reader.lexicon.vocabulary | common_words())


def _patterns(text: Any) -> list[Pattern]:
    return [
        tuple(_words(part) for part in pattern.split("+")) for pattern in str(text or "").split(";") if pattern.strip()
    ]


def _words(part: str) -> Words:
    found: list[frozenset[str]] = []
    for word in part.split():
        if "|" in word:
            found.append(frozenset(s for w in word.split("|") for s in stems_of(w)[:1]))
        else:
            found += [frozenset((s,)) for s in stems_of(word)]
    return tuple(found)


def _holds(pattern: Pattern, stems: list[str], present: set[str], affirmed: bool = False) -> bool:
    return all(_occurs(words, stems, present, affirmed) for words in pattern)


def _occurs(words: Words, stems: list[str], present: set[str], affirmed: bool) -> bool:
    """Do the words stand in a row (``affirmed``: somewhere without a ``not`` just before them)?"""
    if any(w.isdisjoint(present) for w in words):
        return False
    if len(words) == 1 and not affirmed:
        return True
    return any(
        all(stems[i + k] in w for k, w in enumerate(words))
        and not (affirmed and DENIALS.intersection(stems[max(0, i - 2) : i]))
        for i in range(len(stems) - len(words) + 1)
    )
