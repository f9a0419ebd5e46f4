"""Subjects that are never answered, as the plugins declare them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from .reading.lexicon import stems_of
from .reading.tokens import Token


class Refusals:
    """Patterns of stems: a pattern holds when all its words occur (two words in a row must stand in a row)."""

    def __init__(self, rows: Iterable[Mapping[str, Any]]):
        self._rows = [([self._pattern(p) for p in str(r["words"]).split(";") if p.strip()],
                       [self._pattern(p) for p in str(r.get("unless") or "").split(";") if p.strip()], str(r["reason"]))
                      for r in rows]

    @staticmethod
    def _pattern(text: str) -> list[tuple[str, ...]]:
        return [stems_of(part) for part in text.split("+") if part.strip()]

    def reason(self, tokens: list[Token]) -> str | None:
        """Why a message is refused, or None."""
        stems = [t.stem for t in tokens]
        present = set(stems)
        for patterns, unless, reason in self._rows:
            if any(self._holds(p, stems, present) for p in patterns) and not any(self._holds(p, stems, present) for p in unless):
                return reason
        return None

    @staticmethod
    def _holds(pattern: list[tuple[str, ...]], stems: list[str], present: set[str]) -> bool:
        for part in pattern:
            if not all(s in present for s in part):
                return False
            n = len(part)
            if n > 1 and not any(tuple(stems[i:i + n]) == part for i in range(len(stems) - n + 1)):
                return False
        return bool(pattern)
