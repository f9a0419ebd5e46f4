"""Faults and webhook delivery, against an unmodified python-telegram-bot."""

from __future__ import annotations

import asyncio
import time

import pytest
from aiohttp import web
from telegram import Bot
from telegram.error import BadRequest, Conflict, NetworkError, RetryAfter, TelegramError, TimedOut

from . import FakeBotApi
from .echo import listening, polling

pytestmark = pytest.mark.asyncio


def bot_of(api: FakeBotApi) -> Bot:
    return Bot(api.token, base_url=api.base_url)


async def test_flood_is_for_one_chat_and_one_method(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PTB_TIMEDELTA", "1")
    async with FakeBotApi() as api, bot_of(api) as bot:
        mara, jo = api.private(api.user("Mara")), api.private(api.user("Jo"))
        api.faults.flood("sendMessage", retry_after=7, chat=mara.id)
        await bot.send_message(jo.id, "x")
        await bot.send_chat_action(mara.id, "typing")
        with pytest.raises(RetryAfter, match="Retry in 0:00:07"):
            await bot.send_message(mara.id, "x")
        assert api.faults.left == 0
        await bot.send_message(mara.id, "x")
        assert [call.status for call in api.calls_of("sendMessage")] == [200, 429, 200]


@pytest.mark.parametrize(
    ("after", "arrived"), [(False, 0), (True, 1)], ids=["before it took effect", "after it took effect"]
)
async def test_cut_connections_and_gateways(after: bool, arrived: int) -> None:
    async with FakeBotApi() as api, bot_of(api) as bot:
        chat = api.private(api.user("Mara"))
        api.faults.drop("sendMessage", after=after)
        with pytest.raises(NetworkError):
            await bot.send_message(chat.id, "x")
        assert len(chat.replies) == arrived
        api.faults.bad_gateway("sendMessage", after=after)
        with pytest.raises(NetworkError, match="Bad Gateway"):
            await bot.send_message(chat.id, "x")
        assert len(chat.replies) == 2 * arrived
        assert [call.carried_out for call in api.calls_of("sendMessage")] == [after, after]


async def test_half_a_document_slow_bodies_and_latency() -> None:
    async with FakeBotApi() as api, bot_of(api) as bot:
        chat = api.private(api.user("Mara"))
        api.faults.garble("sendMessage")
        with pytest.raises(TelegramError, match="Invalid server response"):
            await bot.send_message(chat.id, "x")
        api.faults.slow_body("sendMessage", seconds=0.2)
        start = time.monotonic()
        await bot.send_message(chat.id, "x")
        assert time.monotonic() - start > 0.18
        api.faults.latency("sendMessage", 0.3)
        with pytest.raises(TimedOut):
            await bot.send_message(chat.id, "late", read_timeout=0.1)
        await api.wait_until(lambda: chat.replies[-1].text == "late")
        api.faults.refuse("sendMessage", 400, "Bad Request: CHAT_RESTRICTED")
        api.faults.latency("sendMessage", 0)
        with pytest.raises(BadRequest, match="Chat_restricted"):
            await bot.send_message(chat.id, "x")


async def test_polling_survives_broken_answers_to_get_updates() -> None:
    async with FakeBotApi() as api:
        api.faults.bad_gateway("getUpdates")
        async with polling(api):
            chat = api.private(api.user("Mara"))
            await chat.say("still there?")
            assert (await chat.next_reply(timeout=4)).text == "still there?"
        assert api.calls_of("getUpdates")[0].error == "fault"


async def test_duplicates_unknown_kinds_and_reversed_batches_reach_the_bot() -> None:
    async with FakeBotApi() as api, polling(api):
        chat = api.private(api.user("Mara"))
        api.faults.duplicate()
        await chat.say("twice")
        assert [(await chat.next_reply()).text for _ in range(2)] == ["twice", "twice"]
        api.faults.unknown()
        api.push({"another_new_kind": {"litres": 1}})
        said = await chat.say("after the unknown")
        assert (await chat.next_reply()).text == "after the unknown"
        assert (said.update_id or 0) > 0
        await api.drained()
        api.faults.reverse(3)
        for n in range(3):
            await chat.say(str(n))
        assert [(await chat.next_reply()).text for _ in range(3)] == ["2", "1", "0"]
        assert api.faults.left == 0


async def test_webhook_and_polling_exclude_each_other() -> None:
    async with FakeBotApi() as api, listening(api) as app:
        with pytest.raises(Conflict, match="can't use getUpdates method while webhook is active"):
            await app.bot.get_updates()
        with pytest.raises(BadRequest, match="https url must be provided"):
            await app.bot.set_webhook("http://example.org/hook")
        with pytest.raises(BadRequest, match="unallowed characters"):
            await app.bot.set_webhook("https://example.org/hook", secret_token="no spaces")
        assert (await app.bot.get_webhook_info()).max_connections == 8
        await app.bot.delete_webhook()
        assert (await app.bot.get_webhook_info()).url == ""
        assert await app.bot.get_updates() == ()


async def test_webhook_keeps_order_within_a_chat_and_retries() -> None:
    async with FakeBotApi() as api, listening(api, statuses=[500, 503]):
        mara, jo = api.private(api.user("Mara")), api.private(api.user("Jo"))
        for n in range(4):
            await mara.say(f"m{n}")
            await jo.say(f"j{n}")
        assert [(await mara.next_reply()).text for _ in range(4)] == ["m0", "m1", "m2", "m3"]
        assert [(await jo.next_reply()).text for _ in range(4)] == ["j0", "j1", "j2", "j3"]
        await api.drained()
        assert sorted(one.status for one in api.deliveries) == [200] * 8 + [500, 503]


async def test_a_slow_chat_does_not_hold_up_another() -> None:
    async with FakeBotApi() as api, listening(api):
        mara, jo = api.private(api.user("Mara")), api.private(api.user("Jo"))
        api.faults.slow_body("sendMessage", seconds=0.4, chat=mara.id)
        await mara.say("slow")
        await mara.say("waits")
        await mara.next_reply()
        await jo.say("quick")
        await jo.next_reply()
        assert len(mara.replies) == 1
        assert (await mara.next_reply()).text == "waits"


async def test_lost_acknowledgement_and_slow_handler_lead_to_a_repeat() -> None:
    async with FakeBotApi() as api:
        api.webhook_timing.answer = 0.2
        async with listening(api):
            chat = api.private(api.user("Mara"))
            api.faults.lose_acks()
            said = await chat.say("once")
            assert [(await chat.next_reply()).text for _ in range(2)] == ["once", "once"]
            await api.drained()
            api.faults.latency("sendMessage", 0.3)
            slow = await chat.say("slow")
            await api.wait_until(lambda: len(api.deliveries) == 3)
            api.faults.latency("sendMessage", 0)
            await api.drained()
        tries = [(d.update_id, d.attempt, d.arrived) for d in api.deliveries]
        assert tries[:2] == [(said.update_id, 1, False), (said.update_id, 2, True)]
        assert tries[2:4] == [(slow.update_id, 1, False), (slow.update_id, 2, True)]


async def test_updates_wait_for_a_webhook_and_may_be_dropped() -> None:
    async with FakeBotApi() as api, bot_of(api) as bot:
        chat = api.private(api.user("Mara"))
        await chat.say("while away")
        assert (await bot.get_webhook_info()).pending_update_count == 1
        async with listening(api):
            assert (await chat.next_reply()).text == "while away"
            await api.drained()
        await chat.say("gone")
        await bot.delete_webhook(drop_pending_updates=True)
        await asyncio.wait_for(api.drained(), 0.1)
        assert await bot.get_updates() == ()


async def test_a_method_in_the_answer_to_a_delivery_is_carried_out() -> None:
    async def receive(request: web.Request) -> web.Response:
        message = (await request.json())["message"]
        call = {"method": "sendMessage", "chat_id": message["chat"]["id"], "text": message["text"]}
        return web.json_response(call)

    site = web.Application()
    site.router.add_post("/hook", receive)
    runner = web.AppRunner(site, access_log=None)
    await runner.setup()
    await web.TCPSite(runner, "127.0.0.1", 0).start()
    async with FakeBotApi() as api, bot_of(api) as bot:
        await bot.set_webhook(f"http://127.0.0.1:{runner.addresses[0][1]}/hook")
        chat = api.private(api.user("Mara"))
        await chat.say("said in the answer")
        assert (await chat.next_reply()).text == "said in the answer"
        assert [call.method for call in api.calls] == ["getMe", "setWebhook", "sendMessage"]
    await runner.cleanup()
