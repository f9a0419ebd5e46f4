"""Calls to Telegram by our client, against the framework's own: 64 at a time to a server on the loopback address.

    python tests/bench/transport.py

The ratio is of messages a second, ours to theirs: larger is better.
"""

from __future__ import annotations

import asyncio
import sys
import time
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[1]))

from botapi import FakeBotApi
from stillroom_bot.telegram.client import Client
from telegram import Bot
from telegram.request import BaseRequest, HTTPXRequest
from timing import QUICK

AT_ONCE = 64


async def rate(api: FakeBotApi, chat: int, request: BaseRequest, calls: int) -> float:
    """Messages a second."""
    places = asyncio.Semaphore(AT_ONCE)
    async with Bot(api.token, api.base_url, request=request) as bot:
        async def one() -> None:
            async with places:
                await bot.send_message(chat, "40 g")

        began = time.perf_counter()
        await asyncio.gather(*(one() for _ in range(calls)))
        return calls / (time.perf_counter() - began)


async def main() -> None:
    calls, rounds = (100, 1) if QUICK else (600, 3)
    async with FakeBotApi() as api:
        chat = api.private(api.user("Mara")).id
        pairs = [(await rate(api, chat, Client(), calls), await rate(api, chat, HTTPXRequest(256), calls))
                 for _ in range(rounds)]
    print(f"ours {median(a for a, _ in pairs):.0f}/s, the framework's own {median(b for _, b in pairs):.0f}/s")
    print(f"ratio {median(a / b for a, b in pairs):.2f}")


asyncio.run(main())
