"""Many people at once against Telegram's limits, then a group that asks for more than its minute allows.

    python tests/bot/telegram/flood.py [PEOPLE] [SECONDS]

Prints how many of the people were not answered and how often the server had to refuse, then how long private chats
wait while the group is over its limit.  Exit status 1 if anybody was not answered.
"""

from __future__ import annotations

import asyncio
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from bot.telegram import killing
from botapi import FakeBotApi

RATE = 30
OVER = 25
"""Questions of the group at once: five more than it may be answered in a minute."""


async def flood(people: int, folder: Path) -> int:
    """Everybody asks at once; returns how many were not answered."""
    async with FakeBotApi("4242:loopback-only") as api:
        chats = [api.private(api.user(f"F{n}")) for n in range(people)]
        worker = await killing.start(api, f"sqlite:///{folder / 'flood.sqlite3'}", rate=RATE)
        api.faults.limit()
        began = time.monotonic()
        for chat in chats:
            await chat.say("message 1")
        with suppress(TimeoutError):
            await api.wait_until(lambda: all(c.replies for c in chats), "answers", 30 + people / 10)
        seconds, lost = time.monotonic() - began, sum(not c.replies for c in chats)
        await killing.kill(worker)
    print(f"{people} people at once: {lost} lost, {api.faults.floods} refused, {seconds:.1f} s")
    return lost


async def crowd(seconds: int, folder: Path) -> None:
    """A group over its limit, and beside it a private question a second."""
    async with FakeBotApi("4242:loopback-only") as api:
        crew = api.group("Crew", api.user("Mara"))
        chats = [api.private(api.user(f"P{n}")) for n in range(10)]
        worker = await killing.start(api, f"sqlite:///{folder / 'crowd.sqlite3'}", rate=RATE)
        api.faults.limit()
        for n in range(OVER):
            await crew.say(f"@loopback_bot message {n}")
        took = []
        for n in range(seconds):
            chat, began = chats[n % len(chats)], time.monotonic()
            await chat.say(f"message {n}")
            await chat.next_reply(60)
            took.append(time.monotonic() - began)
            await asyncio.sleep(max(0.0, 1 - took[-1]))
        answered = len(crew.replies)
        await killing.kill(worker)
    took.sort()
    print(f"a group with {OVER} questions ({answered} answered after {seconds} s), {seconds} private ones beside it: "
          f"p50 {took[len(took) // 2] * 1e3:.0f} ms, p99 {took[int(len(took) * 0.99)] * 1e3:.0f} ms, "
          f"{api.faults.floods} refused")


def main() -> int:
    """Run it by the command line."""
    numbers = [int(a) for a in sys.argv[1:]]
    people, seconds = (numbers + [300, 45][len(numbers):])[:2]
    with tempfile.TemporaryDirectory() as folder:
        lost = asyncio.run(flood(people, Path(folder)))
        asyncio.run(crowd(seconds, Path(folder)))
    return int(bool(lost))


if __name__ == "__main__":
    sys.exit(main())
