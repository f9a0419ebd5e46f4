"""The application: parts put together, and long polling until the process is told to stop."""

from __future__ import annotations

import logging
import secrets
from collections.abc import AsyncIterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import AsyncExitStack, asynccontextmanager
from dataclasses import dataclass
from typing import Any, cast

from telegram import LinkPreviewOptions
from telegram.error import InvalidToken, TelegramError
from telegram.ext import Application, ApplicationBuilder, Defaults

from ..places import Unavailable
from ..reckoning import InThread, Reckoner
from ..reckoning.processes import Processes
from ..store import Store
from ..store.deeds import Deeds
from ..talker import Talker
from . import metrics
from .access import Guests
from .clerk import Clerk
from .client import Client
from .commands import menu
from .config import Setup
from .desk import Desk
from .errors import on_error
from .handlers import ALLOWED, Floor
from .inlet import Inlet
from .limiter import ChatLimiter
from .ordering import ChatOrder
from .patience import DAY
from .reminding import remind

App = Application[Any, Any, Any, Any, Any, Any]
log = logging.getLogger("stillroom_bot.telegram")


@dataclass(frozen=True)
class Bot:
    """A running bot: the framework's application and what of ours it is made of."""

    app: App
    order: ChatOrder
    clerk: Clerk
    limiter: ChatLimiter
    store: Store
    name: str

    async def share(self) -> None:
        """Say that this process is alive, and take its part of what may be sent."""
        count = await self.store.workers.alive(self.app.bot.id, self.name)
        self.limiter.share = 1 / max(1, count)
        metrics.workers.set(count)


def build(setup: Setup, store: Store, order: ChatOrder, limiter: ChatLimiter, inlet: Inlet | None = None) -> App:
    """An application that is ready to be started; without an ``inlet`` it does not fetch updates itself."""
    builder = ApplicationBuilder().token(setup.token).concurrent_updates(order).rate_limiter(limiter)
    builder = builder.request(Client()).get_updates_request(inlet or Client(1))
    builder = builder.defaults(Defaults(link_preview_options=LinkPreviewOptions(is_disabled=True)))
    if setup.api:
        builder = builder.base_url(setup.api)
    made: App = (builder if inlet else builder.updater(None)).build()
    made.add_error_handler(on_error)
    return made


@asynccontextmanager
async def working(setup: Setup, reckoner: Reckoner, store: Store, inlet: bool, patience: float) -> AsyncIterator[Bot]:
    """The bot put together and started, but for the way in which updates reach it.

    On leaving, what is at work may end within the set time; the rest stays in the inbox, or with Telegram.
    Raises Unavailable for a token that is not accepted or a server that cannot be reached.
    """
    order, limiter = ChatOrder(), ChatLimiter(setup.rate)
    door = Inlet(store.inbox, order) if inlet else None
    app, desk = build(setup, store, order, limiter, door), Desk(reckoner, store)
    app.bot_data["desk"] = desk
    async with AsyncExitStack() as stack:
        stack.push_async_callback(app.bot.shutdown)  # which the application leaves open when it does not come so far
        try:
            await stack.enter_async_context(app)
            clerk = Clerk(app.bot, Deeds(store.database, store.inbox, app.bot.id), desk.move, patience)
            Floor(app, desk, clerk, Guests(setup.allow, setup.user_rate, setup.admins))
            await app.start()
        except InvalidToken:
            raise Unavailable("Telegram does not accept the token.") from None
        except TelegramError as e:
            raise Unavailable(f"Telegram cannot be reached ({type(e).__name__}).") from None
        stack.push_async_callback(app.stop)
        bot = Bot(app, order, clerk, limiter, store, secrets.token_hex(8))
        stack.push_async_callback(store.workers.leave, app.bot.id, bot.name)
        stack.push_async_callback(_let_end, order, setup.stop_seconds)
        await bot.share()
        if door is not None:
            await door.open(app, clerk)
        remind(app)
        yield bot


@asynccontextmanager
async def polling(token: str | Setup, talker: Talker | Reckoner, store: Store, base_url: str | None = None,
                  timeout: int = 30) -> AsyncIterator[App]:
    """The bot at work, by long polling.  Raises Unavailable as ``working`` does."""
    setup = token if isinstance(token, Setup) else Setup(token, base_url)
    async with AsyncExitStack() as stack:
        reckoner = _reckoner(talker, stack)
        bot = await stack.enter_async_context(working(setup, reckoner, store, True, DAY))
        updater = bot.app.updater
        assert updater is not None
        try:
            await updater.start_polling(timeout=timeout, allowed_updates=ALLOWED, error_callback=_unheard)
        except TelegramError as e:
            raise Unavailable(f"Telegram cannot be reached ({type(e).__name__}).") from None
        stack.push_async_callback(updater.stop)
        await announce(bot.app)
        bot.app.bot_data["bot"] = bot
        yield bot.app


def _unheard(error: TelegramError) -> None:
    log.warning("updates could not be fetched (%s); tried again", type(error).__name__)


async def announce(application: App) -> None:
    """Tell Telegram the commands; without the menu the bot works as well."""
    try:
        await application.bot.set_my_commands(menu())
    except TelegramError as e:
        log.warning("the menu of commands was not accepted (%s)", type(e).__name__)


def _reckoner(talker: Talker | Reckoner, stack: AsyncExitStack) -> Reckoner:
    if isinstance(talker, (Processes, InThread)):
        return talker
    return InThread(cast(Talker, talker), stack.enter_context(ThreadPoolExecutor(1, "reckoning")))


async def _let_end(order: ChatOrder, seconds: float) -> None:
    stopped = await order.close(seconds)
    if stopped:
        log.warning("%d messages were not answered in time; they are when the bot is back", stopped)
