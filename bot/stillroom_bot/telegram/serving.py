"""A process that serves until it is told to stop."""

from __future__ import annotations

import asyncio
import gc
import logging
import os
import signal
from collections.abc import Callable
from contextlib import AsyncExitStack, suppress

from sqlalchemy.exc import SQLAlchemyError

from ..places import Unavailable, database_url
from ..reckoning.nursery import begin, ready
from ..reckoning.processes import Processes
from ..store import open_store
from ..store.workers import EVERY_SECONDS
from ..talker import Talker
from . import metrics
from .application import Bot, polling
from .config import Setup
from .logging import redacted, to_stderr
from .webhook import listening

PURGE_SECONDS = 6 * 3600.0
log = logging.getLogger("stillroom_bot.telegram")


def run(setup: Setup, make: Callable[[], Talker]) -> int:
    """Serve in this process; 0 when it was told to stop.  Raises Unavailable, with a sentence without the token."""
    os.environ.setdefault("PTB_TIMEDELTA", "true")
    with redacted(setup.token, setup.secret) as redactor:
        to_stderr(redactor, setup.log)
        nursery = begin(make, setup.time_limit)
        try:
            failed = ready(nursery)
            if failed:
                raise Unavailable(f"The calculators cannot be loaded ({failed}).")
            processes = Processes(nursery, setup.reckoners, setup.time_limit)
            asyncio.run(_serve(setup, processes, database_url()))
        except Unavailable as e:
            raise Unavailable(redactor.clean(str(e))) from None
        finally:
            nursery.close()
    return 0


async def _serve(setup: Setup, processes: Processes, url: str) -> None:
    stop = asyncio.Event()
    for name in (signal.SIGINT, signal.SIGTERM):
        with suppress(NotImplementedError):
            asyncio.get_running_loop().add_signal_handler(name, stop.set)
    if setup.metrics:
        try:
            metrics.listen(*setup.metrics)
        except OSError as e:
            raise Unavailable(f"STILLROOM_METRICS names a place where nothing can listen ({e.strerror}).") from None
    async with AsyncExitStack() as stack:
        store = await stack.enter_async_context(open_store(url))
        await stack.enter_async_context(processes)
        if setup.webhook:
            bot = await stack.enter_async_context(listening(setup, processes, store))
        else:
            app = await stack.enter_async_context(polling(setup, processes, store))
            bot = app.bot_data["bot"]
        gc.collect()
        gc.freeze()  # a full collection of what is loaded for good holds up every answer, time and again
        log.info("listening")
        await _housekeeping(bot, stop)
        log.info("stopping")


async def _housekeeping(bot: Bot, stop: asyncio.Event) -> None:
    """Until the end: say that we are alive, count what waits, purge what has grown old."""
    loop, purge_at = asyncio.get_running_loop(), 0.0
    while not stop.is_set():
        try:
            await bot.share()
            metrics.waiting.set((await bot.store.inbox.count(bot.app.bot.id))[0])
            if loop.time() >= purge_at:
                await bot.store.purge()
                purge_at = loop.time() + PURGE_SECONDS
        except (SQLAlchemyError, OSError) as e:
            log.error("the database cannot be used (%s)", type(e).__name__)
        with suppress(TimeoutError):
            await asyncio.wait_for(stop.wait(), EVERY_SECONDS)
