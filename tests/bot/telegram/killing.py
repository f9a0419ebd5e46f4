"""Workers that are started and killed, and what became of the messages: for the tests and the soak."""

from __future__ import annotations

import asyncio
import os
import sys
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

from botapi import Chat, FakeBotApi

WORKER = Path(__file__).with_name("worker.py")


async def start(api: FakeBotApi, url: str, port: int = 0, hook: str = "",
                rate: float = 0) -> asyncio.subprocess.Process:
    """A worker that is ready."""
    named = {"PTB_TIMEDELTA": "true", "WORKER_RATE": str(rate), **({"WORKER_HOOK": hook} if hook else {})}
    process = await asyncio.create_subprocess_exec(
        sys.executable, str(WORKER), api.token, api.base_url, url, str(port), env={**os.environ, **named},
        stdout=asyncio.subprocess.PIPE)
    assert process.stdout is not None
    if await asyncio.wait_for(process.stdout.readline(), 60) != b"ready\n":
        raise RuntimeError(f"the worker ended with {await process.wait()}")
    return process


async def kill(process: asyncio.subprocess.Process) -> None:
    """Kill a worker, as a power cut would but for the disk."""
    if process.returncode is None:
        process.kill()
    await process.wait()


@dataclass
class Tally:
    """What the chats got: numbers of messages that were never answered, applied twice, answered again, out of order."""

    lost: int = 0
    twice: int = 0
    repeated: int = 0
    disordered: int = 0
    said: dict[int, list[str]] = field(default_factory=dict)


def tally(chats: list[Chat], sent: dict[int, int]) -> Tally:
    """Compare what each chat was answered with how many messages it sent."""
    found = Tally()
    for chat in chats:
        numbers = [int(r.text.split("\n")[0]) for r in chat.replies]
        heard = [r.text.split("\n")[1] for r in chat.replies]
        first: list[int] = []
        for n in numbers:
            if n not in first:
                first.append(n)
        found.lost += max(0, sent[chat.id] - len(set(heard)))
        found.twice += max(0, max(numbers, default=0) - sent[chat.id])
        found.repeated += sum(c - 1 for c in Counter(heard).values())
        found.disordered += first != sorted(first)
        found.said[chat.id] = heard
    return found
