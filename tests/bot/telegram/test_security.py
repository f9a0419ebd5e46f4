"""Who tries to get in by the webhook, by buttons, deep links and names; and what a plugin may not do."""

from __future__ import annotations

import asyncio
import json
import time
from collections.abc import AsyncIterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any

import httpx
import pytest
from botapi import FakeBotApi
from stillroom_bot.reckoning import InThread, Overdue
from stillroom_bot.reckoning.nursery import begin, ready
from stillroom_bot.reckoning.processes import Processes, Tripped
from stillroom_bot.reply import Reply
from stillroom_bot.state import State
from stillroom_bot.store import Store
from stillroom_bot.telegram.application import Bot, working
from stillroom_bot.telegram.config import OPTIONS, Setup, WrongSetting, setup
from stillroom_bot.telegram.webhook import HEADER, LONGEST, asgi

SECRET = "the-secret-of-the-hook"


@pytest.fixture
async def hook(api: FakeBotApi, store: Store, parrot: Any) -> AsyncIterator[tuple[httpx.AsyncClient, Bot]]:
    """The webhook's ASGI application, called without a socket."""
    how = Setup(api.token, api.base_url, "http://127.0.0.1:1/hook", SECRET, rate=0)
    with ThreadPoolExecutor(1) as pool:
        async with working(how, InThread(parrot(), pool), store, False, 5.0) as bot:
            transport = httpx.ASGITransport(asgi(bot, how))
            async with httpx.AsyncClient(transport=transport, base_url="http://bar") as client:
                yield client, bot


def update(number: int, chat: int, text: str) -> dict[str, Any]:
    who = {"id": chat, "is_bot": False, "first_name": "Mara"}
    return {"update_id": number, "message": {"message_id": number, "date": 1, "chat": {"id": chat, "type": "private"},
                                             "from": who, "text": text}}


async def test_the_webhook_answers_and_knows_a_second_delivery(api: FakeBotApi, hook: Any) -> None:
    client, _ = hook
    chat = api.private(api.user("Mara"))
    for _ in range(2):
        said = await client.post("/hook", json=update(7, chat.id, "5 ml"), headers={HEADER: SECRET})
        assert said.status_code == 200
    assert len(api.calls_of("sendMessage")) == 1


@pytest.mark.parametrize("secret", ["", SECRET[:-1], SECRET + "x", SECRET.upper(), "é"])
async def test_a_forged_secret_is_refused_before_the_body_is_read(hook: Any, secret: str) -> None:
    client, _ = hook
    read = 0

    async def body() -> AsyncIterator[bytes]:
        nonlocal read
        for _ in range(1000):
            read += 1
            yield b"x" * 65536

    said = await client.post("/hook", content=body(), headers={HEADER: secret.encode()})
    assert (said.status_code, read) == (403, 0)


@pytest.mark.parametrize("length", [None, "1", "999999999", "-1", "nonsense"])
async def test_a_giant_body_is_cut_off(hook: Any, length: str | None) -> None:
    client, _ = hook
    read = 0

    async def body() -> AsyncIterator[bytes]:
        nonlocal read
        for _ in range(1000):
            read += 1
            yield b"x" * 65536

    headers = {HEADER: SECRET} | ({"Content-Length": length} if length else {})
    said = await client.post("/hook", content=body(), headers=headers)
    assert said.status_code == 413 and read <= LONGEST // 65536 + 1


@pytest.mark.parametrize("body", [b"", b"null", b"[]", b"{}", b'{"update_id": "7"}', b'{"update_id": true}',
                                  b'{"update_id": -1}', b'{"update_id": 1e400}', b"[" * 100_000, b"\xff\xfe"])
async def test_a_body_that_is_no_update_is_refused(hook: Any, body: bytes) -> None:
    client, _ = hook
    assert (await client.post("/hook", content=body, headers={HEADER: SECRET})).status_code == 400


@pytest.mark.parametrize("raw", [{"update_id": 5, "message": 3}, {"update_id": 6, "tap": {"litres": 2}},
                                 {"update_id": 7, "message": {"text": "5 ml"}}])
async def test_an_update_that_makes_no_sense_is_let_pass(hook: Any, raw: dict[str, Any]) -> None:
    client, _ = hook
    assert (await client.post("/hook", json=raw, headers={HEADER: SECRET})).status_code == 200


@pytest.mark.parametrize(("method", "path", "status"), [
    ("GET", "/hook", 405), ("PUT", "/hook", 405), ("POST", "/hook/../hook2", 404), ("POST", "//hook", 404),
    ("POST", "/HOOK", 404), ("GET", "/health", 200), ("GET", "/ready", 200), ("GET", "/metrics", 404)])
