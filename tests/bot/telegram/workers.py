"""Two workers behind a webhook that share a PostgreSQL database, against one: messages a second of a burst.

    python tests/bot/telegram/workers.py [MESSAGES] [CHATS] [MILLISECONDS]

The last is how long the server takes to answer.  What the workers do themselves is all there is to be shared: their
conversation only counts.  Prints the rates, the workers' processor time, what was lost or applied twice, and the ratio
of the rates (larger is better).
"""

from __future__ import annotations

import asyncio
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

import asyncpg
from bench.spent import spent
from bot.telegram import killing
from bot.telegram.test_delivery import Balancer, free_port
from botapi import FakeBotApi
from postgres import server


async def rate(workers: int, messages: int, people: int, latency: float, address: str) -> float:
    """Messages a second of so many workers with a database of their own."""
    connection = await asyncpg.connect(address.format("postgres"))
    await connection.execute(f"CREATE DATABASE workers_{workers}")
    await connection.close()
    async with FakeBotApi("4242:loopback-only") as api:
        chats = [api.private(api.user(f"W{n}")) for n in range(people)]
        api.webhook_timing.answer = 60.0
        ports = tuple(free_port() for _ in range(workers))
        async with Balancer(ports) as hook:
            running = [await killing.start(api, address.format(f"workers_{workers}"), port, hook) for port in ports]
            api.faults.latency("sendMessage", latency)
            before, began = [spent(process.pid).own for process in running], time.monotonic()
            for n in range(messages):
                await chats[n % people].say(f"message {n}")
            while sum(len(c.room.history) for c in chats) < messages:
                await asyncio.sleep(0.01)
            found = messages / (time.monotonic() - began)
            used = [(spent(process.pid).own - b) * 1e3 / messages for process, b in zip(running, before, strict=True)]
            await api.drained(60)
            for process in running:
                await killing.kill(process)
        told = killing.tally(chats, {c.id: messages // people for c in chats})
    print(f"{workers} worker(s): {found:.0f}/s, {sum(used):.2f} ms of processor time a message; "
          f"lost {told.lost}, applied twice {told.twice}, answered again {told.repeated}, "
          f"chats out of order {told.disordered}", flush=True)
    return found


def main() -> int:
    """Run it by the command line."""
    numbers = [int(a) for a in sys.argv[1:]]
    messages, people, latency = (numbers + [2000, 100, 50][len(numbers):])[:3]
    messages -= messages % people
    with server() as address:
        one = asyncio.run(rate(1, messages, people, latency / 1000, address))
        two = asyncio.run(rate(2, messages, people, latency / 1000, address))
    print(f"ratio {two / one:.2f}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
