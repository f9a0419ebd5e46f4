"""The fake server as a test holds it."""

from __future__ import annotations

import asyncio
import itertools
import time
from collections.abc import Callable
from types import TracebackType
from typing import Self

from .chat import Chat, text_body
from .faults import Faults
from .params import Json
from .pending import Pending
from .reply import Asked
from .server import Call, Server
from .webhook import Delivery, Timing
from .world import Room, User, World


class FakeBotApi:
    """A Bot API on 127.0.0.1 for one token, with people who can be made to speak.

    Use it as an asynchronous context manager. On leaving, what went wrong inside the server itself, or
    what the bot asked for and is not imitated, is raised, unless the test already failed.

    `privacy` is the bot's privacy mode in groups; `faults` can be set before or while the bot runs.
    """

    def __init__(
        self, token: str = "4242:loopback-only", *, username: str = "loopback_bot", privacy: bool = True
    ) -> None:
        self.token = token
        self.faults = Faults()
        bot_id = token.partition(":")[0]
        bot = User(int(bot_id) if bot_id.isdecimal() else 4242, "Loopback", username, is_bot=True)
        self.world = World(bot, Pending(self.faults), privacy=privacy)
        self._server = Server(token, self.world, self.faults)
        self._ids = itertools.count(1001)

    def __repr__(self) -> str:
        return f"<FakeBotApi port={self._server.port}>"

    async def __aenter__(self) -> Self:
        await self._server.start()
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        await self._server.stop()
        if error is None and self._server.troubles:
            raise ExceptionGroup("the fake Bot API met what it cannot do", self._server.troubles)

    @property
    def base_url(self) -> str:
        """For `ApplicationBuilder.base_url`."""
        return f"http://127.0.0.1:{self._server.port}/bot"

    @property
    def base_file_url(self) -> str:
        """For `ApplicationBuilder.base_file_url`."""
        return f"http://127.0.0.1:{self._server.port}/file/bot"

    @property
    def calls(self) -> list[Call]:
        """Every call with a valid token, in order of arrival, getUpdates included."""
        return self._server.calls

    @property
    def troubles(self) -> list[Exception]:
        """What will be raised on leaving. A test that provokes it on purpose clears the list."""
        return self._server.troubles

    @property
    def deliveries(self) -> list[Delivery]:
        """Every attempt to deliver to the webhook."""
        return self._server.hook.deliveries

    @property
    def webhook_timing(self) -> Timing:
        """Waiting times of webhook delivery; they take effect with the next setWebhook."""
        return self._server.hook.timing

    def calls_of(self, method: str) -> list[Call]:
        """The calls of one method, such as "sendMessage"."""
        return [call for call in self.calls if call.method == method]

    async def wait_calls(self, method: str, count: int = 1, timeout: float = 2.0) -> list[Call]:
        """Wait until `count` calls of a method have been answered (or cut) in all.

        Raises TimeoutError after `timeout` s.
        """

        def enough() -> bool:
            return sum(call.done for call in self.calls_of(method)) >= count

        await self.wait_until(enough, f"{count} x {method}", timeout)
        return self.calls_of(method)

    async def wait_until(self, holds: Callable[[], bool], what: str = "state", timeout: float = 2.0) -> None:
        """Wait for a condition, looked at every 5 ms; raises TimeoutError after `timeout` s."""
        end = time.monotonic() + timeout
        while not holds():
            if time.monotonic() > end:
                made = [call.method for call in self.calls if call.method != "getUpdates"]
                raise TimeoutError(f"no {what} within {timeout:g} s; calls: {made[-12:]}")
            await asyncio.sleep(0.005)

    async def drained(self, timeout: float = 2.0) -> None:
        """Wait until the bot has confirmed every update; raises TimeoutError after `timeout` s."""
        await asyncio.wait_for(self.world.pending.drained(), timeout)

    def user(self, name: str, *, username: str | None = None, language_code: str | None = "en") -> User:
        """A new person."""
        person = User(next(self._ids), name, username or f"{name.lower()}_behind_the_bar", language_code)
        self.world.users[person.id] = person
        return person

    def private(self, person: User) -> Chat:
        """The private chat of a person with the bot, the same one each time."""
        room = Room(person.id, "private", person.first_name, [person])
        return Chat(self.world, self.world.rooms.setdefault(person.id, room))

    def group(self, title: str, *members: User, username: str | None = None, forum: bool = False,
              basic: bool = False) -> Chat:
        """A new supergroup with the bot in it, not as an administrator; `forum` gives it topics.

        A `basic` group is of the smaller kind, which `Chat.upgrade` makes a supergroup of.
        """
        if not members:
            raise ValueError("a group needs at least one member")
        kind, least = ("group", 4_000_000_000) if basic else ("supergroup", 1_000_000_000_000)
        room = Room(-least - next(self._ids), kind, title, list(members), username, forum)
        self.world.rooms[room.id] = room
        return Chat(self.world, room)

    async def inline(self, person: User, text: str, *, offset: str = "", chat_type: str = "sender") -> Asked:
        """A person types `@bot text` in some chat."""
        query = self.world.ask("inline", person)
        body = {
            "id": query.id,
            "from": person.as_json(),
            "query": text,
            "offset": offset,
            "chat_type": chat_type,
        }
        return Asked(self.world.pending.publish("inline_query", body, f"user:{person.id}"), query)

    async def guest(self, person: User, text: str) -> Asked:
        """A person names the bot in a chat that it is no member of."""
        query = self.world.ask("guest", person)
        body = {
            "message_id": self.world.serial(),
            "date": int(time.time()),
            "chat": {"id": -4_000_000_000 - person.id, "type": "group", "title": "Elsewhere"},
            "from": person.as_json(),
            "guest_query_id": query.id,
            "guest_bot_caller_user": person.as_json(),
        } | text_body(text)
        return Asked(self.world.pending.publish("guest_message", body, f"user:{person.id}"), query)

    async def choose(self, asked: Asked, text: str, result_id: str) -> int | None:
        """The person takes one of the results; returns the update id, if the bot wants it."""
        body = {"result_id": result_id, "from": asked.query.person.as_json(), "query": text}
        return self.world.pending.publish("chosen_inline_result", body, f"user:{asked.query.person.id}")

    def push(self, update: Json) -> int:
        """Queue an update of any shape, whatever kinds the bot asked for; returns its number."""
        return self.world.pending.inject(update)
