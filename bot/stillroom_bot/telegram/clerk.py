"""One update from its arrival to its end: planned, done, said, finished.

What an update does to the store and what is to be said of it are kept in one transaction; then it is said;
then it is noted that it was.  Wherever a process ends in between, the next one goes on from there, so the
effect happens exactly once and the reply at least once.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager, suppress
from dataclasses import dataclass
from functools import partial

from sqlalchemy.exc import SQLAlchemyError
from telegram import Bot, Update
from telegram.error import ChatMigrated, Forbidden, TelegramError

from ..reckoning import BEGUN
from ..store.buttons import Question
from ..store.deeds import Deed, Deeds, Raced, Said, Write
from ..store.inbox import Gone, Letter
from . import errors, metrics
from .patience import DAY, Later, passing, patiently
from .saying import Saying, dumps, loads
from .speaking import say

TRIES = 6
MOST_TRIES = 5
"""A message that was being worked at when the process ended, so many times, is not worked at again."""
SLOW = 0.5
log = logging.getLogger("stillroom_bot.telegram")


@dataclass(frozen=True, slots=True)
class Turn:
    """What is to be said of an update, and what it does to the store (as ``Deed`` has it)."""

    sayings: tuple[Saying, ...] = ()
    state: tuple[str, object, int] | None = None
    asked: tuple[tuple[str, Question], ...] = ()
    more: tuple[Write, ...] = ()

    @property
    def writes(self) -> bool:
        """Does it change anything that must not be changed twice?"""
        return bool(self.state or self.asked or self.more)


Move = Callable[[int, int], Awaitable[None]]
Planner = Callable[[Update], Awaitable[Turn | None]]


class Clerk:
    """``open`` are the updates that are at work; ``seconds`` is how long one may take to be said; ``move`` takes what
    is kept of a chat to the number that it has now."""

    def __init__(self, bot: Bot, deeds: Deeds, move: Move, seconds: float = DAY):
        self.bot, self.deeds, self.move, self.seconds = bot, deeds, move, seconds
        self.open: dict[int, tuple[Letter, Update]] = {}

    async def carry(self, update: Update, plan: Planner) -> None:
        """Carry an update to its end.  One that is not open has been seen to, and is passed over.

        It stays open when there was no time to end it.
        """
        letter, opened = self.open.get(update.update_id, (None, None))
        if letter is None or opened is not update:
            return
        try:
            with metrics.latency.time():
                await self._carry(update, letter, plan)
            self.open.pop(update.update_id, None)
        except Gone:
            self.open.pop(update.update_id, None)
        except Later as e:
            log.warning("an update has to wait (%s)", type(e.__cause__).__name__)

    async def _carry(self, update: Update, letter: Letter, plan: Planner) -> None:
        sayings = loads(letter.plan) if letter.plan else None
        if sayings is None:
            sayings = await self._planned(update, letter, plan)
        answered = None
        for planned in sayings:
            saying, messages = await self._said(planned)
            answered = (saying.kept["chat"], saying.answered(messages)) if saying.kept and messages else answered
        chat, kept = answered or ("", None)
        await patiently(lambda: self.deeds.end(Said(letter.number, chat, kept)), self.seconds)

    async def _planned(self, update: Update, letter: Letter, plan: Planner) -> tuple[Saying, ...]:
        if letter.tries >= MOST_TRIES:
            log.error("update %d was left: the process ended %d times while it was at work", letter.number,
                      letter.tries)
            return errors.sorry(update, "given up")
        for _ in range(TRIES):
            try:
                async with self._typing(update):
                    turn = await patiently(lambda: plan(update), self.seconds) or Turn()
            except (Later, Gone):
                raise
            except Exception as e:
                return errors.sorry(update, errors.noted(e))
            if not turn.writes:
                return turn.sayings
            deed = Deed(letter.number, dumps(turn.sayings), turn.state, turn.asked, turn.more)
            try:
                await patiently(partial(self.deeds.do, deed), self.seconds)
                return turn.sayings
            except Raced:
                continue
        return errors.sorry(update, errors.noted(RuntimeError("the state of a chat kept changing")))

    async def _said(self, saying: Saying) -> tuple[Saying, tuple[int, ...]]:
        """Say it, wherever its chat is now; what can never be said is logged and let go."""
        try:
            return saying, await say(self.bot, saying, self.seconds)
        except ChatMigrated as e:
            old, new = saying.chat, e.new_chat_id
            if old != new:
                await patiently(lambda: self.move(old, new), self.seconds)
                return await self._said(saying.moved(new))
        except Forbidden:
            log.info("a chat has shut the bot out")
        except TelegramError as e:
            if passing(e):
                raise Later from e
            errors.noted(e)
        return saying, ()

    @asynccontextmanager
    async def _typing(self, update: Update) -> AsyncIterator[None]:
        """Show that work is being done, where it takes a while from its turn on."""
        message = update.message
        if message is None:
            yield
            return

        async def show() -> None:
            topic = message.message_thread_id if message.is_topic_message else None
            with suppress(TelegramError):
                await self.bot.send_chat_action(message.chat.id, "typing", message_thread_id=topic)

        def begun() -> None:
            timers.append(loop.call_later(SLOW, lambda: tasks.append(loop.create_task(show()))))

        loop = asyncio.get_running_loop()
        timers: list[asyncio.TimerHandle] = []
        tasks: list[asyncio.Task[None]] = []
        told = BEGUN.set(begun)
        try:
            yield
        finally:
            BEGUN.reset(told)
            for timer in timers:
                timer.cancel()
            for task in tasks:
                task.cancel()


def transient(error: Exception) -> bool:
    """Is it the store that failed, rather than what was asked of it?"""
    return isinstance(error, (SQLAlchemyError, OSError))
