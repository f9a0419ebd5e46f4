"""When something breaks: the person is told, the log names the place, neither holds a text or the token."""

from __future__ import annotations

import gc
import logging
import re

import pytest
from botapi import FakeBotApi
from stillroom_bot.places import Unavailable
from stillroom_bot.store import Store
from stillroom_bot.telegram.application import App, polling
from stillroom_bot.telegram.logging import HIDDEN, Redactor, redacted

TOKEN = "4242:a-very/secret+half"


def own(caplog: pytest.LogCaptureFixture) -> list[logging.LogRecord]:
    return [r for r in caplog.records if r.name.startswith("stillroom")]


async def test_a_person_is_given_a_reference_that_the_log_has_too(
        api: FakeBotApi, bot: App, caplog: pytest.LogCaptureFixture) -> None:
    chat = api.private(api.user("Mara"))
    said = await chat.say("boom, said the confidential shaker")
    reply = await chat.next_reply()
    found = re.search(r"reference ([0-9a-f]{8})", reply.text)
    assert found and reply.answers == said.message_id
    records = [r for r in own(caplog) if found[1] in r.getMessage()]
    assert len(records) == 1 and "ValueError" in records[0].getMessage() and "conftest.py" in records[0].getMessage()
    assert not [r for r in own(caplog) if "confidential" in r.getMessage()]
    await chat.say("5 ml")
    assert (await chat.next_reply()).marked("bold") == ["5 ml"]


async def test_a_press_that_breaks_is_told_by_toast(api: FakeBotApi, start, parrot) -> None:
    chat = api.private(api.user("Mara"))
    talker = parrot()
    async with start(talker):
        await chat.say("syrup")
        asked = await chat.next_reply()
        talker.answer = lambda text, state=None: 1 / 0
        press = await chat.press(asked, "1:1")
        assert "reference" in (await press.answer())["text"]


async def test_markup_that_the_server_cannot_read_is_sent_plain(api: FakeBotApi, bot: App) -> None:
    chat = api.private(api.user("Mara"))
    refusal = "Bad Request: can't parse entities: Unsupported start tag at byte offset 3"
    api.faults.refuse("sendMessage", 400, refusal)
    said = await chat.say("5 ml <of> it")
    reply = await chat.next_reply()
    assert (reply.text, reply.marked("bold")) == ("5 ml\nheard: 5 ml <of> it", [])
    api.faults.refuse("editMessageText", 400, refusal)
    await chat.edit(said, "6 ml <of> it")
    assert (await chat.next_edit()).text == "6 ml\nheard: 6 ml <of> it"


async def test_a_chat_that_blocked_the_bot_is_let_go(
        api: FakeBotApi, bot: App, caplog: pytest.LogCaptureFixture) -> None:
    chat, other = api.private(api.user("Mara")), api.private(api.user("Jo"))
    api.faults.refuse("sendMessage", 403, "Forbidden: bot was blocked by the user", chat=chat.id)
    await chat.say("5 ml")
    await chat.silence(0.1)
    assert [r.levelname for r in own(caplog)] == ["INFO"]
    await other.say("6 ml")
    assert (await other.next_reply()).marked("bold") == ["6 ml"]


async def test_a_token_that_is_not_accepted_is_not_repeated(
        parrot, store: Store, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.DEBUG)
    wrong = "4242:another-secret"
    async with FakeBotApi() as api:
        with redacted(wrong), pytest.raises(Unavailable) as caught:
            logging.getLogger("httpx").setLevel(logging.DEBUG)
            async with polling(wrong, parrot(), store, api.base_url):
                raise AssertionError("the bot started with a wrong token")
    assert str(caught.value) == "Telegram does not accept the token."
    assert "another-secret" not in caplog.text


async def test_a_server_that_is_not_there_is_named_in_a_sentence_and_no_connection_is_left_open(
        parrot, store: Store, caplog: pytest.LogCaptureFixture) -> None:
    with pytest.raises(Unavailable, match=r"Telegram cannot be reached \(NetworkError\)\."):
        async with polling(TOKEN, parrot(), store, "http://127.0.0.1:9/bot"):
            raise AssertionError("the bot started without a server")
    gc.collect()
    assert "Unclosed" not in caplog.text


@pytest.mark.parametrize("said", [
    "POST https://api.telegram.org/bot4242:a-very/secret+half/getMe",
    "4242%3Aa-very%2Fsecret%2Bhalf",
    "a-very/secret+half",
])
def test_the_token_is_removed_in_every_form(said: str) -> None:
    cleaned = Redactor(TOKEN).clean(said)
    assert HIDDEN in cleaned and "secret" not in cleaned


def test_records_are_cleaned_wherever_they_come_from(caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.DEBUG)
    with redacted(TOKEN):
        levels = [logging.getLogger(n).level for n in ("httpx", "telegram")]
        logging.getLogger("httpx").warning("HTTP Request: %s %r", "POST", {"url": f"/bot{TOKEN}/getMe"})
        logging.getLogger("quite.another").error("%s", TOKEN)
        try:
            raise RuntimeError(f"the token {TOKEN} was rejected")
        except RuntimeError:
            logging.getLogger("telegram.ext.Updater").exception("polling %d", 1)
        logging.getLogger("telegram").error("does not fit %d", TOKEN)
    assert levels == [logging.WARNING, logging.WARNING]
    assert len(caplog.records) == 4 and caplog.text.count(HIDDEN) >= 3
    assert "RuntimeError: the token [token] was rejected" in caplog.text
    assert "secret" not in caplog.text
    logging.getLogger("x").warning("secret")
    assert "secret" in caplog.text
