"""One reminder, and what is said when its time has come."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from typing import Any

from ..when.moments import say_moment, say_span

LATE = 300.0
"""Seconds after which a reminder is said to be late."""


@dataclass(frozen=True, slots=True)
class Reminder:
    """``due`` is an instant; ``text`` what to say then; ``id`` follows from both and from when it was ``made``."""

    text: str
    due: datetime
    made: datetime

    @property
    def id(self) -> str:
        """Sixteen hexadecimal digits."""
        said = f"{self.made.timestamp():.3f} {self.due.timestamp():.3f} {self.text}"
        return sha256(said.encode()).hexdigest()[:16]

    def to_json(self) -> dict[str, Any]:
        """Plain data, with times in UTC."""
        return {"id": self.id, "text": self.text, "due": self.due.astimezone(UTC).isoformat(),
                "made": self.made.astimezone(UTC).isoformat()}

    @classmethod
    def from_json(cls, data: Any) -> Reminder | None:
        """From plain data, None for what cannot be read."""
        try:
            due, made = datetime.fromisoformat(data["due"]), datetime.fromisoformat(data["made"])
            return cls(str(data["text"]), due, made) if due.tzinfo and made.tzinfo else None
        except (KeyError, TypeError, ValueError):
            return None


def coming(data: Iterable[Mapping[str, Any]] | None, now: datetime) -> list[Reminder]:
    """The reminders of a state that are still to come, the next first."""
    return [r for r in _sorted(data) if r.due > now]


def past(data: Iterable[Mapping[str, Any]] | None, now: datetime) -> list[Reminder]:
    """The reminders of a state whose time has come, the oldest first."""
    return [r for r in _sorted(data) if r.due <= now]


def _sorted(data: Iterable[Mapping[str, Any]] | None) -> list[Reminder]:
    return sorted((r for x in data or () if (r := Reminder.from_json(x)) is not None), key=lambda r: r.due)


def due_text(reminder: Reminder, now: datetime) -> str:
    """What to say of a reminder that is due; one that comes late says so."""
    behind = (now - reminder.due).total_seconds()
    if behind < LATE:
        return f"Reminder: {reminder.text}"
    return (f"Reminder, {say_span(behind)} late (it was due {say_moment(reminder.due.astimezone(now.tzinfo), now)}, "
            f"and I was not running): {reminder.text}")
