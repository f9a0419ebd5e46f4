"""A reply: what a front end has to show, and the machine-readable answer beside it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

STATUSES = ("answered", "asks", "declined", "noted")


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file that goes with a reply: ``name`` is a file name without a folder, ``media`` its media type.

    A front end shows ``image/png`` as a picture, hands out ``application/pdf`` (or anything else) as a file,
    and puts ``caption`` below it where there is room.
    """

    name: str
    media: str
    content: bytes = field(repr=False)
    caption: str = ""

    @property
    def picture(self) -> bool:
        """Is it to be looked at, rather than printed or kept?"""
        return self.media.startswith("image/")


@dataclass(frozen=True, slots=True)
class Reply:
    """One reply.

    ``headline`` is the number (or the question back) that must be readable without opening the
    message; ``body`` are the further lines, the most useful first; ``buttons`` are choices that may be
    pressed or typed; ``working`` is shown on request.  ``data`` is the rest of the JSON answer, and
    ``attachments`` the files that go with it.
    """

    status: str
    question: str
    headline: str
    body: tuple[str, ...] = ()
    buttons: tuple[str, ...] = ()
    working: tuple[str, ...] = ()
    calculator: str | None = None
    data: Mapping[str, Any] = field(default_factory=dict, hash=False)
    attachments: tuple[Attachment, ...] = ()

    @property
    def text(self) -> str:
        """The whole reply as plain text."""
        return "\n".join([self.headline, *self.body])

    def to_json(self) -> dict[str, Any]:
        """The machine-readable answer; files are named, with their size in bytes, where there are any."""
        empty: dict[str, Any] = {"answer": [], "values": [], "assumptions": [], "cautions": [], "ignored": [],
                                 "steps": [], "sources": [], "asks": None}
        return {"status": self.status, "question": self.question, "calculator": self.calculator,
                **{k: self.data.get(k, v) for k, v in empty.items()}, "text": self.text,
                **({"attachments": [{"name": a.name, "media": a.media, "bytes": len(a.content)}
                                    for a in self.attachments]} if self.attachments else {})}
