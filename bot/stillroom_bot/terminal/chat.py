"""A conversation in the terminal, with line editing where somebody types, plain reading where a file does."""

from __future__ import annotations

import asyncio
import os
import sys
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..board.exchange import with_everything
from ..reminders import Reminder, due_text, past
from ..reply import Reply
from ..state import State
from ..talker import Talker, respond, working
from ..when.zones import now_in
from .ask import shown
from .files import saved

if TYPE_CHECKING:
    from ..store import KeptBook

KEY = "terminal"
PROMPT = "> "
HELLO = "Ask for a measure in plain words. /why shows the working, /forget starts over, /quit ends."
CHANGED = "Somebody else changed the book in the meantime, so nothing was kept: say it once more."
Read = Callable[[], Awaitable[str | None]]
Load = Callable[[], Awaitable[State]]
Save = Callable[[Reply | None, State], Awaitable[tuple[Any, State]]]
Remind = Callable[[State], Awaitable[list[Reminder]]]


def chat(talker: Talker, fresh: bool = False) -> int:
    """Talk until the input ends; ``fresh`` neither takes up nor keeps the conversation.

    Raises Unavailable or OSError when its place cannot be used.
    """
    return asyncio.run(_chat(talker, fresh))


async def _chat(talker: Talker, fresh: bool) -> int:
    async with _memory(fresh) as (load, save, remind):
        typing = sys.stdin.isatty() and sys.stdout.isatty()
        read = _typed(fresh) if typing else _piped
        if typing:
            print(HELLO)
        await _talk(talker, read, load, save, remind)
    return 0


async def _talk(talker: Talker, read: Read, load: Load, save: Save, remind: Remind) -> None:
    state = await load()
    asked: tuple[str, State] | None = None
    while True:
        await _say_due(state, remind)
        line = await read()
        if line is None:
            return
        await _say_due(state, remind)
        text = line.strip()
        if not text:
            continue
        if text == "/quit":
            return
        if text == "/forget":
            state, asked = State(reminders=(), book=state.book), None
            print("Forgotten: our conversation, and your settings.", flush=True)
        elif text == "/why":
            print(working(talker, *asked) if asked else "Nothing was asked yet.", flush=True)
        elif text in ("/help", "/?"):
            print(HELLO, flush=True)
        else:
            asked = (text, state)
            reply, state = respond(talker, text, state)
            if state.errand == "forget":
                asked = None
            reply, state = await save(reply, state)
            print(shown(reply), *saved(reply), sep="\n", flush=True)
            continue
        _, state = await save(None, state)


async def _say_due(state: State, remind: Remind) -> None:
    """Say what is due, before the prompt and before the answer to what was typed at it."""
    for reminder in await remind(state):
        print(due_text(reminder, now_in(state.settings)), flush=True)


async def _piped() -> str | None:
    return sys.stdin.readline() or None


def _typed(fresh: bool) -> Read:
    from prompt_toolkit import PromptSession
    from prompt_toolkit.history import FileHistory, History, InMemoryHistory

    history: History = InMemoryHistory() if fresh else FileHistory(str(_history_file()))
    session: PromptSession[str] = PromptSession(PROMPT, history=history)

    async def read() -> str | None:
        while True:
            try:
                return await session.prompt_async()
            except KeyboardInterrupt:
                continue
            except EOFError:
                return None

    return read


def _history_file() -> Path:
    from ..places import data_dir

    path = data_dir() / "history"
    os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
    return path


@asynccontextmanager
async def _memory(fresh: bool) -> AsyncIterator[tuple[Load, Save, Remind]]:
    """How the conversation is taken up, how it is kept after each message, and which reminders are due."""
    if fresh:
        said: set[str] = set()

        async def begin() -> State:
            return State()

        async def drop(reply: Reply | None, state: State) -> tuple[Reply | None, State]:
            return reply, state.but(errand="")

        async def due(state: State) -> list[Reminder]:
            found = [r for r in past(state.reminders, now_in(state.settings)) if r.id not in said]
            said.update(r.id for r in found)
            return found

        yield begin, drop, due
        return
    from ..places import database_url
    from ..store import open_store

    held: list[KeptBook] = []
    async with open_store(database_url()) as store:
        async def load() -> State:
            held.append(await store.books.get(KEY))
            return State.from_json((await store.chats.get(KEY)).data).but(book=held[-1].book)

        async def save(reply: Reply | None, state: State) -> tuple[Reply | None, State]:
            """Keep what a message changed, before its reply is shown, and do what it asked of the store."""
            if state.errand == "forget":
                await store.forget(KEY)
                _history_file().write_bytes(b"")
                return reply, await load()
            for _ in range(3):
                kept = await store.chats.get(KEY)
                if await store.keep(KEY, state.to_json(), kept.version, state.book, held[-1]) is not None:
                    break
            else:
                return Reply("declined", "", CHANGED), await load()
            if state.book is not held[-1].book:
                held.append(await store.books.get(KEY))
            if state.errand == "export" and reply is not None:
                reply = with_everything(reply, await store.export(KEY))
            return reply, state.but(book=held[-1].book, errand="")

        async def take(_: State) -> list[Reminder]:
            found = await store.reminders.take(KEY)
            for one in found:
                await store.reminders.done(one)
            return [one.reminder for one in found]

        yield load, save, take
