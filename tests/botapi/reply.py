"""What a test gets to see: a message of the bot, a thing a person said, a press or an inline query."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass

from .params import Json
from .world import Query, Room, World


@dataclass(frozen=True)
class Said:
    """Something a person did. `update_id` is `None` when the bot was not told."""

    update_id: int | None
    message: Json

    @property
    def message_id(self) -> int:
        """Number of the message in its chat."""
        return int(self.message["message_id"])


@dataclass(frozen=True)
class Reply:
    """A message of the bot as it was at that moment. `source` is the text as sent, markup included."""

    message: Json
    source: str = ""
    file: bytes = b""

    @property
    def message_id(self) -> int:
        """Number of the message in its chat."""
        return int(self.message["message_id"])

    @property
    def text(self) -> str:
        """Text or caption without markup."""
        return str(self.message.get("text", self.message.get("caption", "")))

    @property
    def buttons(self) -> list[list[Json]]:
        """Rows of the inline keyboard."""
        return list(self.message.get("reply_markup", {}).get("inline_keyboard", []))

    @property
    def labels(self) -> list[list[str]]:
        """What the buttons say, row by row."""
        return [[str(button["text"]) for button in row] for row in self.buttons]

    @property
    def answers(self) -> int | None:
        """Number of the message that this one replies to."""
        target = self.message.get("reply_to_message")
        return int(target["message_id"]) if target else None

    @property
    def thread(self) -> int | None:
        """The topic in which the message stands."""
        return self.message.get("message_thread_id")

    def marked(self, kind: str) -> list[str]:
        """The parts of the text under entities of one kind, such as "bold"."""
        raw = self.text.encode("utf-16-le")
        entities = self.message.get("entities") or self.message.get("caption_entities") or []
        spans = [(e["offset"] * 2, (e["offset"] + e["length"]) * 2) for e in entities if e["type"] == kind]
        return [raw[start:end].decode("utf-16-le") for start, end in spans]


def as_reply(world: World, room: Room, message: Json) -> Reply:
    """The test's view of a stored message, with the bytes of its file."""
    sizes = message.get("photo") or [message.get("document") or {}]
    kept = world.files.get(sizes[-1].get("file_id", ""))
    return Reply(message, room.sources.get(message["message_id"], ""), kept.data if kept else b"")


@dataclass(frozen=True)
class Asked:
    """A button press or an inline query. `update_id` is `None` when the bot does not want that kind."""

    update_id: int | None
    query: Query

    @property
    def id(self) -> str:
        """The query's number."""
        return self.query.id

    async def answer(self, timeout: float = 2.0) -> Json:
        """Parameters of the next answer to this query; raises TimeoutError after `timeout` s."""
        try:
            return await asyncio.wait_for(self.query.answers.get(), timeout)
        except TimeoutError:
            raise TimeoutError(f"the {self.query.kind} query was not answered within {timeout:g} s") from None

    async def results(self, timeout: float = 2.0) -> list[Json]:
        """Results of the answer to an inline query; `shown` holds text and entities after parsing."""
        return list((await self.answer(timeout))["results"])

    def expire(self) -> None:
        """Let the server take no further answer."""
        self.query.expired = True
