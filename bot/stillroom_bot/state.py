"""What a chat remembers: one small versioned JSON row, read and written for each message."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

VERSION = 1


@dataclass(frozen=True, slots=True)
class State:
    """``settings`` are the chat's own measures and habits; ``last`` the last request and its result;
    ``open`` the question that was asked back, with its choices."""

    settings: Mapping[str, Any] = field(default_factory=dict, hash=False)
    last: Mapping[str, Any] | None = field(default=None, hash=False)
    open: Mapping[str, Any] | None = field(default=None, hash=False)

    def to_json(self) -> dict[str, Any]:
        """Plain data."""
        return {"version": VERSION, "settings": dict(self.settings), "last": self.last, "open": self.open}

    @classmethod
    def from_json(cls, data: Any) -> State:
        """From plain data; a row that cannot be read (damaged, or of a later version) is a fresh state."""
        if not isinstance(data, Mapping) or data.get("version") != VERSION:
            return cls()
        settings, last, open_ = data.get("settings"), data.get("last"), data.get("open")
        return cls(dict(settings) if isinstance(settings, Mapping) else {},
                   last if isinstance(last, Mapping) else None, open_ if isinstance(open_, Mapping) else None)

    def but(self, **changes: Any) -> State:
        """The same state with some parts replaced."""
        return replace(self, **changes)
