"""A kept spec: a name, its lines, how it is made, and which version this is of whom."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from stillroom import Amount, Line
from stillroom.errors import RequestError


@dataclass(frozen=True, slots=True)
class KeptSpec:
    """One version of a spec.

    ``lines`` are its amounts and things, in order; a thing may be the name of another spec of the same
    book.  ``method`` are the steps.  ``makes`` is what it yields (a volume, a mass, or a ``count`` of
    serves; None: one serve, or what its lines come to), ``rests`` how long it must stand before use,
    ``keeps`` how long it is good, both as it says itself.  ``id`` stays through changes of the name;
    ``version`` counts from 1; ``by`` (a person, as the chat shows them) changed it ``at`` (ISO 8601, UTC),
    and ``change`` says what in a few words.  ``gone`` marks the version that deleted it.
    """

    id: int
    name: str
    lines: tuple[Line, ...]
    method: tuple[str, ...] = ()
    makes: Amount | None = None
    rests: Amount | None = None
    keeps: Amount | None = None
    version: int = 1
    by: str = ""
    at: str = ""
    change: str = ""
    gone: bool = False

    def but(self, **changes: Any) -> KeptSpec:
        """The same with some parts replaced."""
        return replace(self, **changes)

    def says_as(self, other: KeptSpec) -> bool:
        """Do both say the same of the drink, whoever wrote them, when, and in which words of a number?"""
        return bool(_meant(self.content()) == _meant(other.content()))

    def content(self) -> dict[str, Any]:
        """Plain data of the drink alone: name, lines, method, and what it makes, rests and keeps."""
        times = {n: a.to_json() for n in ("makes", "rests", "keeps") if (a := getattr(self, n)) is not None}
        return {"name": self.name, "lines": [x.to_json() for x in self.lines], "method": list(self.method), **times}

    def to_json(self) -> dict[str, Any]:
        """Plain data."""
        return {"id": self.id, **self.content(), "version": self.version, "by": self.by, "at": self.at,
                "change": self.change, "gone": self.gone}

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> KeptSpec:
        """From plain data.  Raises RequestError for anything else."""
        try:
            makes, rests, keeps = (Amount.from_json(data[n]) if data.get(n) else None
                                   for n in ("makes", "rests", "keeps"))
            return cls(int(data["id"]), str(data["name"]), tuple(Line.from_json(x) for x in data["lines"]),
                       tuple(str(m) for m in data.get("method", ())), makes, rests, keeps, int(data.get("version", 1)),
                       str(data.get("by", "")), str(data.get("at", "")), str(data.get("change", "")),
                       bool(data.get("gone", False)))
        except (KeyError, TypeError, ValueError, AttributeError) as e:
            raise RequestError(f"This is no kept spec: {e}.") from None


def _meant(data: Any) -> Any:
    """Plain data without how numbers were said, and these to nine digits."""
    if isinstance(data, Mapping):
        return {k: _meant(v) for k, v in data.items() if k not in ("said", "base")}
    if isinstance(data, list):
        return [_meant(v) for v in data]
    return float(f"{data:.9g}") if isinstance(data, (int, float)) else data
