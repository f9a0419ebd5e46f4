"""Trying again: what Telegram asks to wait for, what a broken line or a busy database may do better next time."""

from __future__ import annotations

import asyncio
import logging
import random
import time
from collections.abc import Awaitable, Callable
from typing import TypeVar

from telegram.error import BadRequest, NetworkError, RetryAfter, TelegramError

from ..store.engine import away
from .limiter import seconds_of

T = TypeVar("T")
FIRST, LONGEST = 0.2, 30.0
DAY = 24 * 3600.0
log = logging.getLogger("stillroom_bot.telegram")


class Later(Exception):
    """There was no more time; it has to be tried again by whoever hands the update over next."""


def passing(error: Exception) -> bool:
    """May the same call do better in a while?"""
    if isinstance(error, TelegramError):
        garbled = "invalid server response" in str(error).lower()
        return garbled or isinstance(error, RetryAfter) or (
            isinstance(error, NetworkError) and not isinstance(error, BadRequest))
    return away(error)


async def patiently(call: Callable[[], Awaitable[T]], seconds: float = DAY) -> T:
    """Call until it does, for so many seconds; the pauses double, with jitter, or are what Telegram asks for.

    Raises Later when the time is over, and at once whatever will be no better.
    """
    end, pause = time.monotonic() + seconds, FIRST
    while True:
        try:
            return await call()
        except Exception as e:
            if not passing(e):
                raise
            wait = seconds_of(e) if isinstance(e, RetryAfter) else random.uniform(pause / 2, pause)
            if time.monotonic() + wait > end:
                raise Later from e
            log.info("tried again in %.1f s (%s)", wait, type(e).__name__)
        pause = min(LONGEST, 2 * pause)
        await asyncio.sleep(wait)
