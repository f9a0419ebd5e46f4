"""The commands, in one table: what each is called, what its menu line says, and what it does."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from typing import Any

from telegram import BotCommand, Message

from ..reply import Reply
from ..state import State
from .desk import Desk, chat_key

Do = Callable[[Desk, Message], Awaitable[Reply]]


@dataclass(frozen=True, slots=True)
class Command:
    """``do`` gives the reply to ``/name``."""

    name: str
    line: str
    do: Do


def _noted(headline: str, *body: str) -> Reply:
    return Reply("noted", "", headline, body)


def _examples(desk: Desk, most: int) -> Sequence[str]:
    """Questions that calculators give as examples, from all over, where the conversation has a kernel."""
    models: Any = getattr(getattr(desk.talker, "kernel", None), "models", {})
    found = [m.calculator.examples[0][0] for m in models.values() if m.calculator.examples]
    return found[:: -(-len(found) // most) or 1]


async def _start(desk: Desk, message: Message) -> Reply:
    return _noted("Ask me for a measure, in your own words.", *(f"• {q}" for q in _examples(desk, 4)),
                  "Change a value in the next message, or edit your question: the answer follows.",
                  "/help says more.")


async def _help(desk: Desk, message: Message) -> Reply:
    return _noted("Say what you have and what you want to know.",
                  "Say what changes (“and for 2 litres?”) and I keep the rest.",
                  "When I ask back, press a button or type the answer.",
                  "In a group, name me or reply to me.",
                  *(f"/{c.name}: {c.line}" for c in COMMANDS))


async def _settings(desk: Desk, message: Message) -> Reply:
    kept = (await desk.settings(chat_key(message))).settings
    lines = [f"• {_title(name)}: {_plain(value)}" for name, value in sorted(kept.items())]
    return _noted("This chat's settings" if lines else "This chat has no settings of its own.", *lines,
                  "Change them in plain words, such as “our dash is 0.6 ml” or “we use imperial ounces”.")


def _title(name: str) -> str:
    kind, _, thing = name.replace("_", " ").partition(":")
    return f"{thing} ({kind})" if thing else kind


def _plain(value: object) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{k} {_plain(v)}" for k, v in value.items())
    return f"{value:g}" if isinstance(value, float) else str(value)


async def _calculators(desk: Desk, message: Message) -> Reply:
    lines = [f"• {q}" for q in _examples(desk, 30)]
    return _noted("You can ask, for instance:" if lines else "There is no calculator to ask.", *lines)


async def _why(desk: Desk, message: Message) -> Reply:
    last = await desk.store.answers.last(chat_key(message))
    if last is None:
        return _noted("Nothing was asked yet.")
    told = (await desk.why(last.text, State.from_json(last.before))).split("\n")
    return _noted(told[0], *told[1:])


async def _forget(desk: Desk, message: Message) -> Reply:
    await desk.store.forget(chat_key(message))
    return _noted("Forgotten: this chat's questions and settings.")


COMMANDS = (
    Command("start", "what I do", _start),
    Command("help", "how to ask", _help),
    Command("settings", "this chat's measures and habits", _settings),
    Command("calculators", "what can be asked", _calculators),
    Command("why", "the working of the last answer", _why),
    Command("forget", "delete what I know of this chat", _forget),
)
ASK = BotCommand("ask", "ask, in a group")


def menu() -> list[BotCommand]:
    """The commands as Telegram lists them."""
    return [*(BotCommand(c.name, c.line) for c in COMMANDS), ASK]
