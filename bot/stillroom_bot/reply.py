"""A reply: what a front end has to show, and the machine-readable answer beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

STATUSES = ("answered", "asks", "declined", "noted")


@dataclass(frozen=True, slots=True)
class Reply:
    """One reply.

    ``headline`` is the number (or the question back) that must be readable without opening the
    message; ``body`` are the further lines, the most useful first; ``buttons`` are choices that may be
    pressed or typed; ``working`` is shown on request.  ``data`` is the rest of the JSON answer.
    """

    status: str
    question: str
    headline: str
    body: tuple[str, ...] = ()
    buttons: tuple[str, ...] = ()
    working: tuple[str, ...] = ()
    calculator: str | None = None
    data: Mapping[str, Any] = field(default_factory=dict, hash=False)

    @property
    def text(self) -> str:
        """The whole reply as plain text."""
        return "\n".join([self.headline, *self.body])

    def to_json(self) -> dict[str, Any]:
        """The machine-readable answer."""
        empty: dict[str, Any] = {"answer": [], "values": [], "assumptions": [], "cautions": [], "ignored": [],
                                 "steps": [], "sources": [], "asks": None}
        return {"status": self.status, "question": self.question, "calculator": self.calculator,
                **{k: self.data.get(k, v) for k, v in empty.items()}, "text": self.text}
