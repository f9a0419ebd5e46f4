"""The fake server against an unmodified python-telegram-bot: order, offsets, limits, refusals.

Limits: core.telegram.org/bots/api. Sentences: from memory of the published server.
"""

from __future__ import annotations

import asyncio
import logging
import struct
from collections.abc import Awaitable, Callable

import pytest
from telegram import Bot, BotCommand, InlineKeyboardButton, InlineKeyboardMarkup, Message, ReplyParameters
from telegram.constants import ParseMode
from telegram.error import BadRequest, Conflict, Forbidden, InvalidToken, TelegramError

from . import FakeBotApi
from .echo import listening, polling

pytestmark = pytest.mark.asyncio
PNG = b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + struct.pack(">II", 40, 30) + b"\x08\x02\x00\x00\x00"


def bot_of(api: FakeBotApi, token: str | None = None) -> Bot:
    return Bot(token or api.token, base_url=api.base_url, base_file_url=api.base_file_url)


async def test_polling_answers_in_order_and_confirms_everything() -> None:
    async with FakeBotApi() as api, polling(api):
        chat = api.private(api.user("Mara"))
        said = [await chat.say(f"{n} ml") for n in range(8)]
        replies = [await chat.next_reply() for _ in said]
        assert [reply.text for reply in replies] == [f"{n} ml" for n in range(8)]
        assert [reply.answers for reply in replies] == [one.message_id for one in said]
        numbers = [one.update_id or 0 for one in said]
        assert numbers == list(range(numbers[0], numbers[0] + 8))
        await api.drained()
        assert max(call.params["offset"] for call in api.calls_of("getUpdates")) == numbers[-1] + 1


async def test_edit_press_forward_and_inline_by_polling() -> None:
    async with FakeBotApi() as api, polling(api) as app:
        mara = api.user("Mara")
        chat = api.private(mara)
        said = await chat.say("1 l")
        reply = await chat.next_reply()
        assert reply.labels == [["Twice"]]
        await chat.edit(said, "2 l")
        assert (await chat.next_reply()).text == "edited: 2 l"
        press = await chat.press(reply, "Twice")
        assert (await press.answer())["text"] == "noted"
        assert (await chat.next_edit()).text == "pressed x2"
        now = chat.message(reply)
        assert now and now.text == "pressed x2" and now.labels == []
        with pytest.raises(LookupError, match=r"there are \[\]"):
            await chat.press(reply, "Twice")
        await chat.forward("old 3 cl", origin="Jo")
        assert (await chat.next_reply()).text == "old 3 cl"
        results = await (await api.inline(mara, "300 ml")).results()
        assert results[0]["shown"] == {
            "text": "300 ml",
            "entities": [{"type": "bold", "offset": 0, "length": 6}],
        }
        assert "errors" not in app.bot_data


async def test_group_privacy_mentions_replies_and_topics() -> None:
    async with FakeBotApi() as api, polling(api):
        mara, jo = api.user("Mara"), api.user("Jo")
        crew = api.group("Crew", mara, jo, forum=True)
        assert (await crew.say("chatter", by=jo)).update_id is None
        await crew.silence()
        await crew.say(f"@{api.world.bot.username} 5 l?", by=jo, thread=3)
        first = await crew.next_reply()
        assert (first.text, first.thread) == ("@loopback_bot 5 l?", 3)
        await crew.say("and 6 l?", by=mara, reply_to=first)
        assert (await crew.next_reply()).text == "and 6 l?"
        assert (await crew.say("/scale@another_bot 2")).update_id is None
        assert (await crew.say("/scale@loopback_bot 2")).update_id is not None


async def test_offset_limit_and_negative_offset() -> None:
    async with FakeBotApi() as api, bot_of(api) as bot:
        chat = api.private(api.user("Mara"))
        numbers = [(await chat.say(str(n))).update_id or 0 for n in range(5)]
        assert [u.update_id for u in await bot.get_updates(limit=2)] == numbers[:2]
        assert [u.update_id for u in await bot.get_updates(offset=numbers[3])] == numbers[3:]
        assert [u.update_id for u in await bot.get_updates(offset=-1)] == numbers[4:]
        assert await bot.get_updates(offset=numbers[4] + 1) == ()