async def test_other_paths_lead_nowhere(hook: Any, method: str, path: str, status: int) -> None:
    client, _ = hook
    said = await client.request(method, path, headers={HEADER: SECRET})
    assert said.status_code == status and SECRET not in said.text


async def test_a_worker_that_stops_hands_back(api: FakeBotApi, hook: Any) -> None:
    client, bot = hook
    chat = api.private(api.user("Mara"))
    await bot.order.close(0)
    said = await client.post("/hook", json=update(9, chat.id, "5 ml"), headers={HEADER: SECRET})
    assert (said.status_code, said.headers["Retry-After"]) == (503, "1")
    assert (await client.get("/ready")).status_code == 503


async def test_names_and_texts_are_data(api: FakeBotApi, hook: Any, store: Store) -> None:
    client, _ = hook
    chat = api.private(api.user("Mara"))
    hostile = "'; DROP TABLE chats; -- <b>5 ml</b> <a href='tg://x'>x</a> 5 ml"
    raw = update(11, chat.id, hostile)
    raw["message"]["from"]["first_name"] = "Robert'); DELETE FROM inbox;--"
    assert (await client.post("/hook", json=raw, headers={HEADER: SECRET})).status_code == 200
    reply = await chat.next_reply()
    assert reply.text == f"5 ml\nheard: {hostile}" and reply.marked("text_link") == []
    assert (await store.chats.get(f"telegram:{chat.id}")).version == 1


class Plugin:
    """A conversation whose plugins misbehave when they are asked to."""

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        if text == "for ever":
            while True:
                pass
        if text == "memory":
            return Reply("answered", text, "x" * (1 << 40)), State()
        if text == "nonsense":
            return Reply("answered", text, 5), State()  # type: ignore[arg-type]
        if text == "end":
            import os

            os._exit(3)
        if text == "raise":
            raise ValueError("what the person wrote")
        return Reply("answered", text, text), (state or State()).but(last={"text": text})


async def test_a_plugin_costs_its_own_answer_and_no_other() -> None:
    nursery = begin(Plugin, 1.0)
    assert ready(nursery) == ""
    async with Processes(nursery, 2, 1.0) as processes:
        began = time.monotonic()
        outcomes = await asyncio.gather(
            *(processes.answer(t, State()) for t in ("for ever", "memory", "nonsense", "end", "raise", "5 ml")),
            return_exceptions=True)
        assert time.monotonic() - began < 8
        assert isinstance(outcomes[0], Overdue) and isinstance(outcomes[3], Overdue) and processes.ended == 2
        assert [getattr(o, "kind", "") for o in outcomes] == ["", "MemoryError", "Nonsense", "", "ValueError", ""]
        assert isinstance(outcomes[4], Tripped) and "what the person" not in f"{outcomes[4]} {outcomes[4].place}"
        reply, after = outcomes[5]  # type: ignore[misc]
        assert (reply.headline, after.last) == ("5 ml", {"text": "5 ml"})
        assert (await processes.answer("6 ml", State()))[0].headline == "6 ml"


@pytest.mark.parametrize(("name", "value"), [
    ("TELEGRAM_TOKEN", "hush"), ("TELEGRAM_WEBHOOK", "http://bar.example/x"), ("TELEGRAM_SECRET", "short"),
    ("TELEGRAM_ALLOW", "mara"), ("TELEGRAM_RATE", "fast"), ("TELEGRAM_RATE", "nan"), ("RECKONERS", "0"),
    ("METRICS", "9464"), ("LOG", "loud"), ("TELEGRAM_GROUP_CHANGES", "nobody"), ("TIME_LIMIT", "0"),
    ("TELEGRAM_TOKEN_FILE", "/nowhere/token"), ("TELEGRAM_LISTEN", "127.0.0.1:99999"), ("TELEGRAM_API", "ftp://x")])
def test_a_wrong_setting_is_named_and_not_repeated(name: str, value: str) -> None:
    with pytest.raises(WrongSetting) as caught:
        setup({f"STILLROOM_{name}": value})
    assert f"STILLROOM_{name} has to be" in str(caught.value)
    assert value not in str(caught.value).replace(f"STILLROOM_{name}", "") or len(value) < 5


def test_settings_are_read() -> None:
    made = setup({"STILLROOM_TELEGRAM_ALLOW": "5, -100", "STILLROOM_METRICS": ":9464", "STILLROOM_LOG": "json",
                  "STILLROOM_TELEGRAM_TOKEN": "4242:only-for-this-test"})
    assert (made.allow, made.metrics, made.log) == (frozenset({5, -100}), ("0.0.0.0", 9464), "json")
    assert "only-for-this" not in repr(made) and len({o.name for o in OPTIONS}) == len(OPTIONS)
    assert json.dumps(sorted(made.allow)) == "[-100, 5]"
