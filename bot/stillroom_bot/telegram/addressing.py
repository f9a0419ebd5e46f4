"""Whether a message is meant for the bot, and the question in it."""

from __future__ import annotations

import re

from telegram import Message, MessageEntity
from telegram.constants import ChatType


def question_of(message: Message, bot_id: int, username: str) -> str | None:
    """The question without ``/ask`` and without the bot's name; None if it is not meant for the bot.

    In a private chat every text is.  In a group one that mentions the bot, replies to it, or begins with
    ``/ask``.  A forwarded ``/ask`` is a text like any other.
    """
    text = message.text or ""
    asked = None if message.forward_origin else re.match(rf"/ask(?:@{re.escape(username)})?(?=\s|\Z)\s*", text, re.I)
    if asked:
        return text[asked.end():].strip()
    if message.chat.type == ChatType.PRIVATE:
        return text
    if not (_mentions(message, username) or _replies(message, bot_id)):
        return None
    return re.sub(rf"(?<!\w)@{re.escape(username)}(?!\w)[,:]?\s*", "", text, flags=re.I).strip()


def _mentions(message: Message, username: str) -> bool:
    named = message.parse_entities([MessageEntity.MENTION]).values()
    return any(name.lower() == f"@{username.lower()}" for name in named)


def _replies(message: Message, bot_id: int) -> bool:
    to = message.reply_to_message
    return bool(to and to.from_user and to.from_user.id == bot_id and not to.forum_topic_created)