async def test_long_poll_wakes_up_and_a_second_poll_ends_the_first() -> None:
    async with FakeBotApi() as api, bot_of(api) as bot, bot_of(api) as other:
        chat = api.private(api.user("Mara"))
        first = asyncio.create_task(bot.get_updates(timeout=5))
        await asyncio.sleep(0.05)
        second = asyncio.create_task(other.get_updates(timeout=5))
        with pytest.raises(Conflict, match="terminated by other getUpdates request"):
            await first
        said = await chat.say("now")
        assert [u.update_id for u in await asyncio.wait_for(second, 1)] == [said.update_id]


async def test_allowed_updates_stick() -> None:
    async with FakeBotApi() as api, bot_of(api) as bot:
        chat = api.private(api.user("Mara"))
        said = await chat.say("a")
        assert await chat.react(said, "\U0001f44d") is None
        await bot.get_updates(allowed_updates=["message_reaction"])
        await bot.get_updates()
        assert (await chat.say("b")).update_id is None
        assert await chat.react(said, "\U0001f44d") is not None
        await bot.get_updates(allowed_updates=[])
        assert (await chat.say("c")).update_id is not None


Act = Callable[[Bot, int], Awaitable[object]]


def _keys(data: str) -> InlineKeyboardMarkup:
    return InlineKeyboardMarkup([[InlineKeyboardButton("k", callback_data=data)]])


REFUSED: dict[str, tuple[Act, str]] = {
    "4097 characters": (lambda b, c: b.send_message(c, "x" * 4097), "Message is too long"),
    "no text": (lambda b, c: b.send_message(c, "<b> </b>", parse_mode="HTML"), "Message text is empty"),
    "caption": (lambda b, c: b.send_document(c, b"x", caption="x" * 1025), "Message caption is too long"),
    "65 bytes": (
        lambda b, c: b.send_message(c, "x", reply_markup=_keys("½" * 33)),
        "Button_data_invalid",
    ),
    "markup": (
        lambda b, c: b.send_message(c, "a <b", parse_mode=ParseMode.HTML),
        "Can't parse entities: Unclosed start tag at byte offset 2",
    ),
    "chat": (lambda b, c: b.send_message(c + 1, "x"), "Chat not found"),
    "reply": (
        lambda b, c: b.send_message(c, "x", reply_parameters=ReplyParameters(999)),
        "Message to be replied not found",
    ),
    "edit": (lambda b, c: b.edit_message_text("x", c, 999), "Message to edit not found"),
    "edit not mine": (lambda b, c: b.edit_message_text("x", c, 11), "Message can't be edited"),
    "delete": (lambda b, c: b.delete_message(c, 999), "Message to delete not found"),
    "old query": (lambda b, c: b.answer_callback_query("1"), "Query is too old"),
    "file": (lambda b, c: b.send_document(c, "no-such-file-id"), "Wrong file identifier"),
    "picture": (lambda b, c: b.send_photo(c, b"not a picture"), "Image_process_failed"),
    "command": (lambda b, c: b.set_my_commands([BotCommand("Scale", "x")]), "Bot_command_invalid"),
    "action": (lambda b, c: b.send_chat_action(c, "pouring"), "Wrong parameter action"),
    "reaction": (lambda b, c: b.set_message_reaction(c, 11, "\U0001f378"), "Reaction_invalid"),
}


@pytest.mark.parametrize("name", REFUSED)
async def test_refusals(name: str) -> None:
    act, sentence = REFUSED[name]
    async with FakeBotApi() as api, bot_of(api) as bot:
        chat = api.private(api.user("Mara"))
        await chat.say("mine")
        with pytest.raises(BadRequest) as caught:
            await act(bot, chat.id)
        assert caught.value.message.lower().startswith(sentence.lower())
        assert chat.replies == []


