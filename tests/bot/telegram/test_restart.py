"""PostgreSQL is restarted under workers that run: nothing is lost or applied twice, and answers go on by themselves."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterator

import asyncpg
import postgres
import pytest
from bot.telegram import killing
from bot.telegram.test_delivery import Balancer, free_port
from botapi import Chat, FakeBotApi
from stillroom_bot.store.inbox import Inbox

CHATS, EACH = 10, 40


@pytest.fixture(scope="module")
def own() -> Iterator[postgres.Server]:
    """A server that nobody else uses."""
    if postgres.programs() is None:
        pytest.skip(postgres.ABSENT)
    with postgres.running() as made:
        yield made


async def talk(chats: list[Chat], api: FakeBotApi) -> None:
    """Everybody says something now and then."""
    for n in range(EACH):
        for chat in chats:
            await chat.say(f"message {n}")
        await asyncio.sleep(0.05)


async def restart(server: postgres.Server, how: str) -> None:
    """Stop the server, leave it so for a moment, and start it, while everything goes on."""
    await asyncio.to_thread(server.stop, how)
    await asyncio.sleep(0.3)
    await asyncio.to_thread(server.start)


@pytest.mark.parametrize("hooked", [False, True], ids=["polling", "webhook"])
async def test_a_restart_of_the_database_loses_nothing(
        own: postgres.Server, hooked: bool, capfd: pytest.CaptureFixture[str]) -> None:
    name = "hooked" if hooked else "polled"
    connection = await asyncpg.connect(own.url.format("postgres"))
    await connection.execute(f"CREATE DATABASE {name}")
    await connection.close()
    async with FakeBotApi("4242:loopback-only") as api:
        chats = [api.private(api.user(f"R{n}")) for n in range(CHATS)]
        api.faults.latency("sendMessage", 0.02)
        ports = (free_port(), free_port()) if hooked else (0,)
        async with Balancer(ports) as hook:
            workers = [await killing.start(api, own.url.format(name), port, hook if hooked else "") for port in ports]
            talking = asyncio.create_task(talk(chats, api))
            for how in ("fast", "immediate"):
                before = len(api.calls_of("sendMessage"))
                await api.wait_until(lambda b=before: len(api.calls_of("sendMessage")) > b + 20, "answers", 30)
                await restart(own, how)
            await talking
            await api.wait_until(lambda: all(len({r.text for r in c.replies}) >= EACH for c in chats), "answers", 60)
            await api.drained(60)
            assert all(worker.returncode is None for worker in workers)
            for worker in workers:
                await killing.kill(worker)
        found = killing.tally(chats, {c.id: EACH for c in chats})
    assert (found.lost, found.twice, found.disordered) == (0, 0, 0)
    assert "reference" not in capfd.readouterr().err


class Failing:
    """Does what it stands for, and then fails as a line does that breaks after a commit; once."""

    def __init__(self, work: Callable[..., Awaitable[object]]):
        self.work, self.failed = work, False

    async def __call__(self, *given: object) -> object:
        done = await self.work(*given)
        if self.failed:
            return done
        self.failed = True
        raise ConnectionResetError("the line broke")


@pytest.mark.parametrize("what", ["keep", "do", "end"])
async def test_a_line_that_breaks_after_a_commit_loses_nothing(
        api: FakeBotApi, start, monkeypatch: pytest.MonkeyPatch, what: str) -> None:
    chat = api.private(api.user("Mara"))
    async with start() as app:
        bot = app.bot_data["bot"]
        if what == "keep":
            monkeypatch.setattr(Inbox, "keep", Failing(bot.store.inbox.keep))
        else:
            monkeypatch.setattr(bot.clerk.deeds, what, Failing(getattr(bot.clerk.deeds, what)))
        for text in ("5 ml", "double", "double"):
            await chat.say(text)
        replies = [await chat.next_reply(5) for _ in range(3)]
        assert [r.text.split("\n")[0] for r in replies] == ["5 ml", "10 ml", "20 ml"]
        await chat.silence()
