"""Subjects that are never answered, as the plugins declare them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, TypeAlias

from .reading.lexicon import stems_of
from .reading.tokens import Token

Pattern: TypeAlias = list[tuple[str, ...]]


class Refusals:
    """Patterns of stems: a pattern holds when all its parts occur, each part's words in a row."""

    def __init__(self, rows: Iterable[Mapping[str, Any]]):
        self._by_word: dict[str, list[tuple[Pattern, int]]] = {}
        self._rows: list[tuple[list[Pattern], str]] = []
        for n, r in enumerate(rows):
            self._rows.append((_patterns(r.get("unless")), str(r["reason"])))
            for pattern in _patterns(r["words"]):
                self._by_word.setdefault(pattern[0][0], []).append((pattern, n))

    def reason(self, tokens: list[Token]) -> str | None:
        """Why a message is refused, or None."""
        stems = [t.stem for t in tokens]
        present = set(stems)
        hits = {n for s in present for pattern, n in self._by_word.get(s, ()) if _holds(pattern, stems, present)}
        for n in sorted(hits):
            unless, reason = self._rows[n]
            if not any(_holds(p, stems, present) for p in unless):
                return reason
        return None


def _patterns(text: Any) -> list[Pattern]:
    return [p for t in str(text or "").split(";") if (p := [stems_of(part) for part in t.split("+") if part.strip()])]


def _holds(pattern: Pattern, stems: list[str], present: set[str]) -> bool:
    for part in pattern:
        n = len(part)
        if not all(s in present for s in part):
            return False
        if n > 1 and not any(tuple(stems[i:i + n]) == part for i in range(len(stems) - n + 1)):
            return False
    return True
