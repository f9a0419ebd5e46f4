"""One exchange: a text is read in some state of the chat, answered, and the chat's new state kept."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import Executor
from dataclasses import dataclass

from telegram import Message

from ..board.exchange import with_everything
from ..reply import Reply
from ..state import Here, State
from ..store import Answered, Question, Store
from ..talker import Talker, screened, working

TRIES = 4


@dataclass(frozen=True, slots=True)
class Exchange:
    """The reply, the states before and after it, and the version of the chat's state when it was kept."""

    reply: Reply
    before: State
    after: State
    version: int


Choose = Callable[[State, int], tuple[State, Callable[[State, State], State]]]


@dataclass(frozen=True, slots=True)
class Desk:
    """The conversation and its memory.  ``pool`` does the reckoning, one message at a time."""

    talker: Talker
    store: Store
    pool: Executor

    async def ask(self, chat: str, text: str, who: str = "") -> Exchange:
        """A new message of somebody: read in the chat's present state."""
        return await self._exchange(chat, text, lambda now, version: (now, lambda now, after: after), who)

    async def ask_again(self, chat: str, text: str, first: Answered, who: str = "") -> Exchange:
        """An edited message: read in the state in which it was first said.

        If the chat has gone on since, its present settings hold, and nothing but settings is kept.
        """
        then = State.from_json(first.before)

        def choose(now: State, version: int) -> tuple[State, Callable[[State, State], State]]:
            if version == first.version:
                return then, lambda now, after: after
            return then.but(settings=now.settings, reminders=now.reminders), \
                lambda now, after: now.but(settings=after.settings, reminders=after.reminders)

        return await self._exchange(chat, text, choose, who)

    async def choose(self, chat: str, choice: str, question: Question, who: str = "") -> Exchange:
        """A pressed button: read in the state that asked, with the chat's present settings."""
        then = State.from_json(question.state)
        return await self._exchange(chat, choice, lambda now, version: (
            then.but(settings=now.settings, reminders=now.reminders), lambda now, after: after), who)

    async def why(self, text: str, state: State) -> str:
        """The working of an answer that was given in a state."""
        return await asyncio.get_running_loop().run_in_executor(self.pool, working, self.talker, text, state)

    async def settings(self, chat: str) -> State:
        """What is kept of a chat now."""
        return State.from_json((await self.store.chats.get(chat)).data)

    async def _exchange(self, chat: str, text: str, choose: Choose, who: str) -> Exchange:
        loop = asyncio.get_running_loop()
        for _ in range(TRIES):
            kept, book = await self.store.chats.get(chat), await self.store.books.get(chat)
            now = State.from_json(kept.data).but(book=book.book, here=Here(who))
            before, settle = choose(now, kept.version)
            before = before.but(book=now.book, here=now.here)
            reply, after = await loop.run_in_executor(self.pool, screened, self.talker, text, before)
            if after.errand == "forget":
                await self.store.forget(chat)
                return Exchange(reply, State(), after, 0)
            settled = settle(now, after)
            same = settled == now and settled.book is book.book
            version = kept.version if same else await self.store.keep(
                chat, settled.to_json(), kept.version, settled.book, book)
            if version is not None:
                if after.errand == "export":
                    reply = with_everything(reply, await self.store.export(chat))
                return Exchange(reply, before, after, version)
        raise RuntimeError("the state of a chat kept changing")


def chat_key(message: Message) -> str:
    """The name under which a chat, or a topic of a forum, is kept."""
    topic = f":{message.message_thread_id}" if message.is_topic_message else ""
    return f"telegram:{message.chat.id}{topic}"
