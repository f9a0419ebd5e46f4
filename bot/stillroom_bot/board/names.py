"""Kept names in what people write: exactly, or as nearly as a typing error."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from rapidfuzz import fuzz, process
from rapidfuzz.distance import OSA

from .book import Book, key_of
from .spec import KeptSpec

WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*|[%°]")
NEAR, SURE, APART, SWAPPED = 78.0, 86.0, 6.0, 95.0
SHORTEST = 5


@dataclass(frozen=True, slots=True)
class Mention:
    """A spec, where its name stands in the text, and how it was written if not exactly so."""

    spec: KeptSpec
    start: int
    end: int
    mistyped: str = ""


def likeness(one: str, other: str, **_: object) -> float:
    """How like two words are, of 100; two neighbouring letters in the wrong order are one slip of the finger."""
    if len(one) == len(other) > 3 and sorted(one) == sorted(other) and one_slip(one, other):
        return SWAPPED
    return float(fuzz.ratio(one, other))


def one_slip(one: str, other: str) -> bool:
    """Does one come of the other by a letter more, less or other, or by two in the wrong order?"""
    return OSA.distance(one, other, score_cutoff=1) <= 1


def alike(one: str, other: str) -> bool:
    """May one be a mistyped other?"""
    return likeness(one, other) >= SURE


def mentions(book: Book, text: str, known: Callable[[str], bool]) -> list[Mention]:
    """The kept names in a text, in order and apart; mistyped ones only where a word is not ``known``."""
    if not book.specs:
        return []
    words = _words(text)
    found = list(_exact(book, words)) or list(_joined(book, words))
    return found or list(_nearly(book, words, known))


def _words(text: str) -> list[tuple[str, int, int]]:
    return [(w.group().casefold(), w.start(), w.end()) for w in WORD.finditer(text)]


def _exact(book: Book, words: list[tuple[str, int, int]]) -> Iterator[Mention]:
    i = 0
    while i < len(words):
        first = words[i][0]
        for name, spec in (x for w in (first, *_singular(first)) for x in book.by_first_word.get(w, ())):
            here = tuple(w for w, _, _ in words[i : i + len(name)])
            if here[:-1] == name[:-1] and (here[-1:] == name[-1:] or name[-1] in _singular(here[-1])):
                yield Mention(spec, words[i][1], words[i + len(name) - 1][2])
                i += len(name) - 1
                break
        i += 1


def _joined(book: Book, words: list[tuple[str, int, int]]) -> Iterator[Mention]:
    """Names that were written in one word, or in two: ``lockkeeper``, ``marsh light`` for Marshlight."""
    names = {key.replace(" ", ""): spec for key, spec in book.by_key.items() if len(key) >= SHORTEST}
    for n in (1, 2, 3):
        for i in range(len(words) - n + 1):
            spec = names.get("".join(w for w, _, _ in words[i : i + n]))
            if spec is not None:
                yield Mention(spec, words[i][1], words[i + n - 1][2])
                return


def _singular(word: str) -> tuple[str, ...]:
    """What a word may be the plural of: ``bowls``, ``punches``, ``ferries``."""
    ends = (("s", ""), ("es", ""), ("ies", "y"))
    return tuple(word[: -len(end)] + one for end, one in ends if word.endswith(end) and len(word) > len(end))


def _nearly(book: Book, words: list[tuple[str, int, int]], known: Callable[[str], bool]) -> Iterator[Mention]:
    strange = {i for i, (w, _, _) in enumerate(words) if len(w) > 3 and w.isalpha() and not known(w)}
    if not strange:
        return
    names = {name: spec for many in book.by_first_word.values() for name, spec in many}
    by_length: dict[int, dict[tuple[str, ...], str]] = {}
    for name in names:
        if len(" ".join(name)) >= SHORTEST:
            by_length.setdefault(len(name), {})[name] = " ".join(name)
    best: tuple[float, Mention] | None = None
    for n, choices in by_length.items():
        for i in range(len(words) - n + 1):
            if not strange & set(range(i, i + n)):
                continue
            here = " ".join(w for w, _, _ in words[i : i + n])
            hit = process.extractOne(here, choices, scorer=likeness, score_cutoff=SURE)
            if hit is not None and (best is None or hit[1] > best[0]):
                best = hit[1], Mention(names[hit[2]], words[i][1], words[i + n - 1][2], here)
    if best is not None:
        yield best[1]


def named(book: Book, said: str) -> tuple[KeptSpec | None, tuple[KeptSpec, ...]]:
    """The spec that a name means, exactly or nearly; else None and those that it may mean."""
    exact = book.named(said)
    exact = exact or next((s for one in _singular(key_of(said)) if (s := book.named(one))), None)
    exact = exact or next((m.spec for m in _joined(book, _words(said)) if m.end - m.start >= len(said) - 1), None)
    if exact is not None or not book.specs:
        return exact, ()
    choices = {k: k for k in book.by_key if len(k) >= SHORTEST}
    hits = process.extract(key_of(said), choices, scorer=likeness, score_cutoff=NEAR, limit=4)
    if hits and (len(hits) == 1 or hits[0][1] - hits[1][1] > APART) and hits[0][1] >= SURE:
        return book.by_key[hits[0][2]], ()
    return None, tuple(book.by_key[key] for _, _, key in hits)
