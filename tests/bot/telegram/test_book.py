"""The book on Telegram: kept in the chat, by whom it was; pressed, given out and forgotten."""

from __future__ import annotations

import pytest
from botapi import FakeBotApi
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from stillroom_bot.store import Store

NAME = "@loopback_bot"
LIGHT = "keep Marsh Light: 45 ml gin, 20 ml simple syrup, 25 ml lime juice; shake and strain"


@pytest.fixture(scope="module")
def conversation(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """The real one."""
    return Conversation(Kernel(tmp_path_factory.mktemp("cache")))


async def test_a_spec_is_kept_by_a_button_and_outlives_a_restart(
    api: FakeBotApi, start, store: Store, conversation: Conversation
) -> None:
    chat = api.private(api.user("Mara"))
    async with start(conversation):
        await chat.say(LIGHT)
        asked = await chat.next_reply(20)
        assert asked.labels == [["keep it"], ["drop it"]] and "45 ml gin" in asked.text
        assert (await store.books.get(f"telegram:{chat.id}")).book.specs == ()
        await chat.press(asked, "keep it")
        assert "Kept: Marsh Light, version 1" in (await chat.next_edit(20)).text
    kept = (await store.books.get(f"telegram:{chat.id}")).book
    assert [(s.name, s.by, s.version) for s in kept.versions] == [("Marsh Light", "Mara", 1)]
    async with start(conversation):
        await chat.say("forty of the marsh light")
        assert (await chat.next_reply(20)).text.startswith("gin: 1800 ml")


async def test_a_group_keeps_one_book_and_tells_who_changed_it(
    api: FakeBotApi, start, store: Store, conversation: Conversation
) -> None:
    mara, jo = api.user("Mara"), api.user("Jo")
    crew = api.group("Crew", mara, jo)
    async with start(conversation):
        for text, who in ((LIGHT, mara), ("keep it", mara), ("change the gin in Marsh Light to 50 ml", jo)):
            await crew.say(f"{NAME} {text}", by=who)
            await crew.next_reply(20)
        await crew.say(f"{NAME} versions of Marsh Light", by=mara)
        told = (await crew.next_reply(20)).text
    assert "Mara: kept" in told and "Jo: 50 ml gin (was 45 ml)" in told


async def test_all_is_given_out_and_then_forgotten(
    api: FakeBotApi, start, store: Store, conversation: Conversation
) -> None:
    chat = api.private(api.user("Mara"))
    key = f"telegram:{chat.id}"
    async with start(conversation):
        for text in (LIGHT, "keep it", "our dash is 0.6 ml", "2 dashes of bitters in ml?"):
            await chat.say(text)
            await chat.next_reply(20)
        await chat.say("export my data")
        assert "All that is kept" in (await chat.next_reply(20)).text
        rows = await store.export(key)
        assert all(rows[table] for table in ("chats", "answers", "books", "specs"))
        await chat.say("/forget")
        while not (asked := await chat.next_reply(20)).labels:
            pass
        assert (await store.books.get(key)).book.specs
        await chat.press(asked, "yes, forget all of it")
        assert "Forgotten" in (await chat.next_edit(20)).text
        await api.drained()
    left = await store.export(key)
    assert not [name for name, found in left.items() for row in found if row.get("body") != ""], "more than a number"
