"""The results of an inline query: the answer first, or a card for each way of reading the question."""

from __future__ import annotations

from ..reply import Reply
from .desk import Desk

MOST = 5
Card = tuple[str, str, str, tuple[str, ...]]
SAY = Reply("declined", "", "Say what you have and what you want to know.")


async def cards_for(desk: Desk, chat: str, text: str) -> tuple[Card, ...]:
    """Cards for what was typed so far; at least one."""
    if not text.strip():
        examples = [question for _, question in desk.reckoner.examples][:1]
        return (_card("0", SAY.headline, SAY.headline, tuple(f"• {q}" for q in examples)),)
    reply = await desk.glance(chat, text)
    if reply.status != "answered":
        return (_card("0", reply.headline, reply.headline, (*reply.body, *(f"• {b}" for b in reply.buttons[:MOST]),
                                                           f"asked: {text}")),)
    return (_card("0", reply.headline, reply.headline, (*reply.body, f"asked: {text}")),)


def _card(id: str, title: str, headline: str, body: tuple[str, ...]) -> Card:
    return (id, title, headline, body)