async def test_what_is_just_within_the_limits_passes() -> None:
    async with FakeBotApi() as api, bot_of(api) as bot:
        chat = api.private(api.user("Mara"))
        sent = await bot.send_message(
            chat.id, f"<b>{'x' * 4096}</b>", parse_mode="HTML", reply_markup=_keys("½" * 32)
        )
        assert isinstance(sent, Message) and len(sent.text or "") == 4096
        lone = ReplyParameters(999, allow_sending_without_reply=True)
        await bot.send_document(chat.id, b"x", caption="x" * 1024, reply_parameters=lone)
        assert chat.replies[1].file == b"x" and chat.replies[1].answers is None


async def test_not_modified_and_keyboard_edits() -> None:
    async with FakeBotApi() as api, bot_of(api) as bot:
        chat = api.private(api.user("Mara"))
        sent = await bot.send_message(chat.id, "<b>1</b>", parse_mode="HTML", reply_markup=_keys("a"))
        with pytest.raises(BadRequest, match="Message is not modified"):
            await sent.edit_text("<b>1</b>", parse_mode="HTML", reply_markup=_keys("a"))
        with pytest.raises(BadRequest, match="Message is not modified"):
            await sent.edit_reply_markup(_keys("a"))
        await sent.edit_reply_markup(None)
        await sent.edit_text("1")
        assert [(await chat.next_edit()).marked("bold") for _ in range(2)] == [["1"], []]


async def test_files_commands_and_reactions_round_trip() -> None:
    async with FakeBotApi() as api, bot_of(api) as bot:
        chat = api.private(api.user("Mara"))
        photo = (await bot.send_photo(chat.id, PNG, caption="chart")).photo[0]
        assert (photo.width, photo.height) == (40, 30)
        assert bytes(await (await bot.get_file(photo.file_id)).download_as_bytearray()) == PNG
        said = await chat.send_document(b"a,b\n", "list.csv", mime="text/csv")
        update = (await bot.get_updates())[0]
        assert update.message and update.message.document and update.message.document.file_name == "list.csv"
        assert bytes(await (await update.message.document.get_file()).download_as_bytearray()) == b"a,b\n"
        await bot.set_my_commands([BotCommand("scale", "skalieren")], language_code="de")
        assert await bot.get_my_commands() == ()
        assert (await bot.get_my_commands(language_code="de"))[0].description == "skalieren"
        await bot.set_message_reaction(chat.id, said.message_id, "\U0001f44d")
        assert chat.room.reactions[said.message_id][0]["emoji"] == "\U0001f44d"


async def test_wrong_tokens_and_closed_chats() -> None:
    async with FakeBotApi() as api, bot_of(api) as bot:
        for token, sentence in (("4242:another", "Unauthorized"), ("nonsense", "Not Found")):
            stranger = bot_of(api, token)
            with pytest.raises(InvalidToken, match=sentence):
                await stranger.get_me()
            await stranger.request.shutdown()
        assert api.calls_of("getMe") == api.calls[:1]
        chat = api.private(api.user("Mara"))
        assert await chat.shut_out() is not None
        with pytest.raises(Forbidden, match="bot was blocked by the user"):
            await bot.send_message(chat.id, "x")


async def test_what_is_not_imitated_cannot_pass_unseen() -> None:
    with pytest.raises(ExceptionGroup) as caught:
        async with FakeBotApi() as api, bot_of(api) as bot:
            chat = api.private(api.user("Mara"))
            with pytest.raises(TelegramError):
                await bot.send_message(chat.id, "*x*", parse_mode="MarkdownV2")
    assert "MarkdownV2" in str(caught.value.exceptions[0])


async def test_no_token_in_logs(caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.DEBUG)
    async with FakeBotApi("4242:do-not-print") as api:
        async with polling(api):
            chat = api.private(api.user("Mara"))
            api.faults.drop("sendMessage")
            await chat.say("1")
            await api.wait_calls("sendMessage")
        async with listening(api):
            await chat.say("2")
            await chat.next_reply()
        telling = {r.name.partition(".")[0] for r in caplog.records if "do-not-print" in r.getMessage()}
        assert telling == {"httpx", "telegram"}, "the client's own logs tell it, the server's must not"
        assert "do-not-print" not in repr(api) + repr(api.calls)
