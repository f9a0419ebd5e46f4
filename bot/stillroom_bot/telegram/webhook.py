"""A webhook of our own: an update is worked through, and then acknowledged.

Telegram sends the next update of a chat only when the last was acknowledged, so order holds over any
number of workers; what a worker did not end it sends again, to whichever worker it meets.
"""

from __future__ import annotations

import asyncio
import hmac
import json
import logging
from collections.abc import AsyncIterator, Iterator, Sequence
from contextlib import AsyncExitStack, asynccontextmanager, contextmanager
from dataclasses import replace
from typing import Any
from urllib.parse import urlsplit

import uvicorn
from sqlalchemy.exc import SQLAlchemyError
from starlette.applications import Starlette
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route
from telegram.error import RetryAfter, TelegramError

from ..places import Unavailable
from ..reckoning import Reckoner
from ..store import Store
from ..store.inbox import Claim, Letter
from ..store.together import Together
from . import metrics
from .application import Bot, announce, working
from .config import Setup
from .handlers import ALLOWED
from .inlet import letter_of
from .limiter import seconds_of

LONGEST = 128 * 1024
"""Bytes of a body: the published server builds an update in 64 KiB."""
HEADER = "X-Telegram-Bot-Api-Secret-Token"
PATIENCE = 25.0
"""Seconds in which an answer is tried, well within the minute that the server waits."""
CONNECTIONS = 100
log = logging.getLogger("stillroom_bot.telegram")


class Hook:
    """The endpoints of one bot."""

    def __init__(self, bot: Bot, secret: str):
        self.bot, self._secret = bot, secret.encode()
        self._here: set[int] = set()
        self._claim: Together[Letter, Claim] = Together(self._claimed, at_once=bot.store.database.writers)

    async def _claimed(self, letters: Sequence[Letter]) -> Sequence[Claim]:
        return await self.bot.store.inbox.claim(self.bot.app.bot.id, letters, self.bot.name)

    async def update(self, request: Request) -> Response:
        """One update: 200 when its answer has been sent, 503 when it is to be sent again."""
        if not hmac.compare_digest(request.headers.get(HEADER, "").encode(), self._secret):
            return Response(status_code=403)
        if self.bot.order.closing:
            return _later(1)
        raw = await _body(request)
        if raw is None:
            return Response(status_code=413)
        try:
            update = json.loads(raw)
            number = update["update_id"]
        except (ValueError, KeyError, TypeError, RecursionError):
            return Response(status_code=400)
        if not isinstance(number, int) or isinstance(number, bool) or not 0 <= number < 2**63:
            return Response(status_code=400)
        if number in self._here:
            metrics.repeated.inc()
            return _later(1)
        self._here.add(number)
        try:
            return await self._work(update)
        except (SQLAlchemyError, OSError) as e:
            log.error("the database cannot be used (%s)", type(e).__name__)
            return _later(5)
        finally:
            self._here.discard(number)

    async def _work(self, raw: dict[str, Any]) -> Response:
        bot, inbox = self.bot, self.bot.store.inbox
        metrics.updates.inc()
        letter, update = letter_of(raw, bot.app.bot)
        claim = await self._claim(letter)
        if not claim.free:
            metrics.repeated.inc()
            return await self._acknowledged() if claim.done else _later(1)
        number = letter.number
        bot.clerk.open[number] = (replace(letter, plan=claim.plan, tries=claim.tries), update)
        await bot.order.process_update(update, bot.app.process_update(update))
        if bot.clerk.open.pop(number, None) is None:
            return await self._acknowledged()
        await inbox.release(bot.app.bot.id, number, bot.name)
        return _later(1)

    async def _acknowledged(self) -> Response:
        """It is done, for good."""
        await self.bot.store.database.settle()
        return Response()

    async def alive(self, request: Request) -> Response:
        """The process answers."""
        return Response("alive")

    async def ready(self, request: Request) -> Response:
        """It is able to work: the database answers, and it is not about to stop."""
        try:
            waiting, _ = await self.bot.store.inbox.count(self.bot.app.bot.id)
        except (SQLAlchemyError, OSError):
            return JSONResponse({"ready": False, "database": False}, 503)
        closing = self.bot.order.closing
        return JSONResponse({"ready": not closing, "database": True, "waiting": waiting}, 503 if closing else 200)


async def _body(request: Request) -> bytes | None:
    """The body, None for one that is too long; no more of that is read."""
    said = request.headers.get("content-length", "0")
    if not said.isdecimal() or int(said) > LONGEST:
        return None
    body = bytearray()
    try:
        async for part in request.stream():
            body += part
            if len(body) > LONGEST:
                return None
    except ClientDisconnect:
        return None
    return bytes(body)


def _later(seconds: int) -> Response:
    return Response(status_code=503, headers={"Retry-After": str(seconds)})


def asgi(bot: Bot, setup: Setup) -> Starlette:
    """The ASGI application."""
    hook = Hook(bot, setup.secret)
    path = urlsplit(setup.webhook).path or "/"
    return Starlette(routes=[Route("/health", hook.alive), Route("/ready", hook.ready),
                             Route(path, hook.update, methods=["POST"])])


@asynccontextmanager
async def listening(setup: Setup, reckoner: Reckoner, store: Store) -> AsyncIterator[Bot]:
    """The bot at work behind its webhook.  Raises Unavailable as ``working`` does, or for a port that is taken."""
    async with AsyncExitStack() as stack:
        bot = await stack.enter_async_context(working(setup, reckoner, store, False, PATIENCE))
        host, port = setup.listen
        server = _Server(uvicorn.Config(asgi(bot, setup), host, port, log_config=None, access_log=False,
                                               lifespan="off", timeout_graceful_shutdown=int(setup.stop_seconds) + 1))
        task = asyncio.create_task(_run(server))
        stack.push_async_callback(_end, server, task, bot, setup.stop_seconds)
        while not server.started:
            if task.done():
                raise Unavailable(f"Nothing can listen at {host}:{port}.")
            await asyncio.sleep(0.01)
        await _hook_on(bot, setup)
        yield bot


class _Server(uvicorn.Server):
    """A server that leaves signals to whoever runs it."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Capture none."""
        yield


async def _run(server: uvicorn.Server) -> None:
    try:
        await server.serve()
    except SystemExit:
        return


async def _end(server: uvicorn.Server, task: asyncio.Task[None], bot: Bot, seconds: float) -> None:
    """Take no new update, let those at work end, then close."""
    await bot.order.close(seconds)
    server.should_exit = True
    await task


async def _hook_on(bot: Bot, setup: Setup) -> None:
    """Tell Telegram where to send; several workers that do so at once are told to wait, and need not."""
    try:
        known = await bot.app.bot.get_webhook_info()
        same = known.url == setup.webhook and set(known.allowed_updates or ()) == set(ALLOWED)
        if not same or not known.has_custom_certificate:
            await bot.app.bot.set_webhook(setup.webhook, secret_token=setup.secret, allowed_updates=ALLOWED,
                                          max_connections=CONNECTIONS)
        await announce(bot.app)
    except RetryAfter as e:
        log.info("the webhook was being set by another worker (asked to wait %g s)", seconds_of(e))
    except TelegramError as e:
        raise Unavailable(f"Telegram does not take the webhook ({type(e).__name__}: {e}).") from None
