"""An edited question edits its answer, and is read in the light in which it was first asked."""

from __future__ import annotations

from botapi import FakeBotApi
from stillroom_bot.telegram.application import App


async def test_the_answer_follows_in_place(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say("250 ml")
    first = await chat.next_reply()
    await chat.edit(said, "300 ml")
    now = await chat.next_edit()
    assert (now.message_id, now.marked("bold")) == (first.message_id, ["300 ml"])
    await chat.say("double")
    assert (await chat.next_reply()).marked("bold") == ["600 ml"]


async def test_a_follow_up_is_edited_in_its_own_light(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say("10 ml")
    await chat.next_reply()
    said = await chat.say("5 ml")
    await chat.next_reply()
    await chat.edit(said, "double")
    assert (await chat.next_edit()).marked("bold") == ["20 ml"]


async def test_an_old_question_does_not_take_the_conversation_back(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say("10 ml")
    await chat.next_reply()
    for text in ("70 ml", "our dash is 0.6"):
        await chat.say(text)
        await chat.next_reply()
    await chat.edit(said, "11 ml")
    assert (await chat.next_edit()).marked("bold") == ["11 ml"]
    await chat.say("double")
    assert (await chat.next_reply()).marked("bold") == ["140 ml"]
    await chat.say("dash?")
    assert (await chat.next_reply()).text == "0.6 ml"


async def test_an_edited_setting_is_kept_although_the_chat_has_gone_on(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say("our dash is 0.6")
    await chat.next_reply()
    await chat.say("70 ml")
    await chat.next_reply()
    await chat.edit(said, "our dash is 0.7")
    await api.drained()
    for text, number in (("dash?", "0.7 ml"), ("double", "140 ml")):
        await chat.say(text)
        assert (await chat.next_reply()).text.startswith(number)


async def test_an_answer_that_is_the_same_is_no_error(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say("dash?")
    await chat.next_reply()
    await chat.say("our dash is 0.8")
    await chat.next_reply()
    await chat.edit(said, "dash?")
    await api.drained()
    assert not api.calls_of("editMessageText")
    told = await chat.say("syrup")
    await chat.next_reply()
    await chat.edit(told, "syrup.")
    await api.wait_calls("editMessageText")
    changed = await chat.say("nonsense")
    await chat.next_reply()
    api.faults.refuse("editMessageText", 400, "Bad Request: message is not modified: specified new message content "
                                              "and reply markup are exactly the same")
    await chat.edit(changed, "nonsense!")
    await api.wait_calls("editMessageText", 2)
    await api.drained()
    assert len(api.calls_of("sendMessage")) == 4


async def test_an_answer_that_is_gone_is_given_anew(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say("250 ml")
    await chat.delete(await chat.next_reply())
    await chat.edit(said, "300 ml")
    anew = await chat.next_reply()
    assert (anew.marked("bold"), anew.answers) == (["300 ml"], said.message_id)
    await chat.edit(said, "310 ml")
    assert (await chat.next_edit()).message_id == anew.message_id


async def test_a_message_that_had_no_answer_gets_one(api: FakeBotApi, bot: App) -> None:
    crew = api.group("Crew", api.user("Mara"))
    said = await crew.say("5 ml")
    await crew.silence(0.05)
    await crew.edit(said, "@loopback_bot 5 ml")
    assert (await crew.next_reply()).answers == said.message_id


async def test_an_edited_command_is_not_carried_out(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say("our dash is 0.6")
    await chat.next_reply()
    await chat.edit(said, "/forget")
    await api.drained()
    await chat.silence(0.05)
    await chat.say("dash?")
    assert (await chat.next_reply()).text == "0.6 ml"


async def test_a_pressed_question_can_still_be_edited(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say("syrup")
    asked = await chat.next_reply()
    await chat.press(asked, "1:1")
    await chat.next_edit()
    await chat.edit(said, "60 ml")
    now = await chat.next_edit()
    assert (now.message_id, now.marked("bold")) == (asked.message_id, ["60 ml"])
    await chat.say("double")
    assert (await chat.next_reply()).marked("bold") == ["120 ml"]


async def test_a_long_answer_shrinks_and_grows(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say("lines 100 of 100")
    parts = [await chat.next_reply() for _ in range(3)]
    await chat.edit(said, "lines 3 of 100")
    assert len((await chat.next_edit()).text.split("\n")) == 4
    await api.wait_calls("deleteMessage", 2)
    assert [chat.message(p) is not None for p in parts] == [True, False, False]
    await chat.edit(said, "lines 50 of 100")
    assert len((await chat.next_edit()).text.split("\n")) > 4
    assert (await chat.next_reply()).text.split()[0] == "40"
