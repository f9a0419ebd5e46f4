"""The whole bot (reads, solves, stores, answers) against a bare echo bot of the framework's, on one loopback server.

    python tests/bench/echo.py [MESSAGES] [SECONDS] [--quick]

By polling and by webhook, with 0 and with 50 ms until the server answers: messages a second of a burst over many chats
(ratio ours to theirs: larger is better), then how long after its message an answer reaches the server, at 30 messages
a second (ratio of the 99th percentiles: smaller is better).  Ours is the command itself, with two reckoners and SQLite.
Beside the rates stands the processor time of a message in the burst, in ms: of the process that speaks to the server
(ours: plus that of its reckoners), and of the server with its driver, which both bots share the machine with.
"""

from __future__ import annotations

import asyncio
import itertools
import os
import random
import re
import socket
import sys
import time
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[1]))

import botapi
from botapi import Chat, FakeBotApi
from spent import Spent, spent
from timing import QUICK, arguments

PEOPLE = 200
A_SECOND = 30.0
WARM = 40 if QUICK else 400
BARE = Path(botapi.__file__).with_name("bare.py")
QUIET = {"theirs": 20.0, "ours": 120.0}
"""Seconds without an answer after which those that are missing will never come."""
SECRET = "only-for-this-benchmark"
OURS = [sys.executable, "-m", "stillroom_bot.cli", "telegram"]
QUESTIONS = (
    "how much salt for {} ml of 20% saline?", "{} ml of 2:1 syrup",
    "{} g of lime juice at 6 % acid: how much citric acid?",
    "how much agar for {} ml of tomato juice at 0.8 %?", "{} oz in ml", "6 drops of 20 % saline in a {} ml drink",
    "I have {} ml of gin at 43 %, how much water to 30 %?", "and for {} ml?",
    "{} ml at 40 % and 300 ml at 20 %: what abv?")


def free_port() -> int:
    """A port of this machine that nobody uses."""
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return int(s.getsockname()[1])


@asynccontextmanager
async def bot(whose: str, api: FakeBotApi, hook: bool, folder: Path) -> AsyncIterator[asyncio.subprocess.Process]:
    """A bot as a process, once it has said that it is there."""
    port = free_port() if hook else 0
    env = {k: v for k, v in os.environ.items() if not k.startswith("STILLROOM_")} | {"PYTHONUNBUFFERED": "1"}
    if whose == "theirs":
        command = [sys.executable, str(BARE), api.token, api.base_url, str(port), SECRET]
    else:
        command = OURS
        env |= {"STILLROOM_TELEGRAM_TOKEN": api.token, "STILLROOM_TELEGRAM_API": api.base_url,
                "STILLROOM_TELEGRAM_RATE": "0", "STILLROOM_TELEGRAM_USER_RATE": "0", "STILLROOM_DATA": str(folder),
                "STILLROOM_CACHE": os.environ.get("STILLROOM_CACHE", str(folder.parent / "cache"))}
        if hook:
            env |= {"STILLROOM_TELEGRAM_WEBHOOK": f"http://127.0.0.1:{port}/hook", "STILLROOM_TELEGRAM_SECRET": SECRET,
                    "STILLROOM_TELEGRAM_LISTEN": f"127.0.0.1:{port}"}
    log = asyncio.subprocess.PIPE
    process = await asyncio.create_subprocess_exec(*command, env=env, stdout=log, stderr=asyncio.subprocess.STDOUT)
    assert process.stdout is not None
    seen = b""
    try:
        while not re.search(rb"\bready\b|: listening", seen):
            line = await asyncio.wait_for(process.stdout.readline(), 60)
            if not line:
                raise RuntimeError(seen.decode())
            seen += line
        drain = asyncio.create_task(process.stdout.read())
        yield process
    finally:
        if process.returncode is None:
            process.terminate()
            try:
                await asyncio.wait_for(process.wait(), 20)
            except TimeoutError:
                process.kill()
                await process.wait()
    await drain


async def answered(whose: str, chats: list[Chat], sent: dict[int, int]) -> int:
    """Wait until every chat has as many answers as it sent messages; gives how many never came.

    A bare echo bot tries nothing again, so on a busy machine it loses some.  Ours may not: raises TimeoutError.
    """
    before, end = -1, 0.0
    while (there := sum(len(c.room.history) for c in chats)) < sum(sent.values()):
        if there != before:
            before, end = there, time.monotonic() + QUIET[whose]
        elif time.monotonic() > end:
            break
        await asyncio.sleep(0.01)
    lost = sum(sent.values()) - there
    if lost and whose == "ours":
        raise TimeoutError(f"{lost} were not answered")
    sent.update((c.id, len(c.room.history)) for c in chats)
    return lost


