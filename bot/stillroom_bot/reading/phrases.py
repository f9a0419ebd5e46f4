"""Tables of phrases, kept by their first words, so that a word begins a look-up only where a phrase begins with it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Generic, TypeVar

T = TypeVar("T")


class Phrases(Generic[T]):
    """Runs of words and what each says, in the order in which they were declared."""

    def __init__(self, table: Iterable[tuple[tuple[str, ...], T]]):
        self._by_first: dict[str, list[tuple[tuple[str, ...], T]]] = {}
        for words, told in table:
            self._by_first.setdefault(words[0], []).append((words, told))

    def begin(self, words: Sequence[str], i: int) -> Iterator[T]:
        """What each phrase says that begins at place ``i``."""
        for phrase, told in self._by_first.get(words[i], ()):
            if tuple(words[i : i + len(phrase)]) == phrase:
                yield told

    def all(self, words: Sequence[str]) -> Iterator[T]:
        """What each phrase says that begins anywhere."""
        for i, word in enumerate(words):
            if word in self._by_first:
                yield from self.begin(words, i)

    def said(self, words: Sequence[str]) -> Iterator[tuple[int, T]]:
        """Each place at which a phrase begins, and what the first that begins there says."""
        for i, word in enumerate(words):
            if word in self._by_first and (told := self.at(words, i)) is not None:
                yield i, told

    def at(self, words: Sequence[str], i: int) -> T | None:
        """What the first phrase says that begins at place ``i``."""
        return next(self.begin(words, i), None)
