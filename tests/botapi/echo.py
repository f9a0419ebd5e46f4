"""A bare bot on python-telegram-bot that says back what it hears; these tests' own subject."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import Any

from aiohttp import web
from telegram import (
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    InlineQueryResultArticle,
    InputTextMessageContent,
    Update,
)
from telegram.ext import (
    Application,
    ApplicationBuilder,
    CallbackQueryHandler,
    ContextTypes,
    InlineQueryHandler,
    MessageHandler,
    filters,
)

from .api import FakeBotApi

App = Application[Any, Any, Any, Any, Any, Any]
_KEYS = InlineKeyboardMarkup([[InlineKeyboardButton("Twice", callback_data="x2")]])


async def _echo(update: Update, context: ContextTypes.DEFAULT_TYPE) -> None:
    message = update.effective_message
    assert message is not None
    prefix = "edited: " if update.edited_message else ""
    await message.reply_text(prefix + (message.text or "?"), reply_markup=_KEYS, do_quote=True)


async def _pressed(update: Update, context: ContextTypes.DEFAULT_TYPE) -> None:
    query = update.callback_query
    assert query is not None
    await query.answer("noted")
    await query.edit_message_text(f"pressed {query.data}")


async def _asked(update: Update, context: ContextTypes.DEFAULT_TYPE) -> None:
    query = update.inline_query
    assert query is not None
    content = InputTextMessageContent(f"<b>{query.query}</b>", parse_mode="HTML")
    await query.answer([InlineQueryResultArticle("1", query.query, content)], cache_time=0)


async def _swallow(update: object, context: ContextTypes.DEFAULT_TYPE) -> None:
    context.application.bot_data.setdefault("errors", []).append(context.error)


def echo_application(api: FakeBotApi, *, polling: bool = True) -> App:
    """The bot, unmodified but for its address. Errors of handlers gather in `bot_data["errors"]`."""
    builder = ApplicationBuilder().token(api.token).base_url(api.base_url).base_file_url(api.base_file_url)
    app: App = builder.build() if polling else builder.updater(None).build()
    app.add_handler(MessageHandler(filters.TEXT, _echo))
    app.add_handler(CallbackQueryHandler(_pressed))
    app.add_handler(InlineQueryHandler(_asked))
    app.add_error_handler(_swallow)
    return app


@asynccontextmanager
async def polling(api: FakeBotApi) -> AsyncIterator[App]:
    """The bot, polling."""
    app = echo_application(api)
    async with app:
        await app.start()
        assert app.updater is not None
        await app.updater.start_polling(poll_interval=0.0, timeout=5)
        try:
            yield app
        finally:
            await app.updater.stop()
            await app.stop()


@asynccontextmanager
async def listening(api: FakeBotApi, statuses: list[int] | None = None) -> AsyncIterator[App]:
    """The bot behind a webhook of its own, which handles an update and then answers 200.

    `statuses` are answered first, one a delivery, with the update unhandled.
    """
    app = echo_application(api, polling=False)
    refusals = statuses or []

    async def receive(request: web.Request) -> web.Response:
        if request.headers.get("X-Telegram-Bot-Api-Secret-Token") != "quite-secret":
            return web.Response(status=403)
        if refusals:
            return web.Response(status=refusals.pop(0))
        await app.process_update(Update.de_json(await request.json(), app.bot))
        return web.Response()

    site = web.Application()
    site.router.add_post("/hook", receive)
    runner = web.AppRunner(site, access_log=None)
    await runner.setup()
    await web.TCPSite(runner, "127.0.0.1", 0).start()
    async with app:
        address = f"http://127.0.0.1:{runner.addresses[0][1]}/hook"
        await app.bot.set_webhook(address, secret_token="quite-secret", max_connections=8)
        try:
            yield app
        finally:
            await app.bot.delete_webhook()
            await runner.cleanup()
