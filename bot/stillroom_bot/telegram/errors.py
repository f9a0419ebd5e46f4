"""When something breaks: a short sentence with a reference for the person, the place without texts for the log."""

from __future__ import annotations

import logging
import secrets
import traceback

from telegram import Update
from telegram.ext import ContextTypes

from ..reckoning import Overdue
from . import metrics
from .saying import Saying

log = logging.getLogger("stillroom_bot.telegram")
SORRY = "Something broke on my side, and nothing was worked out (reference {reference})."
AGAIN = "Please ask again, in other words if need be."


def noted(error: BaseException) -> str:
    """Log an error under a reference, and return that."""
    reference = secrets.token_hex(4)
    kind, place = getattr(error, "kind", type(error).__name__), getattr(error, "place", "") or place_of(error)
    (metrics.overdue if isinstance(error, Overdue) else metrics.errors.labels(kind)).inc()
    log.error("reference %s: %s at %s", reference, kind, place)
    return reference


def sorry(update: Update, reference: str) -> tuple[Saying, ...]:
    """The sentence for the person, however the update can be answered."""
    sentence = SORRY.format(reference=reference)
    message = update.effective_message
    if update.callback_query is not None:
        return (Saying("toast", query=update.callback_query.id, headline=sentence),)
    if update.inline_query is not None:
        return (Saying("cards", query=update.inline_query.id),)
    if message is None or update.guest_message is not None:
        return ()
    topic = message.message_thread_id if message.is_topic_message else None
    return (Saying("send", message.chat.id, message.message_id, topic, sentence, (AGAIN,)),)


async def on_error(update: object, context: ContextTypes.DEFAULT_TYPE) -> None:
    """What breaks outside of an update's own work is logged."""
    if context.error is not None:
        noted(context.error)


def place_of(error: BaseException) -> str:
    """The innermost places of a traceback as file:line function: no values, no message, which may hold texts."""
    frames = traceback.extract_tb(error.__traceback__)[-4:]
    places = [f"{f.filename.rpartition('/')[2]}:{f.lineno} {f.name}" for f in frames]
    return " < ".join(reversed(places)) or "an unknown place"
