"""An answer waits for no disk; an acknowledgement does, so that a loss of power loses nothing."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Iterator
from typing import Any

import pytest
from bot.telegram.test_security import SECRET, hook, update  # noqa: F401
from botapi import FakeBotApi
from stillroom_bot.telegram.webhook import HEADER


@pytest.fixture
def disk(monkeypatch: pytest.MonkeyPatch) -> Iterator[threading.Event]:
    """A disk that brings nothing to an end while this is not set."""
    turning = threading.Event()
    turning.set()
    monkeypatch.setattr("stillroom_bot.store.file.SYNC", lambda file: turning.wait(30))
    yield turning
    turning.set()


async def test_by_polling_an_update_is_acknowledged_when_it_is_on_the_disk(
        api: FakeBotApi, start: Any, disk: threading.Event) -> None:
    async with start():
        chat = api.private(api.user("Mara"))
        await chat.say("5 ml")
        assert "5 ml" in (await chat.next_reply(10)).text
        await api.drained()
        disk.clear()
        await chat.say("7 ml")
        assert "7 ml" in (await chat.next_reply(10)).text
        with pytest.raises(TimeoutError):
            await api.drained(0.2)
        disk.set()
        await api.drained(10)
    assert len(api.calls_of("sendMessage")) == 2


async def test_by_webhook_an_update_is_acknowledged_when_its_end_is_on_the_disk(
        api: FakeBotApi, hook: Any, disk: threading.Event) -> None:  # noqa: F811
    client, _ = hook
    chat = api.private(api.user("Mara"))

    async def deliver() -> int:
        return int((await client.post("/hook", json=update(7, chat.id, "5 ml"), headers={HEADER: SECRET})).status_code)

    disk.clear()
    first = asyncio.create_task(deliver())
    assert "5 ml" in (await chat.next_reply(10)).text
    await asyncio.sleep(0.05)
    assert not first.done()
    disk.set()
    assert await first == 200 == await deliver()
    assert len(api.calls_of("sendMessage")) == 1
