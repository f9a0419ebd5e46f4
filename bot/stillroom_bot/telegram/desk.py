"""One exchange: a text is read in some state of the chat, and answered; what is to be kept of it is handed back."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import dataclass

from sqlalchemy import Connection
from telegram import Message, User
from telegram.constants import ChatType

from ..board.book import Book
from ..board.exchange import with_everything
from ..reckoning import Reckoner
from ..reply import Reply
from ..state import Here, State
from ..store import Answered, KeptBook, Question, Store
from ..store.deeds import Write

NO_CHANGE = "Nothing is changed: "
May = Callable[[], Awaitable[str]]
"""A sentence that says why the speaker may change neither settings nor book here; empty where that is allowed."""


async def anybody() -> str:
    """Everybody may."""
    return ""


@dataclass(frozen=True, slots=True)
class Exchange:
    """The reply, the states before and after it, the version of the chat's state when it will have been kept,
    and what has to be written for that."""

    reply: Reply
    before: State
    after: State
    version: int
    state: tuple[str, object, int] | None = None
    more: tuple[Write, ...] = ()
    forgotten: bool = False


@dataclass(frozen=True, slots=True)
class _Way:
    """Which state a text is read in, and which is kept of those that are now and come after."""

    before: State
    settle: Callable[[State, State], State]


Choose = Callable[[State, int], _Way]


@dataclass(frozen=True, slots=True)
class Desk:
    """The conversation and its memory."""

    reckoner: Reckoner
    store: Store

    async def ask(self, chat: str, text: str, who: User | None = None, may: May = anybody) -> Exchange:
        """A new message: read in the chat's present state."""
        return await self._exchange(chat, text, who, may, lambda now, version: _Way(now, lambda now, after: after))

    async def ask_again(self, chat: str, text: str, first: Answered, who: User | None = None,
                        may: May = anybody) -> Exchange:
        """An edited message: read in the state in which it was first said.

        If the chat has gone on since, its present settings hold, and nothing but settings is kept.
        """
        then = State.from_json(first.before)

        def choose(now: State, version: int) -> _Way:
            if version == first.version:
                return _Way(then, lambda now, after: after)
            return _Way(then.but(settings=now.settings, reminders=now.reminders),
                        lambda now, after: now.but(settings=after.settings, reminders=after.reminders, book=after.book))

        return await self._exchange(chat, text, who, may, choose)

    async def choose(self, chat: str, choice: str, question: Question, who: User | None = None,
                     may: May = anybody) -> Exchange:
        """A pressed button: read in the state that asked, with the chat's present settings."""
        then = State.from_json(question.state)
        return await self._exchange(chat, choice, who, may, lambda now, version: _Way(
            then.but(settings=now.settings, reminders=now.reminders), lambda now, after: after))

    async def glance(self, chat: str, text: str) -> Reply:
        """The answer to a text of which nothing is kept."""
        return (await self.reckoner.answer(text, (await self.state(chat)).but(last=None, open=None, board=None)))[0]

    async def why(self, chat: str) -> str | None:
        """The working of a chat's last answer, in the state in which it was given."""
        last = await self.store.answers.last(chat)
        return None if last is None else await self.reckoner.why(last.text, State.from_json(last.before))

    async def place(self, message: Message) -> tuple[str, int]:
        """Where a message is kept: the key of its chat, and its number there.

        A message of a group that has become a supergroup is kept in that, under a negative number.
        """
        key = chat_key(message)
        home = await self.store.moves.home(key) if message.chat.type == ChatType.GROUP else key
        return home, message.message_id if home == key else -message.message_id

    async def move(self, old: int, new: int) -> None:
        """A chat goes on under another number."""
        await self.store.move(f"telegram:{old}", f"telegram:{new}")

    def moving(self, old: int, new: int) -> Write:
        """``move``, within a deed."""
        def write(connection: Connection) -> None:
            self.store.move_in(connection, f"telegram:{old}", f"telegram:{new}")

        return write

    async def state(self, chat: str) -> State:
        """What is kept of a chat now."""
        return State.from_json((await self.store.chats.get(chat)).data)

    async def _exchange(self, chat: str, text: str, who: User | None, may: May, choose: Choose) -> Exchange:
        kept, book = await self.store.look(chat)
        now = State.from_json(kept.data).but(book=book.book)
        way = choose(now, kept.version)
        before = way.before.but(book=book.book, here=Here(who.full_name if who else ""))
        reply, after = await self.reckoner.answer(text, before)
        if after.errand == "forget":
            return await self._forgotten(chat, reply, before, may)
        if after.errand == "export":
            reply = with_everything(reply, await self.store.export(chat))
        settled = way.settle(now, after)
        if settled.settings != now.settings or settled.book is not now.book:
            refused = await may()
            if refused:
                settled = settled.but(settings=now.settings, book=now.book)
                reply = Reply("declined", text, NO_CHANGE + refused)
        more = (_keeping(self.store, chat, settled.book, book),) if settled.book is not book.book else ()
        if settled == now:
            return Exchange(reply, before, after, kept.version, None, more)
        return Exchange(reply, before, after, kept.version + 1, (chat, settled.to_json(), kept.version), more)

    async def _forgotten(self, chat: str, reply: Reply, before: State, may: May) -> Exchange:
        refused = await may()
        if refused:
            return Exchange(Reply("declined", reply.question, NO_CHANGE + refused), before, before, 0)

        def forget(connection: Connection) -> None:
            self.store.forget_in(connection, chat)

        return Exchange(reply, State(), State(), 0, None, (forget,), forgotten=True)


def _keeping(store: Store, chat: str, book: Book, kept: KeptBook) -> Write:
    def write(connection: Connection) -> None:
        store.books.write(connection, chat, book, kept)

    return write


def chat_key(message: Message) -> str:
    """The name under which a chat, or a topic of a forum, is kept."""
    topic = f":{message.message_thread_id}" if message.is_topic_message else ""
    return f"telegram:{message.chat.id}{topic}"
