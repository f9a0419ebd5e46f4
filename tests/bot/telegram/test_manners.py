"""Inline and guest questions, deep links, plain words, forwards, buttons of an answer, files, who may ask, limits."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from typing import Any

import pytest
from botapi import FakeBotApi
from sqlalchemy import text as sql
from stillroom_bot.reply import Attachment, Reply
from stillroom_bot.state import State
from stillroom_bot.store import Store
from stillroom_bot.telegram.application import App
from stillroom_bot.telegram.limiter import GROUP, Window

NAME = "@loopback_bot"
PNG = (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x06\x00\x00\x00\x1f\x15\xc4\x89"
       b"\x00\x00\x00\rIDATx\x9cc\xf8\xff\xff?\x00\x05\xfe\x02\xfe\xa7\x9a\xa0\xa0\x00\x00\x00\x00IEND\xaeB`\x82")


async def test_an_inline_question_gets_a_card_of_ones_own(api: FakeBotApi, bot: App, store: Store) -> None:
    mara = api.user("Mara")
    await api.private(mara).say("our dash is 0.6")
    await api.private(mara).next_reply()
    asked = await api.inline(mara, "dash?")
    answer = await asked.answer()
    assert answer["is_personal"] and [r["title"] for r in answer["results"]] == ["0.6 ml"]
    other = (await (await api.inline(api.user("Jo"), "dash?")).results())[0]
    assert other["shown"]["text"] == "0.8 ml\nasked: dash?"
    assert other["shown"]["entities"][0] == {"type": "bold", "offset": 0, "length": 6}
    assert [r["title"] for r in await (await api.inline(mara, "sy")).results()] == ["I cannot read that."]
    assert len(await (await api.inline(mara, " ")).results()) == 1
    assert (await store.chats.get(f"telegram:{mara.id}")).version == 1


async def test_a_guest_is_answered_in_one_card(api: FakeBotApi, bot: App) -> None:
    asked = await api.guest(api.user("Mara"), f"{NAME} 5 ml")
    assert (await asked.answer())["shown"]["text"] == "5 ml\nheard: 5 ml\nasked: 5 ml"


@pytest.mark.parametrize("payload", ["", "inline", "x" * 64, "../../etc/passwd", "<b>", "'; DROP TABLE chats"])
async def test_a_deep_link_that_names_nothing_is_a_start(api: FakeBotApi, bot: App, payload: str) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say(f"/start {payload}".strip())
    assert (await chat.next_reply()).text.startswith("Ask me for a measure")


@pytest.mark.parametrize(("words", "says"), [
    ("Help!", "Say what you have"), ("settings please", "This chat has no settings"), ("why?", "Nothing was asked"),
    ("What can I ask?", "There is no calculator")])
async def test_plain_words_do_as_well_as_commands(api: FakeBotApi, bot: App, words: str, says: str) -> None:
    chat = api.private(api.user("Mara"))
    await chat.say(words)
    assert (await chat.next_reply()).text.startswith(says)
    await chat.forward(words)
    assert (await chat.next_reply()).text.startswith("I cannot read that.")


async def test_a_forwarded_setting_changes_nothing(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    await chat.forward("our dash is 0.6")
    assert (await chat.next_reply()).text.startswith("Nothing is changed: a forwarded message")
    await chat.say("dash?")
    assert (await chat.next_reply()).text == "0.8 ml"


class Scaling:
    """An answer to an amount that can be doubled, with a picture and a sheet."""

    files = (Attachment("curve.png", "image/png", PNG, "see"), Attachment("sheet.pdf", "application/pdf", b"%PDF-1.4"))

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        state = state or State()
        n = {"double it": 2, "half of that": 0.5}.get(text, 0) * float((state.last or {}).get("n", 0)) or 40.0
        last = {"n": n, "request": {"given": {"volume": {"unit": "milliliter"}}}}
        files = self.files if "files" in text else ()
        return Reply("answered", text, f"{n:g} g", attachments=files), state.but(last=last)


async def test_an_answer_is_doubled_halved_and_copied_by_its_asker(api: FakeBotApi, start: Any) -> None:
    mara, jo = api.user("Mara"), api.user("Jo")
    crew = api.group("Crew", mara, jo)
    async with start(Scaling()):
        await crew.say(f"{NAME} salt for 40 ml", by=mara)
        reply = await crew.next_reply()
        assert reply.labels == [["½ ×", "2 ×", "Copy"]]
        assert reply.buttons[0][2]["copy_text"] == {"text": "40 g"}
        assert "Only" in (await (await crew.press(reply, "2 ×", by=jo)).answer())["text"]
    async with start(Scaling()):
        await crew.press(reply, "2 ×", by=mara)
        twice = await crew.next_edit()
        assert (twice.message_id, twice.text) == (reply.message_id, "80 g")
        await crew.press(twice, "½ ×", by=mara)
        assert (await crew.next_edit()).text == "40 g"


async def test_files_go_below_the_answer(api: FakeBotApi, start: Any) -> None:
    chat = api.private(api.user("Mara"))
    async with start(Scaling()):
        said = await chat.say("files")
        parts = [await chat.next_reply() for _ in range(3)]
    assert [p.answers for p in parts] == [said.message_id] * 3
    assert (parts[0].text, parts[1].text, parts[1].file, parts[2].file) == ("40 g", "see", PNG, b"%PDF-1.4")


async def test_only_who_is_invited_is_answered(api: FakeBotApi, start: Any) -> None:
    mara, jo = api.user("Mara"), api.user("Jo")
    strangers = api.group("Strangers", jo)
    async with start(allow=frozenset({mara.id})):
        await api.private(mara).say("5 ml")
        assert (await api.private(mara).next_reply()).text.startswith("5 ml")
        await api.private(jo).say("5 ml")
        assert f"its number is {jo.id}" in (await api.private(jo).next_reply()).text
        await strangers.say(f"{NAME} 5 ml", by=jo)
        await strangers.shut_out()
        await strangers.let_in()
        await api.wait_calls("leaveChat")
        assert await strangers.silence(0.05) is None


async def test_a_groups_settings_may_be_its_administrators_affair(api: FakeBotApi, start: Any) -> None:
    mara, jo = api.user("Mara"), api.user("Jo")
    crew = api.group("Crew", mara, jo)
    crew.room.admins.add(mara.id)
    async with start(admins=True):
        await crew.say(f"{NAME} our dash is 0.6", by=jo)
        assert "only its administrators" in (await crew.next_reply()).text
        await crew.say("/forget", by=jo)
        assert (await crew.next_reply()).text.startswith("Nothing is forgotten")
        await crew.say(f"{NAME} our dash is 0.7", by=mara)
        assert (await crew.next_reply()).text == "Noted."
        await crew.say(f"{NAME} dash?", by=jo)
        assert (await crew.next_reply()).text == "0.7 ml"


async def test_who_asks_too_often_is_told_once(api: FakeBotApi, start: Any) -> None:
    chat, other = api.private(api.user("Mara")), api.private(api.user("Jo"))
    async with start(user_rate=3):
        for n in range(8):
            await chat.say(f"{n + 1} ml")
        replies = [(await chat.next_reply()).text for _ in range(4)]
        assert [r.split(" ")[0] for r in replies] == ["1", "2", "3", "That"]
        await chat.silence(0.1)
        await other.say("5 ml")
        assert (await other.next_reply()).text.startswith("5 ml")


async def test_nothing_of_a_message_is_left_when_it_is_done_or_forgotten(
        api: FakeBotApi, bot: App, store: Store, caplog: pytest.LogCaptureFixture) -> None:
    chat = api.private(api.user("Mara"))
    for text in ("5 ml of confidential", "/forget"):
        await chat.say(text)
        await chat.next_reply()
    await api.drained()
    for _ in range(100):
        rows = await store.database.read(lambda c: c.execute(sql("SELECT body, plan, done FROM inbox")).all())
        if all(row.done for row in rows):
            break
        await asyncio.sleep(0.02)
    assert len(rows) == 2 and all(row.body == "" and row.plan is None for row in rows)
    found = await store.export(f"telegram:{chat.id}")
    assert "confidential" not in str(found) and not found["answers"] and not found["chats"]
    own = [r for r in caplog.records if r.name.startswith(("stillroom", "aiohttp", "uvicorn", "asyncio"))]
    assert not [r for r in own if "confidential" in r.getMessage()]


async def test_telegrams_limits_are_kept_and_a_full_group_holds_up_nobody(
        api: FakeBotApi, start: Any, caplog: pytest.LogCaptureFixture) -> None:
    people = [api.private(api.user(f"F{n}")) for n in range(50)]
    crew = api.group("Crew", api.user("Mara"))
    api.faults.limit()
    async with start(rate=15.0):
        for n in range(22):
            await crew.say(f"{NAME} {n + 1} ml")
        for chat in people:
            await chat.say("5 ml")
        for chat in people:
            await chat.next_reply(30)
        await api.wait_until(lambda: len(crew.replies) == GROUP[0], "a full group", 30)
        await asyncio.sleep(0.3)
        assert len(crew.replies) == GROUP[0] and api.faults.floods == 0


def test_a_window_gives_no_more_than_it_may() -> None:
    window, now, times = Window(*GROUP), 1000.0, []
    for _ in range(200):
        times.append(now + window.wait(now))
    for start in times:
        assert sum(start <= t < start + GROUP[1] for t in times) <= GROUP[0]
    assert times[19] == now and times[20] == now + GROUP[1]
    window.stop(1e6)
    assert now + window.wait(now) == 1e6


def test_a_reply_is_data_again() -> None:
    from stillroom_bot.telegram.saying import Saying, dumps, loads

    said = Saying("send", 1, 2, 3, "h", ("b",), ((("Copy", "copy:h"),),), (4,), "q", (("0", "t", "h", ("b",)),),
                  (Attachment("a.png", "image/png", PNG),), {"chat": "c"})
    assert loads(dumps([said])) == (said,) and loads(dumps([replace(said, files=())])) != (said,)
