"""Speaking to a chat: sending a reply, revising one in place, and patience with a server that is busy."""

from __future__ import annotations

import asyncio
import datetime as dt
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from typing import TypeVar

from telegram import Bot, InlineKeyboardMarkup, Message, ReplyParameters
from telegram.constants import ParseMode
from telegram.error import BadRequest, NetworkError, RetryAfter, TimedOut

from ..reply import Reply
from .formatting import Piece, pieces

T = TypeVar("T")
TRIES = 3
LONGEST_WAIT = 60.0
GONE = ("message to edit not found", "message can't be edited", "message_id_invalid")
Keys = InlineKeyboardMarkup | None


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a reply goes: a chat, its topic, and the message that it answers."""

    chat: int
    answers: int
    topic: int | None = None

    @classmethod
    def under(cls, message: Message) -> Spot:
        """Below a person's message."""
        return cls(message.chat.id, message.message_id, message.message_thread_id if message.is_topic_message else None)


async def send(bot: Bot, spot: Spot, reply: Reply, keys: Keys = None) -> tuple[int, ...]:
    """Send a reply; returns the numbers of its messages, nearly always one.  The last carries the buttons."""
    parts = pieces(reply)
    return tuple([await _say(bot, spot, part, keys if part is parts[-1] else None) for part in parts])


async def revise(bot: Bot, spot: Spot, old: tuple[int, ...], reply: Reply, keys: Keys = None) -> tuple[int, ...]:
    """Put a reply in the place of an earlier one; what is gone is sent anew, what is left over deleted."""
    parts = pieces(reply)
    made = []
    for n, part in enumerate(parts):
        markup = keys if part is parts[-1] else None
        here = n < len(old) and await _rewrite(bot, spot.chat, old[n], part, markup)
        made.append(old[n] if here else await _say(bot, spot, part, markup))
    for number in old[len(parts):]:
        await _delete(bot, spot.chat, number)
    return tuple(made)


async def patiently(call: Callable[[], Awaitable[T]]) -> T:
    """Call the server, waiting when it asks for it, and once more when the line broke.

    A call that timed out may have been carried out, and is not repeated.
    """
    for attempt in range(1, TRIES + 1):
        try:
            return await call()
        except RetryAfter as e:
            seconds = e.retry_after.total_seconds() if isinstance(e.retry_after, dt.timedelta) else e.retry_after
            if attempt == TRIES or seconds > LONGEST_WAIT:
                raise
            await asyncio.sleep(seconds)
        except (BadRequest, TimedOut):
            raise
        except NetworkError:
            if attempt > 1:
                raise
            await asyncio.sleep(0.2)
    raise AssertionError("unreachable")


async def _marked(call: Callable[[str, ParseMode | None], Awaitable[T]], part: Piece) -> T:
    """Call with markup; without it, if the server cannot read it."""
    try:
        return await patiently(lambda: call(part.html, ParseMode.HTML))
    except BadRequest as e:
        if "can't parse entities" not in str(e).lower():
            raise
        return await patiently(lambda: call(part.plain, None))


async def _say(bot: Bot, spot: Spot, part: Piece, keys: Keys) -> int:
    quoting = ReplyParameters(spot.answers, allow_sending_without_reply=True)

    async def call(text: str, mode: ParseMode | None) -> Message:
        return await bot.send_message(spot.chat, text, parse_mode=mode, reply_parameters=quoting, reply_markup=keys,
                                      message_thread_id=spot.topic)

    return (await _marked(call, part)).message_id


async def _rewrite(bot: Bot, chat: int, number: int, part: Piece, keys: Keys) -> bool:
    """Whether the message is there and now says this."""
    async def call(text: str, mode: ParseMode | None) -> object:
        return await bot.edit_message_text(text, chat, number, parse_mode=mode, reply_markup=keys)

    try:
        await _marked(call, part)
    except BadRequest as e:
        said = str(e).lower()
        if any(sentence in said for sentence in GONE):
            return False
        if "message is not modified" not in said:
            raise
    return True


async def _delete(bot: Bot, chat: int, number: int) -> None:
    try:
        await patiently(lambda: bot.delete_message(chat, number))
    except BadRequest:
        return
