"""The Telegram bot at work, with a server of its own: no token, no network, no account.

Everything that a person's message passes through is the real thing: polling, handlers, the database, the formatting of
the reply and its buttons.
"""

from __future__ import annotations

import asyncio
import html
import itertools
import re
from contextlib import AsyncExitStack
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from ..talker import Talker
from .loopback import BOT, PERSON, Loopback

TOKEN = f"{BOT['id']}:loopback-only"


@dataclass(frozen=True, slots=True)
class Told:
    """A message of the bot: its text without markup, its buttons by label, and the number of the message."""

    text: str
    buttons: dict[str, str]
    number: int


class FakeTelegram:
    """A context manager: ``say`` something in a private chat and get the bot's message; ``press`` a button of one.

    ``talker`` answers, ``folder`` takes the bot's database.  Plain functions use it; it runs its own event loop.
    """

    def __init__(self, talker: Talker, folder: Path) -> None:
        self._talker, self._folder = talker, folder
        self._server = Loopback()
        self._presses = itertools.count(1)
        self._runner = asyncio.Runner()
        self._stack = AsyncExitStack()

    def __enter__(self) -> Self:
        self._runner.__enter__()
        self._runner.run(self._start())
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 trace: TracebackType | None) -> None:
        self._runner.run(self._stack.aclose())
        self._runner.__exit__(kind, error, trace)

    def say(self, text: str, timeout: float = 10.0) -> Told:
        """The bot's answer to a text.  Raises TimeoutError after ``timeout`` seconds of silence."""
        return self._runner.run(self._say(text, timeout))

    def press(self, told: Told, label: str, timeout: float = 10.0) -> Told:
        """What the bot says when a button is pressed.

        Raises KeyError for a button that is not there, TimeoutError after ``timeout`` seconds of silence.
        """
        return self._runner.run(self._press(told, told.buttons[label], timeout))

    async def _start(self) -> None:
        from ..store import open_store
        from ..telegram.application import polling
        from ..telegram.config import Setup

        url = await self._server.start()
        self._stack.push_async_callback(self._server.stop)
        store = await self._stack.enter_async_context(open_store(f"sqlite:///{self._folder / 'telegram.sqlite3'}"))
        await self._stack.enter_async_context(polling(
            Setup(TOKEN, url, rate=0), self._talker, store, timeout=1))

    async def _say(self, text: str, timeout: float) -> Told:
        command = re.match(r"/\w+", text)
        entities = [{"type": "bot_command", "offset": 0, "length": command.end()}] if command else []
        self._server.push(message=self._server.message(PERSON, text, entities=entities))
        return _told(await asyncio.wait_for(self._server.said.get(), timeout))

    async def _press(self, told: Told, data: str, timeout: float) -> Told:
        message = self._server.message(BOT, told.text) | {"message_id": told.number}
        self._server.push(callback_query={"id": str(next(self._presses)), "from": PERSON, "message": message,
                                          "chat_instance": "1", "data": data})
        return _told(await asyncio.wait_for(self._server.said.get(), timeout))


def _told(message: dict[str, Any]) -> Told:
    text = str(message["text"])
    if message["parse_mode"] == "HTML":
        text = html.unescape(re.sub(r"</?[a-z][^>]*>", "", text))
    keys = [k for row in message.get("reply_markup", {}).get("inline_keyboard", ()) for k in row]
    return Told(text, {k["text"]: k.get("callback_data", "") for k in keys}, message["message_id"])
