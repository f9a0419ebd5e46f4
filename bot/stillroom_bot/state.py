"""What a chat remembers: one small versioned JSON row, read and written for each message.

Beside that row stand the chat's book of specs, which is kept on its own, and who is speaking, when: a front
end adds both before it hands a state to the conversation, and keeps the book that comes back with it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from typing import Any

from .board.book import Book

VERSION = 1


@dataclass(frozen=True, slots=True)
class Here:
    """Who speaks (as the chat shows them), and when: an aware instant, by default that of asking."""

    who: str = ""
    now: datetime | None = None

    def at(self) -> datetime:
        """Now."""
        return self.now or datetime.now(UTC)

    def stamp(self) -> str:
        """Now, to the second, as ISO 8601 in UTC."""
        return self.at().astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


@dataclass(frozen=True, slots=True)
class State:
    """``settings`` are the chat's own measures and habits; ``last`` the last request and its result;
    ``open`` the question that was asked back, with its choices; ``board`` what the prep board is in the
    middle of; ``reminders`` those that are set, None where there never was one.  ``book``, ``here`` and
    ``errand`` are no part of the row, nor of whether two states are the same; an errand is what the front
    end is asked to do for its store: ``forget`` the chat, or ``export`` all that is kept of it."""

    settings: Mapping[str, Any] = field(default_factory=dict, hash=False)
    last: Mapping[str, Any] | None = field(default=None, hash=False)
    open: Mapping[str, Any] | None = field(default=None, hash=False)
    board: Mapping[str, Any] | None = field(default=None, hash=False)
    reminders: tuple[Mapping[str, Any], ...] | None = field(default=None, hash=False)
    book: Book = field(default=Book(), compare=False, repr=False)
    here: Here = field(default=Here(), compare=False, repr=False)
    errand: str = field(default="", compare=False)

    def to_json(self) -> dict[str, Any]:
        """Plain data."""
        return {"version": VERSION, "settings": dict(self.settings), "last": self.last, "open": self.open,
                **({"board": self.board} if self.board else {}),
                **({} if self.reminders is None else {"reminders": [dict(r) for r in self.reminders]})}

    @classmethod
    def from_json(cls, data: Any) -> State:
        """From plain data; a row that cannot be read (damaged, or of a later version) is a fresh state."""
        if not isinstance(data, Mapping) or data.get("version") != VERSION:
            return cls()
        settings, last, open_, board, kept = (
            data.get(name) for name in ("settings", "last", "open", "board", "reminders"))
        return cls(dict(settings) if isinstance(settings, Mapping) else {},
                   last if isinstance(last, Mapping) else None, open_ if isinstance(open_, Mapping) else None,
                   board if isinstance(board, Mapping) else None,
                   tuple(r for r in kept if isinstance(r, Mapping)) if isinstance(kept, list) else None)

    def but(self, **changes: Any) -> State:
        """The same state with some parts replaced."""
        return replace(self, **changes)
