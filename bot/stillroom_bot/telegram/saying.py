"""What is to be said, as data: it is kept with what a message did, and said after a restart if need be."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from ..reckoning.wire import file_of_plain, file_to_plain
from ..reply import Attachment, Reply
from ..store import Answered

Row = tuple[tuple[str, str], ...]
"""Buttons side by side: what each shows, and its data; those that begin with ``COPY`` copy the rest."""
COPY = "copy:"


@dataclass(frozen=True, slots=True)
class Saying:
    """``how`` is a name in ``speaking.WAYS``; the rest is what that needs.

    ``chat``, ``answers`` and ``topic`` are where it goes; ``old`` the messages that it takes the place of;
    ``query`` the press or inline query that it answers; ``cards`` are (id, title, headline, body) of an
    inline query's results; ``kept`` is what will be remembered of the answer.
    """

    how: str
    chat: int = 0
    answers: int = 0
    topic: int | None = None
    headline: str = ""
    body: tuple[str, ...] = ()
    keys: tuple[Row, ...] = ()
    old: tuple[int, ...] = ()
    query: str = ""
    cards: tuple[tuple[str, str, str, tuple[str, ...]], ...] = ()
    files: tuple[Attachment, ...] = ()
    kept: Mapping[str, Any] | None = None

    @property
    def reply(self) -> Reply:
        """The words, for ``formatting``."""
        return Reply("answered", "", self.headline, self.body)

    def but(self, **changes: Any) -> Saying:
        """The same with some parts replaced."""
        return replace(self, **changes)

    def moved(self, chat: int) -> Saying:
        """The same in the chat that its chat has become, where nothing of the old one can be quoted or edited."""
        kept = self.kept and {**self.kept, "chat": f"telegram:{chat}", "question": -abs(self.kept["question"])}
        return self.but(how="send" if self.how == "revise" else self.how, chat=chat, answers=0, topic=None, old=(),
                        kept=kept)

    def answered(self, messages: tuple[int, ...]) -> Answered | None:
        """What is remembered once it stands in these messages."""
        k = self.kept
        return None if k is None else Answered(k["question"], messages, k["text"], k["before"], k["version"])


def dumps(sayings: Sequence[Saying]) -> str:
    """JSON text."""
    plain = [{name: getattr(s, name) for name in Saying.__slots__ if name != "files"}
             | {"files": [file_to_plain(f) for f in s.files]} for s in sayings]
    return json.dumps(plain, ensure_ascii=False)


def loads(text: str) -> tuple[Saying, ...]:
    """The sayings again."""
    return tuple(Saying(**{**row, "body": tuple(row["body"]), "old": tuple(row["old"]),
                           "keys": tuple(tuple((a, b) for a, b in keys) for keys in row["keys"]),
                           "cards": tuple((i, t, h, tuple(b)) for i, t, h, b in row["cards"]),
                           "files": tuple(file_of_plain(f) for f in row["files"])}) for row in json.loads(text))
