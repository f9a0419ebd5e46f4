"""Questions back as buttons: who may press, what stays valid, what has expired."""

from __future__ import annotations

import pytest
from botapi import FakeBotApi
from sqlalchemy import text as sql
from stillroom_bot.store import Store
from stillroom_bot.telegram.application import App
from stillroom_bot.telegram.buttons import pressed, rows

NAME = "@loopback_bot"


async def test_pressing_says_the_choice_and_edits_in_place(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("syrup")
    asked = await chat.next_reply()
    assert asked.labels == [["1:1"], ["2:1"]]
    assert asked.text == "Which syrup?\n<1:1> & 2:1"
    press = await chat.press(asked, "2:1")
    assert "text" not in await press.answer()
    now = await chat.next_edit()
    assert (now.message_id, now.text, now.labels) == (asked.message_id, "200 ml\nheard: syrup 2:1", [["Copy"]])
    await chat.say("double")
    assert (await chat.next_reply()).marked("bold") == ["400 ml"]
    assert len(api.calls_of("sendMessage")) == 2


async def test_typing_the_choice_does_as_well(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("syrup")
    await chat.next_reply()
    await chat.say("1:1")
    assert (await chat.next_reply()).marked("bold") == ["100 ml"]


async def test_only_the_asker_may_press(api: FakeBotApi, bot: App) -> None:
    mara, jo = api.user("Mara"), api.user("Jo")
    crew = api.group("Crew", mara, jo)
    await crew.say(f"{NAME} syrup", by=mara)
    asked = await crew.next_reply()
    refused = await (await crew.press(asked, "1:1", by=jo)).answer()
    assert refused["text"] == "Only the one who asked can choose here."
    await crew.silence(0.1)
    await crew.press(asked, "1:1", by=mara)
    assert (await crew.next_edit()).marked("bold") == ["100 ml"]


async def test_a_button_outlives_a_restart(api: FakeBotApi, start) -> None:
    chat = api.private(api.user("Mara"))
    async with start():
        await chat.say("syrup")
        asked = await chat.next_reply()
    async with start():
        await chat.press(asked, "2:1")
        assert (await chat.next_edit()).marked("bold") == ["200 ml"]


async def test_a_button_is_read_in_the_light_of_its_own_question(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("syrup")
    asked = await chat.next_reply()
    for text in ("cordial syrup", "our dash is 0.6"):
        await chat.say(text)
        await chat.next_reply()
    await chat.press(asked, "2:1")
    assert (await chat.next_edit()).text == "200 ml\nheard: syrup 2:1"
    await chat.say("dash?")
    assert (await chat.next_reply()).text == "0.6 ml"


@pytest.mark.parametrize("data", [
    "v1:0123456789abcdef:0", "v2:0123456789abcdef:0", "v1:zz:0", "x2", "v1:0123456789abcdef:00",
    "v1:{id}:2", "v1:{id}:99",
])
async def test_what_is_forged_or_old_is_told_to_ask_again(api: FakeBotApi, bot: App, data: str) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("syrup")
    asked = await chat.next_reply()
    id = asked.buttons[0][0]["callback_data"].split(":")[1]
    answer = await (await chat.press_data(asked, data.format(id=id))).answer()
    assert "ask again" in answer["text"]
    await chat.silence(0.05)


async def test_an_expired_button_is_told_to_ask_again(api: FakeBotApi, bot: App, store: Store) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("syrup")
    asked = await chat.next_reply()
    await store.database.write(lambda c: c.execute(sql("UPDATE buttons SET created = created - 90000")))
    assert "ask again" in (await (await chat.press(asked, "1:1")).answer())["text"]
    await chat.silence(0.05)


async def test_a_button_cannot_be_carried_to_another_chat(api: FakeBotApi, bot: App) -> None:
    mara = api.user("Mara")
    own, crew = api.private(mara), api.group("Crew", mara)
    await own.say("syrup")
    stolen = (await own.next_reply()).buttons[0][0]["callback_data"]
    await crew.say(f"{NAME} 5 ml")
    there = await crew.next_reply()
    assert "ask again" in (await (await crew.press_data(there, stolen, by=mara)).answer())["text"]
    await crew.silence(0.05)


async def test_pressing_twice_changes_nothing_more(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("syrup")
    asked = await chat.next_reply()
    data = asked.buttons[0][0]["callback_data"]
    await chat.press_data(asked, data)
    await chat.next_edit()
    again = await chat.press_data(asked, data)
    await again.answer()
    await api.wait_calls("editMessageText", 2)
    await chat.silence(0.05)


async def test_a_press_whose_time_is_over_still_edits(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("syrup")
    asked = await chat.next_reply()
    api.faults.refuse("answerCallbackQuery", 400, "Bad Request: query is too old and response timeout expired "
                                                  "or query ID is invalid")
    await chat.press(asked, "1:1")
    assert (await chat.next_edit()).marked("bold") == ["100 ml"]


def test_every_button_says_its_choice_within_64_bytes() -> None:
    made = rows("0123456789abcdef", ["a" * 200, "b", *("c" for _ in range(50))])
    assert len(made) == 24 and all(len(row) == 1 for row in made)
    assert [pressed(data) for ((_, data),) in made] == [("0123456789abcdef", n) for n in range(24)]
    assert all(len(data) <= 64 and len(label) <= 60 for ((label, data),) in made)
