"""A chat's book: every version of every spec it ever kept, and those that stand now."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from stillroom import Amount
from stillroom.errors import RequestError

from .spec import KeptSpec

VERSION = 1
_APART = re.compile(r"[^\w%°'’]+|_")


def key_of(name: str) -> str:
    """A name as it is compared: without case, punctuation and a leading article."""
    words = _APART.sub(" ", name.casefold()).split()
    return " ".join(words[1:] if len(words) > 1 and words[0] in ("the", "a", "an", "our") else words)


@dataclass(frozen=True)
class Book:
    """``versions`` are kept for ever, oldest first; a change adds one.  Immutable, as all of its parts."""

    versions: tuple[KeptSpec, ...] = ()

    @cached_property
    def latest(self) -> dict[int, KeptSpec]:
        """The last version of each spec, deleted ones included, by id."""
        return {s.id: s for s in self.versions}

    @cached_property
    def specs(self) -> tuple[KeptSpec, ...]:
        """The specs that stand now, in the order in which they were first kept."""
        return tuple(s for s in self.latest.values() if not s.gone)

    @cached_property
    def by_key(self) -> dict[str, KeptSpec]:
        """The specs that stand now by ``key_of`` their names."""
        return {key_of(s.name): s for s in self.specs}

    @cached_property
    def by_first_word(self) -> dict[str, list[tuple[tuple[str, ...], KeptSpec]]]:
        """The words of each name with its spec, by the first of them, the longest names first."""
        found: dict[str, list[tuple[tuple[str, ...], KeptSpec]]] = {}
        for key, spec in sorted(self.by_key.items(), key=lambda item: -len(item[0])):
            name = tuple(key.split())
            if name:
                found.setdefault(name[0], []).append((name, spec))
        return found

    @cached_property
    def prices(self) -> dict[str, dict[str, Amount]]:
        """By thing, in lower case: its price and the amount that it buys, as the spec kept last says it."""
        return {x.thing.casefold(): {n: x.attributes[n] for n in ("price", "size")}
                for s in self.specs for x in s.lines if {"price", "size"} <= x.attributes.keys()}

    def named(self, name: str) -> KeptSpec | None:
        """The spec of exactly this name, but for case, punctuation and an article."""
        return self.by_key.get(key_of(name))

    def of(self, id: int) -> tuple[KeptSpec, ...]:
        """All versions of one spec, oldest first."""
        return tuple(s for s in self.versions if s.id == id)

    def put(self, spec: KeptSpec, by: str = "", at: str = "", change: str = "") -> Book:
        """The book with a further version of a spec; one with an id that is not known yet is new (0: the next)."""
        id = spec.id or max(self.latest, default=0) + 1
        before = self.latest.get(id)
        version = before.version + 1 if before else 1
        return Book((*self.versions, spec.but(id=id, version=version, by=by, at=at, change=change)))

    def added_to(self, before: Book) -> tuple[KeptSpec, ...]:
        """The versions that this book has and ``before`` has not."""
        had = {(s.id, s.version) for s in before.versions}
        return tuple(s for s in self.versions if (s.id, s.version) not in had)

    def to_json(self) -> dict[str, Any]:
        """Plain data, every version."""
        return {"version": VERSION, "versions": [s.to_json() for s in self.versions]}

    @classmethod
    def from_json(cls, data: Any) -> Book:
        """From plain data.  Raises RequestError for anything else."""
        if not isinstance(data, Mapping) or data.get("version") != VERSION:
            raise RequestError("This is no book of specs.")
        return cls.of_rows(data.get("versions", ()))

    @classmethod
    def of_rows(cls, rows: Iterable[Mapping[str, Any]]) -> Book:
        """From the plain data of its versions, in any order.  Raises RequestError."""
        return cls(tuple(sorted((KeptSpec.from_json(r) for r in rows), key=lambda s: (s.id, s.version))))
