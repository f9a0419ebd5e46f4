"""A group becomes a supergroup, a chat of another number: what was kept of it, and what was under way, goes along."""

from __future__ import annotations

import asyncio
from datetime import UTC, datetime, timedelta

from botapi import FakeBotApi
from stillroom_bot.reminders import Reminder
from stillroom_bot.state import State
from stillroom_bot.store import Store
from stillroom_bot.telegram.application import App

NAME = "@loopback_bot"


def key(chat: object) -> str:
    return f"telegram:{chat.id}"  # type: ignore[attr-defined]


async def test_settings_and_the_last_answer_go_along(api: FakeBotApi, bot: App, store: Store) -> None:
    crew = api.group("Crew", api.user("Mara"), basic=True)
    for text in ("our dash is 0.6", "7 ml"):
        await crew.say(f"{NAME} {text}")
        await crew.next_reply()
    new = await crew.upgrade()
    for text, says in (("why?", "Working of 7 ml"), ("dash?", "0.6 ml"), ("double", "14 ml")):
        await new.say(f"{NAME} {text}")
        assert (await new.next_reply()).text.startswith(says)
    assert (await store.chats.get(key(crew))).version == 0
    assert await store.moves.home(key(crew)) == key(new) and await store.moves.origin(key(new)) == key(crew)


async def test_an_answer_under_way_is_said_in_the_new_chat(api: FakeBotApi, bot: App, store: Store) -> None:
    crew = api.group("Crew", api.user("Mara"), basic=True)
    await crew.say(f"{NAME} our dash is 0.6")
    await crew.next_reply()
    api.faults.latency("sendMessage", 0.2)
    await crew.say(f"{NAME} 7 ml")
    asked = await crew.say(f"{NAME} syrup")
    await api.wait_until(lambda: len(api.calls_of("sendMessage")) == 2, "sending")
    new = await crew.upgrade(told=False)
    api.faults.latency("sendMessage", 0)
    first, second = await new.next_reply(), await new.next_reply()
    assert (first.text, first.answers, second.labels[0]) == ("7 ml\nheard: 7 ml", None, ["1:1"])
    await new.press(second, "2:1")
    assert (await new.next_edit()).text.startswith("200 ml")
    await new.say(f"{NAME} dash?")
    assert (await new.next_reply()).text == "0.6 ml"
    assert await store.answers.get(key(new), asked.message_id) is None, "the number is of another message now"


async def test_a_question_that_was_open_is_answered_in_the_new_chat(api: FakeBotApi, bot: App, store: Store) -> None:
    crew = api.group("Crew", api.user("Mara"), basic=True)
    await crew.say(f"{NAME} syrup")
    asked = await crew.next_reply()
    new = await crew.upgrade()
    for n in range(6):
        await new.say(f"{NAME} {n + 1} ml")
        await new.next_reply()
    press = await crew.press(asked, "1:1")
    await press.answer()
    answer = await new.next_reply()
    assert (answer.text.split("\n")[0], answer.answers) == ("100 ml", None)
    await new.silence()


async def test_a_message_of_the_old_chat_that_comes_late_finds_what_was_kept(api: FakeBotApi, bot: App) -> None:
    crew = api.group("Crew", api.user("Mara"), basic=True)
    await crew.say(f"{NAME} our dash is 0.6")
    await crew.next_reply()
    late = api.world.post(crew.room, crew.room.members[0], {"text": "/ask dash?", "entities": [
        {"type": "bot_command", "offset": 0, "length": 4}]})
    new = await crew.upgrade()
    await new.say(f"{NAME} 7 ml")
    await new.next_reply()
    api.push({"message": late})
    reply = await new.next_reply()
    assert (reply.text, reply.answers) == ("0.6 ml", None)


async def test_an_invited_group_stays_invited(api: FakeBotApi, start) -> None:
    crew = api.group("Crew", api.user("Mara"), basic=True)
    async with start(allow=frozenset({crew.id})):
        new = await crew.upgrade()
        await new.say(f"{NAME} 7 ml")
        assert (await new.next_reply()).text.startswith("7 ml")
        other = api.group("Others", api.user("Jo"))
        await other.say(f"{NAME} 7 ml")
        await other.silence()


async def test_a_reminder_is_said_in_the_new_chat(api: FakeBotApi, start, store: Store) -> None:
    crew = api.group("Crew", api.user("Mara"), basic=True)
    made = datetime.now(UTC) - timedelta(hours=5)
    reminder = Reminder("strain it", made + timedelta(hours=3), made)
    state = State(reminders=(reminder.to_json(),)).to_json()
    await store.chats.put(key(crew), state, 0, made.timestamp())
    new = await crew.upgrade(told=False)
    async with start():
        assert (await new.next_reply(10)).text.endswith("strain it")
    async with start():
        await asyncio.sleep(0.3)
        await new.silence()
    assert (await store.chats.get(key(new))).data == state
    assert await store.reminders.take("telegram:") == []
