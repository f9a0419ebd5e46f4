"""A conversation with the bar's calculators, and a chat to talk to it in."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

import pytest
from stillroom import Kernel
from stillroom_bot.board.desk import Tools
from stillroom_bot.conversation import Conversation
from stillroom_bot.reply import Reply
from stillroom_bot.state import Here, State

NOW = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)
CORDIAL = (
    "keep Basil Cordial: 500 ml water, 400 g sugar, 30 g basil leaves, 20 g citric acid; makes 800 ml; steep; strain"
)
LIGHT = "keep Marsh Light: 45 ml gin, 20 ml Basil Cordial, 25 ml lime juice; shake and strain"


class Chat:
    """A chat: what is said in it changes its state."""

    def __init__(self, conversation: Conversation, who: str = "Ada"):
        self.conversation = conversation
        self.state = State(here=Here(who, NOW))

    def say(self, *texts: str) -> Reply:
        """The reply to the last of some messages."""
        for text in texts:
            reply, after = self.conversation.answer(text, self.state)
            kept = State.from_json(after.to_json())
            self.state = kept.but(book=after.book, here=self.state.here, errand=after.errand)
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


@pytest.fixture
def chat(conversation: Conversation) -> Chat:
    """An empty chat."""
    return Chat(conversation)


@pytest.fixture
def bar(chat: Chat) -> Chat:
    """A chat that keeps a cordial and a drink with it."""
    chat.say(CORDIAL, "yes", LIGHT, "yes")
    return chat


@pytest.fixture
def another(conversation: Conversation) -> Callable[[], Chat]:
    """More chats."""
    return lambda: Chat(conversation, "Bea")
