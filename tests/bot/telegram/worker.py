"""A bot as a process of its own, for tests that kill it: `python worker.py API DATABASE [WEBHOOK_PORT]`.

Its conversation counts the messages of a chat in the chat's state, so that a message that was lost, or
applied twice, shows in the next number.
"""

from __future__ import annotations

import asyncio
import logging
import os
import signal
import sys
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress

from stillroom_bot.reckoning import InThread
from stillroom_bot.reply import Reply
from stillroom_bot.state import State
from stillroom_bot.store import inbox, open_store
from stillroom_bot.telegram.application import polling
from stillroom_bot.telegram.config import Setup
from stillroom_bot.telegram.webhook import listening

SECRET = "quite-secret-enough"


class Counter:
    """Answers with how many messages the chat has had."""

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        state = state or State()
        count = int((state.last or {}).get("n", 0)) + 1
        return Reply("answered", text, f"{count}", (text,)), state.but(last={"n": count})


async def main(token: str, api: str, url: str, port: int) -> None:
    stop = asyncio.Event()
    asyncio.get_running_loop().add_signal_handler(signal.SIGTERM, stop.set)
    hook = f"http://127.0.0.1:{port}/hook" if port else ""
    address = os.environ.get("WORKER_HOOK", hook)
    setup = Setup(token, api, address, SECRET, ("127.0.0.1", port or 1), user_rate=0,
                  rate=float(os.environ.get("WORKER_RATE", "0")))
    async with open_store(url) as store:
        serving = listening if port else polling
        with ThreadPoolExecutor(1) as pool:
            async with serving(setup, InThread(Counter(), pool), store):
                print("ready", flush=True)
                await stop.wait()


if __name__ == "__main__":
    logging.basicConfig(level=logging.WARNING)
    inbox.LEASE_SECONDS = 3.0
    os.environ["PTB_TIMEDELTA"] = "true"
    with suppress(KeyboardInterrupt):
        asyncio.run(main(sys.argv[1], sys.argv[2], sys.argv[3], int((sys.argv[4:] or ["0"])[0])))
