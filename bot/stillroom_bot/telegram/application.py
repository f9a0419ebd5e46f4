"""The application: parts put together, and long polling until the process is told to stop."""

from __future__ import annotations

import asyncio
import logging
import os
import signal
from collections.abc import AsyncIterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import AsyncExitStack, asynccontextmanager, suppress
from typing import Any

from telegram import LinkPreviewOptions
from telegram.error import InvalidToken, TelegramError
from telegram.ext import Application, ApplicationBuilder, Defaults

from ..places import Unavailable, database_url
from ..store import Store, open_store
from ..talker import Talker
from .commands import menu
from .desk import Desk
from .errors import on_error
from .handlers import ALLOWED, attach
from .logging import redacted, to_stderr
from .ordering import ChatOrder
from .reminding import remind

App = Application[Any, Any, Any, Any, Any, Any]
API = "STILLROOM_TELEGRAM_API"
PURGE_SECONDS = 6 * 3600.0
log = logging.getLogger("stillroom_bot.telegram")


def build(token: str, desk: Desk, base_url: str | None = None) -> App:
    """An application that is ready to be started; ``base_url`` as for a Bot API server of one's own."""
    builder = ApplicationBuilder().token(token).concurrent_updates(ChatOrder())
    builder = builder.defaults(Defaults(link_preview_options=LinkPreviewOptions(is_disabled=True)))
    if base_url:
        builder = builder.base_url(base_url)
    application: App = builder.build()
    attach(application, desk)
    application.add_error_handler(on_error)
    return application


@asynccontextmanager
async def polling(token: str, talker: Talker, store: Store, base_url: str | None = None,
                  timeout: int = 30) -> AsyncIterator[App]:
    """The bot at work, by long polling.  On leaving, what was fetched is still answered.

    Raises Unavailable for a token that is not accepted or a server that cannot be reached.
    """
    async with AsyncExitStack() as stack:
        pool = stack.enter_context(ThreadPoolExecutor(1, "reckoning"))
        application = build(token, Desk(talker, store, pool), base_url)
        updater = application.updater
        assert updater is not None
        try:
            await stack.enter_async_context(application)
            await application.start()
            stack.push_async_callback(application.stop)
            await updater.start_polling(timeout=timeout, allowed_updates=ALLOWED)
            stack.push_async_callback(updater.stop)
        except InvalidToken:
            raise Unavailable("Telegram does not accept the token.") from None
        except TelegramError as e:
            raise Unavailable(f"Telegram cannot be reached ({type(e).__name__}).") from None
        await _announce(application)
        remind(application)
        yield application


async def serve(token: str, talker: Talker, url: str, base_url: str | None = None) -> None:
    """Poll until SIGINT or SIGTERM, purging what has grown old.  Raises Unavailable."""
    stop = asyncio.Event()
    for name in (signal.SIGINT, signal.SIGTERM):
        with suppress(NotImplementedError):
            asyncio.get_running_loop().add_signal_handler(name, stop.set)
    async with open_store(url) as store, polling(token, talker, store, base_url):
        log.info("listening")
        while not stop.is_set():
            await store.purge()
            with suppress(TimeoutError):
                await asyncio.wait_for(stop.wait(), PURGE_SECONDS)
        log.info("stopping")


def run(token: str, talker: Talker) -> int:
    """Serve in this process; 0 when it was told to stop.  Raises Unavailable, with a sentence without the token."""
    os.environ.setdefault("PTB_TIMEDELTA", "true")
    with redacted(token) as redactor:
        to_stderr(redactor)
        try:
            asyncio.run(serve(token, talker, database_url(), os.environ.get(API)))
        except Unavailable as e:
            raise Unavailable(redactor.clean(str(e))) from None
    return 0


async def _announce(application: App) -> None:
    """Tell Telegram the commands; without the menu the bot works as well."""
    try:
        await application.bot.set_my_commands(menu())
    except TelegramError as e:
        log.warning("the menu of commands was not accepted (%s)", type(e).__name__)
