"""A conversation with the bar's calculators, and a chat to talk to it in, kept by SQLite and by PostgreSQL."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterator
from contextlib import AsyncExitStack
from datetime import UTC, datetime
from itertools import count

import pytest
from stillroom import Kernel
from stillroom_bot.board import Book
from stillroom_bot.board.desk import Tools
from stillroom_bot.conversation import Conversation
from stillroom_bot.reply import Reply
from stillroom_bot.state import Here, State
from stillroom_bot.store import Store, open_store

NOW = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)
CORDIAL = (
    "keep Basil Cordial: 500 ml water, 400 g sugar, 30 g basil leaves, 20 g citric acid; makes 800 ml; steep; strain"
)
LIGHT = "keep Marsh Light: 45 ml gin, 20 ml Basil Cordial, 25 ml lime juice; shake and strain"


class Shelf:
    """A database: one store writes to it, and another reads what is there, so that no memory of the first helps."""

    def __init__(self, runner: asyncio.Runner, writer: Store, reader: Store):
        self.runner, self.writer, self.reader, self.keys = runner, writer, reader, count(1)

    def new(self) -> str:
        """The key of a chat that nobody has had."""
        return f"board:{next(self.keys)}"

    def kept(self, chat: str, state: State) -> State:
        """The state and the book of a chat as they are read once they were written."""
        return self.runner.run(self._kept(chat, state))

    def through(self, book: Book) -> Book:
        """A book as a chat of its own has it back."""
        return self.kept(self.new(), State(book=book)).book

    async def _kept(self, chat: str, state: State) -> State:
        if state.errand == "forget":
            await self.writer.forget(chat)
        else:
            kept, book = await self.reader.look(chat)
            written = await self.writer.keep(chat, state.to_json(), kept.version, state.book, book)
            assert written is not None, "nobody else writes to this chat"
        kept, book = await self.reader.look(chat)
        return State.from_json(kept.data).but(book=book.book)


class Chat:
    """A chat: what is said in it changes its state, which is written to the database and read from it each time."""

    def __init__(self, conversation: Conversation, shelf: Shelf, who: str = "Ada"):
        self.conversation, self.shelf, self.key = conversation, shelf, shelf.new()
        self.state = State(here=Here(who, NOW))

    def say(self, *texts: str) -> Reply:
        """The reply to the last of some messages."""
        for text in texts:
            reply, after = self.conversation.answer(text, self.state)
            self.state = self.shelf.kept(self.key, after).but(here=self.state.here, errand=after.errand)
        return reply

    @property
    def names(self) -> list[str]:
        """The names of the specs that are kept."""
        return [s.name for s in self.state.book.specs]

    def lines(self, name: str) -> dict[str, tuple[float, str]]:
        """The lines of a kept spec: value and unit by thing."""
        spec = self.state.book.named(name)
        assert spec is not None
        return {x.thing: (x.amount.value, x.amount.unit) for x in spec.lines if x.amount}


@pytest.fixture(scope="session")
def conversation(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """One for all tests: it keeps nothing between calls."""
    return Conversation(Kernel(tmp_path_factory.mktemp("cache")))


@pytest.fixture
def tools(conversation: Conversation) -> Tools:
    """The board's tools."""
    return conversation.board.tools


@pytest.fixture(scope="session")
def shelves(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Callable[[str], Shelf]]:
    """An empty database of each kind for all tests, made when it is first wanted; each test has chats of its own."""
    stack, made = AsyncExitStack(), dict[str, Shelf]()

    def shelf(kind: str) -> Shelf:
        if kind not in made:
            file = f"sqlite:///{tmp_path_factory.mktemp('shelf') / 'bar.sqlite3'}"
            url = file if kind == "sqlite" else request.getfixturevalue("server").format("postgres")
            writer, reader = (runner.run(stack.enter_async_context(open_store(url))) for _ in range(2))
            made[kind] = Shelf(runner, writer, reader)
        return made[kind]

    with asyncio.Runner() as runner:
        yield shelf
        runner.run(stack.aclose())


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def shelf(request: pytest.FixtureRequest, shelves: Callable[[str], Shelf]) -> Shelf:
    """A database of either kind."""
    return shelves(request.param)


@pytest.fixture
def chat(conversation: Conversation, shelf: Shelf) -> Chat:
    """An empty chat."""
    return Chat(conversation, shelf)


@pytest.fixture
def bar(chat: Chat) -> Chat:
    """A chat that keeps a cordial and a drink with it."""
    chat.say(CORDIAL, "yes", LIGHT, "yes")
    return chat


@pytest.fixture
def another(conversation: Conversation, shelf: Shelf) -> Callable[[], Chat]:
    """More chats."""
    return lambda: Chat(conversation, shelf, "Bea")
