"""Reminders that are due, said in their chats: python-telegram-bot's job queue wakes us, our store says what is due.

Nothing waits in the queue itself, so that a restart loses nothing and several workers share the work.
"""

from __future__ import annotations

import logging
from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from typing import Any

from sqlalchemy.exc import SQLAlchemyError
from telegram.error import BadRequest, ChatMigrated, Forbidden, TelegramError
from telegram.ext import Application, ContextTypes

from ..reminders import due_text
from ..state import State
from ..store import Due
from ..when.zones import now_in
from .desk import Desk
from .patience import Later, patiently

EVERY = 15.0
"""Seconds between two looks at the store."""
PATIENCE = 30.0
CHATS = "telegram:"
log = logging.getLogger("stillroom_bot.telegram")


def remind(application: Application[Any, Any, Any, Any, Any, Any], every: float = EVERY) -> None:
    """Have an application look for what is due, now and every so many seconds."""
    queue = application.job_queue
    if queue is None:
        log.warning("reminders are not sent: the job queue of python-telegram-bot is not installed")
        return
    once = {"coalesce": True, "misfire_grace_time": None}
    queue.run_repeating(look, every, first=0.1, name="reminders", job_kwargs=once)


async def look(context: ContextTypes.DEFAULT_TYPE) -> None:
    """Say what is due.  What cannot be sent now is tried again when its lease has run out."""
    desk: Desk = context.bot_data["desk"]
    try:
        found = await desk.store.reminders.take(CHATS)
    except (SQLAlchemyError, OSError) as e:
        log.error("the database cannot be used (%s); reminders wait", type(e).__name__)
        return
    for taken in found:
        due = taken
        try:
            due = await _say(context, desk, due)
        except (Forbidden, BadRequest, ChatMigrated) as e:
            log.info("a reminder has nobody to hear it (%s)", type(e).__name__)
        except (TelegramError, Later) as e:
            log.warning("a reminder could not be sent yet (%s)", type(e).__name__)
            continue
        await patiently(partial(desk.store.reminders.done, due), PATIENCE)


async def _say(context: ContextTypes.DEFAULT_TYPE, desk: Desk, due: Due) -> Due:
    """Say it, wherever its chat is now; gives it as it is kept there."""
    settings = State.from_json((await desk.store.chats.get(due.chat)).data).settings
    chat, _, topic = due.chat.removeprefix(CHATS).partition(":")
    text = due_text(due.reminder, now_in(settings, datetime.now(UTC)))
    thread = int(topic) if topic else None
    try:
        await patiently(lambda: context.bot.send_message(int(chat), text, message_thread_id=thread), PATIENCE)
        return due
    except ChatMigrated as e:
        new = e.new_chat_id
    await desk.move(int(chat), new)
    await patiently(lambda: context.bot.send_message(new, text), PATIENCE)
    return replace(due, chat=f"{CHATS}{new}")
