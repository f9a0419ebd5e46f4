"""Reminders on Telegram, over the wire: said once in their chat, late ones too, and never to nobody for ever."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime, timedelta

from botapi import FakeBotApi
from sqlalchemy import select
from stillroom_bot.reminders import Reminder
from stillroom_bot.state import State
from stillroom_bot.store import Store
from stillroom_bot.store.reminders import table


def _state(*reminders: Reminder) -> dict[str, object]:
    return State(reminders=tuple(r.to_json() for r in reminders)).to_json()


async def test_what_fell_due_while_nobody_ran_is_said_once_and_late(api: FakeBotApi, start, store: Store) -> None:
    chat = api.private(api.user("Mara"))
    made = datetime.now(UTC) - timedelta(hours=5)
    reminder = Reminder("strain the <oleo>", made + timedelta(hours=3), made)
    await store.chats.put(f"telegram:{chat.id}", _state(reminder), 0, made.timestamp())
    async with start():
        reply = await chat.next_reply(10)
        assert "2 h late" in reply.text and reply.text.endswith("strain the <oleo>")
    async with start():
        await chat.say("5 ml")
        assert "5 ml" in (await chat.next_reply(10)).text
        await asyncio.sleep(0.3)
    assert await store.reminders.take("telegram:") == []


async def test_one_for_a_chat_that_is_gone_is_not_tried_for_ever(api: FakeBotApi, start, store: Store) -> None:
    made = datetime.now(UTC) - timedelta(hours=5)
    await store.chats.put("telegram:999", _state(Reminder("x", made + timedelta(hours=1), made)), 0, made.timestamp())
    async with start():
        for _ in range(100):
            await asyncio.sleep(0.05)
            if await store.database.read(lambda c: c.execute(select(table.c.fired)).scalar_one()) is not None:
                return
    raise AssertionError("it was never given up")
