"""Replies to what a person asked, as sayings: their buttons, and what is remembered of them."""

from __future__ import annotations

from telegram import Message

from ..reply import Reply
from ..state import State
from ..store import Question
from ..store.buttons import new_id
from . import buttons, metrics
from .clerk import Turn
from .desk import Exchange
from .saying import Row, Saying


def spoken(message: Message, reply: Reply) -> Saying:
    """A reply below a person's message."""
    topic = message.message_thread_id if message.is_topic_message else None
    return Saying("send", message.chat.id, message.message_id, topic, reply.headline, reply.body,
                  files=reply.attachments)


def turn_of(exchange: Exchange, where: Saying, chat: str, asker: int, text: str, question: int) -> Turn:
    """What an exchange comes to: said at ``where``, with buttons for the asker, and remembered with the question."""
    reply = exchange.reply
    metrics.replies.labels(reply.status).inc()
    keys, asked = _keys(exchange, chat, asker, text, question)
    if exchange.forgotten:
        return Turn((where.but(headline=reply.headline, body=reply.body),), more=exchange.more)
    kept = {"chat": chat, "question": question, "text": text, "before": exchange.before.to_json(),
            "version": exchange.version}
    saying = where.but(headline=reply.headline, body=reply.body, files=reply.attachments, keys=keys, kept=kept)
    return Turn((saying,), exchange.state, asked, exchange.more)


def _keys(exchange: Exchange, chat: str, asker: int, text: str,
          question: int) -> tuple[tuple[Row, ...], tuple[tuple[str, Question], ...]]:
    """Buttons for a reply's choices; where it has none and is an answer, for half of it, twice of it, and a copy."""
    reply, id = exchange.reply, new_id()
    choices, rows = reply.buttons[:buttons.MOST], buttons.rows(id, reply.buttons)
    if not choices and reply.status == "answered":
        choices, rows = buttons.again(id, reply, _scales(exchange.after))
    if not choices:
        return rows, ()
    return rows, ((id, Question(chat, asker, question, text, choices, exchange.after.to_json())),)


def _scales(state: State) -> bool:
    """Was an amount given that can be halved and doubled?"""
    given = ((state.last or {}).get("request") or {}).get("given") or {}
    return any(isinstance(a, dict) and buttons.grows(str(a.get("unit", ""))) for a in given.values()) or bool(
        ((state.last or {}).get("request") or {}).get("spec"))
