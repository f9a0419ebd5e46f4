"""When something breaks: a short sentence with a reference for the person, the place without texts for the log."""

from __future__ import annotations

import logging
import secrets
import traceback

from telegram import Update
from telegram.error import BadRequest, Forbidden, NetworkError, TelegramError
from telegram.ext import ContextTypes

from ..reply import Reply
from .sending import Spot, send

log = logging.getLogger("stillroom_bot.telegram")
SORRY = "Something broke on my side, and nothing was worked out (reference {reference})."


async def on_error(update: object, context: ContextTypes.DEFAULT_TYPE) -> None:
    """Log an error under a reference and tell the person who met it, unless the way to them is what failed."""
    error = context.error
    assert error is not None
    if isinstance(error, Forbidden):
        log.info("a chat has shut the bot out")
        return
    reference = secrets.token_hex(4)
    log.error("reference %s: %s at %s", reference, type(error).__name__, place_of(error))
    lost = isinstance(error, NetworkError) and not isinstance(error, BadRequest)
    if lost or not isinstance(update, Update):
        return
    sentence = SORRY.format(reference=reference)
    try:
        if update.callback_query is not None:
            await update.callback_query.answer(sentence[:200])
        elif update.effective_message is not None:
            again = Reply("declined", "", sentence, ("Please ask again, in other words if need be.",))
            await send(context.bot, Spot.under(update.effective_message), again)
    except TelegramError as e:
        log.warning("reference %s: the person could not be told (%s)", reference, type(e).__name__)


def place_of(error: BaseException) -> str:
    """The innermost places of a traceback as file:line function: no values, no message, which may hold texts."""
    frames = traceback.extract_tb(error.__traceback__)[-4:]
    places = [f"{f.filename.rpartition('/')[2]}:{f.lineno} {f.name}" for f in frames]
    return " < ".join(reversed(places)) or "an unknown place"