@dataclass(frozen=True)
class Found:
    """Messages a second of a burst, with the processor time of each; how many were lost; the seconds that answers took
    at an even pace."""

    rate: float
    lost: int
    bot: str
    server: str
    took: list[float]


async def measured(whose: str, hook: bool, latency: float, messages: int, seconds: float, folder: Path) -> Found:
    """A burst, then an even pace."""
    numbers = itertools.count(101)
    dice = random.Random(7)
    async with FakeBotApi("4242:loopback-only") as api:
        chats = [api.private(api.user(f"P{n}")) for n in range(PEOPLE)]
        sent = {c.id: 0 for c in chats}

        async def say(chat: Chat) -> None:
            sent[chat.id] += 1
            await chat.say(dice.choice(QUESTIONS).format(next(numbers)))

        def used() -> tuple[Spent, Spent]:
            return spent(process.pid), Spent(time.process_time())

        async with bot(whose, api, hook, folder) as process:
            for n in range(WARM):
                await say(chats[n % PEOPLE])
            lost = await answered(whose, chats, sent)
            api.faults.latency("sendMessage", latency)
            before, began = used(), time.monotonic()
            for n in range(messages):
                await say(chats[n % PEOPLE])
            missing = await answered(whose, chats, sent)
            took, after = time.monotonic() - began - (QUIET[whose] if missing else 0.0), used()
            costs = [b.since(a, messages) for a, b in zip(before, after, strict=True)]
            return Found((messages - missing) / took, lost + missing, *costs, await _even(api, chats, say, seconds))


async def _even(api: FakeBotApi, chats: list[Chat], say: object, seconds: float) -> list[float]:
    """How long each answer took to reach the server, at ``A_SECOND`` messages a second; each chat asks in its turn."""
    asked: dict[int, float] = {}
    took: list[float] = []
    seen = len(api.calls)
    count = int(seconds * A_SECOND)
    began = time.monotonic()
    for n in range(count):
        await asyncio.sleep(max(0.0, began + n / A_SECOND - time.monotonic()))
        chat = chats[n % len(chats)]
        asked[chat.id] = time.monotonic()
        await say(chat)  # type: ignore[operator]
        seen = _collect(api, seen, asked, took)
    end = time.monotonic() + 20
    while len(took) < count and time.monotonic() < end:
        await asyncio.sleep(0.01)
        seen = _collect(api, seen, asked, took)
    return sorted(took)


def _collect(api: FakeBotApi, seen: int, asked: dict[int, float], took: list[float]) -> int:
    for call in api.calls[seen:]:
        if call.method == "sendMessage" and (at := asked.pop(int(str(call.params["chat_id"])), None)) is not None:
            took.append(call.at - at)
    return len(api.calls)


def percentile(values: list[float], part: float) -> float:
    """The value that so large a part of the sorted ones does not exceed."""
    return values[min(len(values) - 1, int(part * len(values)))]


async def main() -> None:
    """Print the ratios."""
    numbers = [float(x) for x in arguments()]
    messages, seconds = (60.0, 2.0) if QUICK else (numbers + [2000.0, 15.0][len(numbers):])[:2]
    worst = []
    with TemporaryDirectory() as folder:
        ways = [(False, 0.0)] if QUICK else itertools.product((False, True), (0.0, 0.05))
        for n, (hook, latency) in enumerate(ways):
            found = {}
            for whose in ("theirs", "ours"):
                found[whose] = await measured(
                    whose, hook, latency, int(messages), seconds, Path(folder) / f"{whose}{n}")
            ours, echo = found["ours"], found["theirs"]
            x, y = ours.took, echo.took
            p, q = percentile(x, 0.99), percentile(y, 0.99)
            worst.append(ours.rate / echo.rate)
            print(f"{'webhook' if hook else 'polling'}, {latency * 1000:.0f} ms: ours {ours.rate:.0f}/s, "
                  f"echo {echo.rate:.0f}/s, ratio {ours.rate / echo.rate:.2f} (processor: ours {ours.bot}, "
                  f"server {ours.server}; echo {echo.bot}, server {echo.server} ms); at 30/s "
                  f"p50 {percentile(x, .5) * 1e3:.1f} against {percentile(y, .5) * 1e3:.1f} ms, "
                  f"p99 {p * 1e3:.1f} against {q * 1e3:.1f} ms, ratio {p / q:.2f}"
                  + (f"; the echo lost {echo.lost}" if echo.lost else ""), flush=True)
    print(f"ratio {min(worst):.2f}")


if __name__ == "__main__":
    asyncio.run(main())
