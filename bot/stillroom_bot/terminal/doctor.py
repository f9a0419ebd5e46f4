"""What is wrong with an installation, and what to do about it: settings, database, plugins, token, webhook, clock."""

from __future__ import annotations

import asyncio
import os
from collections.abc import AsyncIterator, Callable
from datetime import UTC, datetime
from email.utils import parsedate_to_datetime
from typing import TYPE_CHECKING, Any

from ..places import Unavailable, database_url

if TYPE_CHECKING:
    from stillroom import Kernel

    from ..telegram.config import Setup

Finding = tuple[str, str, str]
"""``ok``, ``look`` or ``wrong``; what was looked at; what was found, and what to do."""
CLOCK_SECONDS = 30.0
STUCK = 100
API = "https://api.telegram.org/bot"


def doctor(kernel: Callable[[], Kernel]) -> tuple[int, str]:
    """Exit status (1 if anything is wrong), and a line for each thing that was looked at."""
    os.environ.setdefault("PTB_TIMEDELTA", "true")
    found = asyncio.run(_all(kernel))
    return int(any(f[0] == "wrong" for f in found)), "\n".join(f"{how:6}{what:10}{said}" for how, what, said in found)


async def _all(kernel: Callable[[], Kernel]) -> list[Finding]:
    from ..telegram.config import WrongSetting, setup

    found = [f async for f in _store()]
    found += _plugins(kernel())
    try:
        how = setup()
    except WrongSetting as e:
        return [*found, ("wrong", "settings", str(e))]
    found.append(("ok", "settings", "every variable that is set has a value that can be meant"))
    if not how.token:
        return [*found, ("look", "token", "STILLROOM_TELEGRAM_TOKEN is not set: there is no bot on Telegram")]
    from ..telegram.logging import redacted

    with redacted(how.token, how.secret) as redactor:
        return [*found, *[(a, b, redactor.clean(c)) async for a, b, c in _telegram(how)]]


async def _store() -> AsyncIterator[Finding]:
    from ..store import open_store
    from ..store.migrate import HEAD

    try:
        async with open_store(database_url()) as store:
            key = "doctor:here"
            kept = await store.chats.get(key)
            await store.chats.put(key, {"version": 0}, kept.version)
            await store.forget(key)
            yield ("ok", "store", f"{store.database.dialect} can be read and written, migration {HEAD}")
    except Unavailable as e:
        yield ("wrong", "store", f"{e} Look at STILLROOM_DATABASE and STILLROOM_DATA.")
    except OSError as e:
        yield ("wrong", "store", f"the data folder cannot be made ({e.strerror}): set STILLROOM_DATA to one that can")


def _plugins(kernel: Kernel) -> list[Finding]:
    found: list[Finding] = []
    for plugin in kernel.plugins.values():
        errors = [str(e) for e in plugin.errors]
        found += [("wrong", "plugin", f"{plugin.name}: {e}") for e in errors] or [
            ("ok", "plugin", f"{plugin.name}: {len(plugin.to_json()['calculators'])} calculators")]
    return found or [("wrong", "plugin", "none is installed, and so nothing can be asked")]


async def _telegram(how: Setup) -> AsyncIterator[Finding]:
    from telegram import Bot
    from telegram.error import InvalidToken, TelegramError

    from ..telegram.client import Client

    bot = Bot(how.token, how.api or API, request=Client(), get_updates_request=Client())
    try:
        async with bot:
            yield ("ok", "token", f"accepted: this is @{bot.username}")
            me = bot.bot
            if me.can_read_all_group_messages:
                yield ("look", "groups", "privacy mode is off: it hears all that groups say; turn it on with BotFather")
            if not me.supports_inline_queries:
                yield ("look", "inline", "inline mode is off: turn it on with BotFather (/setinline)")
            for finding in _hook(how, await bot.get_webhook_info()):
                yield finding
            yield await _clock(how)
    except InvalidToken:
        yield ("wrong", "token", "Telegram does not accept it: ask BotFather for it (/token)")
    except TelegramError as e:
        yield ("wrong", "telegram", f"cannot be reached ({type(e).__name__}): look at the network, or HTTPS_PROXY")


def _hook(how: Setup, info: Any) -> list[Finding]:
    found: list[Finding] = []
    if how.webhook and info.url != how.webhook:
        found.append(("look", "webhook", "Telegram does not know it yet: it is told when the bot starts"))
    elif not how.webhook and info.url:
        found.append(("look", "webhook", "one is set, though STILLROOM_TELEGRAM_WEBHOOK is not: polling will end it"))
    if info.last_error_message:
        found.append(("look", "webhook", f"its last error was: {info.last_error_message}"))
    if info.pending_update_count > STUCK:
        found.append(("look", "webhook", f"{info.pending_update_count} updates wait: is the bot running?"))
    return found or [("ok", "webhook", "as it should be")]


async def _clock(how: Setup) -> Finding:
    """Our clock against the date that the server sends along."""
    import aiohttp

    address = how.api or API
    try:
        async with aiohttp.ClientSession(trust_env=True) as session, session.get(
                address, allow_redirects=False, timeout=aiohttp.ClientTimeout(10)) as answer:
            theirs = parsedate_to_datetime(answer.headers["Date"])
    except (aiohttp.ClientError, TimeoutError, KeyError, ValueError, OSError):
        return ("look", "clock", "could not be compared")
    off = abs((datetime.now(UTC) - theirs).total_seconds())
    if off > CLOCK_SECONDS:
        return ("wrong", "clock", f"{off:.0f} s off: leases and reminders need it; switch on time synchronisation")
    return ("ok", "clock", "right to half a minute")
