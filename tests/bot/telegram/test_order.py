"""The updates of one chat in order, other chats not held up; a busy server and a broken line."""

from __future__ import annotations

import asyncio
import time

from botapi import FakeBotApi
from stillroom_bot.telegram.application import App
from stillroom_bot.telegram.ordering import ChatOrder, line_of
from telegram import Update


async def test_a_chat_is_answered_in_order_and_a_slow_one_holds_up_nobody(api: FakeBotApi, bot: App) -> None:
    busy, quick = api.private(api.user("Mara")), api.private(api.user("Jo"))
    api.faults.flood("sendMessage", retry_after=2, chat=busy.id)
    started = time.monotonic()
    for n in range(1, 9):
        await busy.say(f"{n} ml")
    await quick.say("5 ml")
    assert (await quick.next_reply()).marked("bold") == ["5 ml"]
    assert busy.replies == []
    replies = [await busy.next_reply(4) for _ in range(8)]
    assert [r.marked("bold") for r in replies] == [[f"{n} ml"] for n in range(1, 9)]
    assert time.monotonic() - started > 0.9


async def test_a_press_waits_for_the_chat_that_it_belongs_to(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("syrup")
    asked = await chat.next_reply()
    api.faults.latency("sendMessage", 0.2)
    await chat.say("7 ml")
    await chat.press(asked, "1:1")
    assert (await chat.next_reply()).marked("bold") == ["7 ml"]
    assert (await chat.next_edit()).marked("bold") == ["100 ml"]
    order = [c.method for c in api.calls if c.method in ("sendMessage", "editMessageText")]
    assert order == ["sendMessage", "sendMessage", "editMessageText"]


async def test_lines_are_forgotten_when_they_are_empty() -> None:
    order, seen = ChatOrder(), []

    async def work(n: int) -> None:
        await asyncio.sleep(0.002 * (5 - n))
        seen.append(n)

    update = Update.de_json({"update_id": 1, "message": {
        "message_id": 1, "date": 1, "chat": {"id": 7, "type": "private"}, "text": "x"}}, None)
    await asyncio.gather(*(order.process_update(update, work(n)) for n in range(5)))
    assert seen == [0, 1, 2, 3, 4] and order.lines == 0
    await asyncio.gather(*(order.process_update(object(), work(n)) for n in range(5)))
    assert seen[5:] == [4, 3, 2, 1, 0] and order.lines == 0


async def test_a_failing_update_lets_the_next_one_through() -> None:
    order = ChatOrder()

    async def fail() -> None:
        raise ValueError

    async def work() -> str:
        return "done"

    update = Update(1)
    results = await asyncio.gather(order.process_update(update, fail()), order.process_update(update, work()),
                                   return_exceptions=True)
    assert isinstance(results[0], ValueError) and results[1] is None and order.lines == 0
    assert line_of(update) == ""


async def test_a_broken_line_is_tried_once_more(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    api.faults.bad_gateway("sendMessage")
    await chat.say("5 ml")
    assert (await chat.next_reply()).marked("bold") == ["5 ml"]
    assert len(api.calls_of("sendMessage")) == 2
