"""A bare echo bot on python-telegram-bot as a process, to measure against: `python bare.py TOKEN API [PORT SECRET]`.

The framework's own transport, and 256 updates at a time.  With a port it stands behind a webhook, as the framework's
documentation shows for an ASGI server: an update is acknowledged when it is queued.
"""

from __future__ import annotations

import asyncio
import logging
import signal
import sys
from typing import Any

import uvicorn
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route
from telegram import Update
from telegram.ext import ApplicationBuilder, ContextTypes, MessageHandler, filters

AT_ONCE = 256


async def echo(update: Update, context: ContextTypes.DEFAULT_TYPE) -> None:
    """Say it back."""
    assert update.message is not None
    await update.message.reply_text(update.message.text or "?")


async def main(token: str, api: str, port: int = 0, secret: str = "") -> None:
    """Serve until told to stop."""
    stop = asyncio.Event()
    asyncio.get_running_loop().add_signal_handler(signal.SIGTERM, stop.set)
    builder = ApplicationBuilder().token(token).base_url(api).concurrent_updates(AT_ONCE)
    app: Any = builder.updater(None).build() if port else builder.build()
    app.add_handler(MessageHandler(filters.TEXT, echo))

    async def receive(request: Request) -> Response:
        await app.update_queue.put(Update.de_json(await request.json(), app.bot))
        return Response()

    async with app:
        await app.start()
        if port:
            site = Starlette(routes=[Route("/hook", receive, methods=["POST"])])
            server = uvicorn.Server(uvicorn.Config(site, "127.0.0.1", port, log_level="error", access_log=False))
            task = asyncio.create_task(server.serve())
            await app.bot.set_webhook(f"http://127.0.0.1:{port}/hook", secret_token=secret, max_connections=100)
        else:
            await app.updater.start_polling(timeout=10)
        print("ready", flush=True)
        await stop.wait()
        if port:
            server.should_exit = True
            await task
        else:
            await app.updater.stop()
        await app.stop()


if __name__ == "__main__":
    logging.basicConfig(level=logging.ERROR)
    asyncio.run(main(sys.argv[1], sys.argv[2], int((sys.argv[3:] or ["0"])[0]), (sys.argv[4:] or ["none"])[0]))
