"""A process is killed in the middle of its work: no message is lost, none is applied twice, each chat in order."""

from __future__ import annotations

import asyncio
import socket
from itertools import count
from pathlib import Path

import pytest
from bot.telegram import killing
from botapi import FakeBotApi

CHATS, EACH = 12, 10
SENT = CHATS * EACH


def free_port() -> int:
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return int(s.getsockname()[1])


async def test_a_kill_while_polling_loses_nothing(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'bot.sqlite3'}"
    async with FakeBotApi("4242:loopback-only") as api:
        chats = [api.private(api.user(f"P{n}")) for n in range(CHATS)]
        api.faults.latency("sendMessage", 0.02)
        worker = await killing.start(api, url)
        for n in range(EACH):
            for chat in chats:
                await chat.say(f"message {n}")
        for kills in (1,):
            await api.wait_calls("sendMessage", kills * SENT // 3, 30)
            await killing.kill(worker)
            worker = await killing.start(api, url)
        await api.wait_until(lambda: all(len({r.text for r in c.replies}) >= EACH for c in chats), "answers", 30)
        await killing.kill(worker)
        found = killing.tally(chats, {c.id: EACH for c in chats})
    assert (found.lost, found.twice, found.disordered) == (0, 0, 0)
    assert found.repeated <= 2 * CHATS


NUMBERS = count(1)


@pytest.fixture
async def shared(server: str) -> str:
    """A database that several workers may share."""
    import asyncpg

    name = f"wire_{next(NUMBERS)}"
    connection = await asyncpg.connect(server.format("postgres"))
    await connection.execute(f"CREATE DATABASE {name}")
    await connection.close()
    return str(server.format(name))


async def test_two_workers_behind_a_webhook_lose_nothing(shared: str) -> None:
    async with FakeBotApi("4242:loopback-only") as api:
        chats = [api.private(api.user(f"W{n}")) for n in range(CHATS)]
        api.faults.latency("sendMessage", 0.02)
        ports = free_port(), free_port()
        turns = Balancer(ports)
        async with turns as hook:
            workers = [await killing.start(api, shared, port, hook) for port in ports]
            api.faults.lose_acks(SENT // 10)
            for n in range(EACH):
                for chat in chats:
                    await chat.say(f"message {n}")
            await api.wait_calls("sendMessage", SENT // 3, 30)
            await killing.kill(workers[0])
            await api.wait_until(lambda: all(len({r.text for r in c.replies}) >= EACH for c in chats), "answers", 60)
            await api.drained(60)
            await killing.kill(workers[1])
        found = killing.tally(chats, {c.id: EACH for c in chats})
    assert (found.lost, found.twice, found.disordered) == (0, 0, 0)
    assert min(turns.served) > 0


class Balancer:
    """Connections to one port are handed to the workers in turn, past those that do not listen."""

    def __init__(self, ports: tuple[int, ...]):
        self.ports, self.next, self.served = ports, 0, [0] * len(ports)

    async def __aenter__(self) -> str:
        self.server = await asyncio.start_server(self._serve, "127.0.0.1", 0)
        return f"http://127.0.0.1:{self.server.sockets[0].getsockname()[1]}/hook"

    async def __aexit__(self, *_: object) -> None:
        self.server.close()

    async def _serve(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        for _ in self.ports:
            n = self.next = (self.next + 1) % len(self.ports)
            try:
                far, out = await asyncio.open_connection("127.0.0.1", self.ports[n])
            except OSError:
                continue
            self.served[n] += 1
            await asyncio.gather(_pipe(reader, out), _pipe(far, writer), return_exceptions=True)
            break
        writer.close()


async def _pipe(source: asyncio.StreamReader, sink: asyncio.StreamWriter) -> None:
    try:
        while part := await source.read(65536):
            sink.write(part)
            await sink.drain()
    finally:
        sink.close()
