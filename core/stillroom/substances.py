"""Things that are poured, weighed or counted, as the plugins describe them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from .declare import words_of
from .plugins import Plugin


@dataclass(frozen=True, slots=True)
class Substance:
    """A thing: ``state`` is liquid, dry or piece; ``kinds`` are the tags that variables name in ``things``."""

    id: str
    words: tuple[str, ...]
    state: str
    kinds: frozenset[str]
    values: Mapping[str, Any] = field(hash=False)
    source: str

    def number(self, column: str) -> float | None:
        """A number of the row, or None where it has none."""
        value = self.values.get(column)
        return None if value is None or value == "" else float(value)


def substances_of(plugin: Plugin) -> Iterator[Substance]:
    """The substances of a plugin; a row without id or source is named in the plugin's errors and left out."""
    for row in plugin.substances:
        if not row.get("id") or not row.get("source"):
            plugin.report(f"A substance of {plugin.name} lacks an id or a source: {dict(row)!r}.")
            continue
        id = str(row["id"])
        words = words_of(row.get("words") or ()) or (id.replace("_", " "),)
        yield Substance(id, words, str(row.get("state") or "liquid"),
                        frozenset(words_of(row.get("kind") or ())), row, str(row["source"]))
