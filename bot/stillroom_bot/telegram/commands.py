"""The commands, in one table: what each is called, what its menu line says, which words do the same, what it does."""

from __future__ import annotations

import re
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection
from telegram import BotCommand, Message

from ..reply import Reply
from .clerk import Turn
from .desk import Desk
from .questions import spoken, turn_of

Do = Callable[[Desk, Message, str], Awaitable[Turn]]


@dataclass(frozen=True, slots=True)
class Command:
    """``do`` gives the turn for ``/name payload``; ``words`` are plain ones that do the same."""

    name: str
    line: str
    do: Do
    words: tuple[str, ...] = ()


def _noted(message: Message, headline: str, *body: str) -> Turn:
    return Turn((spoken(message, Reply("noted", "", headline, body)),))


def _examples(desk: Desk, most: int) -> Sequence[str]:
    """Questions that calculators give as examples, from all over."""
    found = [question for _, question in desk.reckoner.examples]
    return found[:: -(-len(found) // most) or 1]


async def _start(desk: Desk, message: Message, payload: str) -> Turn:
    """A deep link may name a calculator, its dots as dashes; anything else in it is passed over."""
    for id, question in desk.reckoner.examples:
        if payload and payload == id.replace(".", "-")[:64]:
            return _noted(message, "You can ask, for instance:", f"• {question}", "With your words and numbers.")
    return _noted(message, "Ask me for a measure, in your own words.", *(f"• {q}" for q in _examples(desk, 4)),
                  "Change a value in the next message, or edit your question: the answer follows.",
                  "/help says more.")


async def _help(desk: Desk, message: Message, _: str) -> Turn:
    return _noted(message, "Say what you have and what you want to know.",
                  "Say what changes (“and for 2 litres?”) and I keep the rest.",
                  "When I ask back, press a button or type the answer.",
                  "In a group, name me or reply to me; in any chat, write my name and the question.",
                  *(f"/{c.name}: {c.line}" for c in COMMANDS))


async def _settings(desk: Desk, message: Message, _: str) -> Turn:
    kept = (await desk.state((await desk.place(message))[0])).settings
    lines = [f"• {_title(name)}: {_plain(value)}" for name, value in sorted(kept.items())]
    return _noted(message, "This chat's settings" if lines else "This chat has no settings of its own.", *lines,
                  "Change them in plain words, such as “our dash is 0.6 ml” or “we use imperial ounces”.")


def _title(name: str) -> str:
    kind, _, thing = name.replace("_", " ").partition(":")
    return f"{thing} ({kind})" if thing else kind


def _plain(value: object) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{k} {_plain(v)}" for k, v in value.items())
    return f"{value:g}" if isinstance(value, float) else str(value)


async def _calculators(desk: Desk, message: Message, _: str) -> Turn:
    lines = [f"• {q}" for q in _examples(desk, 30)]
    return _noted(message, "You can ask, for instance:" if lines else "There is no calculator to ask.", *lines)


async def _why(desk: Desk, message: Message, _: str) -> Turn:
    told = await desk.why((await desk.place(message))[0])
    return _noted(message, "Nothing was asked yet.") if told is None else _noted(message, *told.split("\n"))


async def _forget(desk: Desk, message: Message, _: str) -> Turn:
    """At once, but for a chat that keeps specs: that is asked once more."""
    (chat, number), user = await desk.place(message), message.from_user
    if (await desk.store.books.get(chat)).book.specs:
        exchange = await desk.ask(chat, "forget me", user)
        return turn_of(exchange, spoken(message, exchange.reply), chat, user.id if user else 0, "forget me", number)

    def forget(connection: Connection) -> None:
        desk.store.forget_in(connection, chat)

    said = _noted(message, "Forgotten: everything that was kept of this chat.")
    return Turn(said.sayings, more=(forget,))


COMMANDS = (
    Command("start", "what I do", _start, ("start",)),
    Command("help", "how to ask", _help, ("help", "how do i ask", "how does this work")),
    Command("settings", "this chat's measures and habits", _settings,
            ("settings", "show settings", "show my settings", "show our settings", "our settings", "my settings")),
    Command("calculators", "what can be asked", _calculators,
            ("calculators", "what can i ask", "what can you do", "what can you work out")),
    Command("why", "the working of the last answer", _why,
            ("why", "show me the working", "show the working", "how did you work that out", "how do you get that")),
    Command("forget", "delete what I know of this chat", _forget),
)
ASK = BotCommand("ask", "ask, in a group")
_WORDS = {words: c for c in COMMANDS for words in c.words}


def plain(text: str) -> Command | None:
    """The command that a text in plain words stands for."""
    return _WORDS.get(re.sub(r"[^\w ]+|\bplease\b", "", text.casefold()).strip())


def menu() -> list[BotCommand]:
    """The commands as Telegram lists them."""
    return [*(BotCommand(c.name, c.line) for c in COMMANDS), ASK]
