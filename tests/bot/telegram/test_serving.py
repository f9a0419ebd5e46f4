"""`stillroom telegram` as a process: it serves, it stops when told to, and its log is clean."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
from pathlib import Path

import pytest
from botapi import FakeBotApi

SECRET = "only-for-this-test"


async def serve(tmp_path: Path, api_url: str, token: str | None, **more: str) -> asyncio.subprocess.Process:
    named = {"STILLROOM_DATA": str(tmp_path), "STILLROOM_CACHE": str(tmp_path.parent / "cache"),
             "STILLROOM_TELEGRAM_API": api_url, **more}
    env = {k: v for k, v in os.environ.items() if not k.startswith("STILLROOM_")} | named
    if token:
        env["STILLROOM_TELEGRAM_TOKEN"] = token
    return await asyncio.create_subprocess_exec(
        sys.executable, "-m", "stillroom_bot.cli", "telegram", env=env,
        stdout=asyncio.subprocess.PIPE, stderr=asyncio.subprocess.PIPE)


@pytest.mark.parametrize("how", [signal.SIGTERM, signal.SIGINT])
async def test_it_serves_until_it_is_told_to_stop(tmp_path: Path, how: signal.Signals) -> None:
    async with FakeBotApi(f"4242:{SECRET}") as api:
        process = await serve(tmp_path, api.base_url, api.token)
        try:
            chat = api.private(api.user("Mara"))
            said = await chat.say("hush hush, how much is that?")
            reply = await chat.next_reply(20)
            assert reply.answers == said.message_id and len(reply.marked("bold")) == 1
            process.send_signal(how)
            out, err = await asyncio.wait_for(process.communicate(), 10)
        finally:
            if process.returncode is None:
                process.kill()
                await process.wait()
    log = err.decode()
    assert (process.returncode, out) == (0, b"")
    assert "listening" in log and "stopping" in log
    assert SECRET not in log and "hush" not in log and "Traceback" not in log
    assert (tmp_path / "stillroom.sqlite3").stat().st_mode & 0o077 == 0


@pytest.mark.parametrize(("token", "status", "sentence"), [
    (None, 64, "STILLROOM_TELEGRAM_TOKEN"),
    ("4242:another-secret", 69, "Telegram does not accept the token."),
])
async def test_without_a_good_token_it_says_so_in_a_sentence(
        tmp_path: Path, token: str | None, status: int, sentence: str) -> None:
    async with FakeBotApi(f"4242:{SECRET}") as api:
        process = await serve(tmp_path, api.base_url, token)
        _, err = await asyncio.wait_for(process.communicate(), 20)
    log = err.decode()
    assert process.returncode == status and sentence in log
    assert "another-secret" not in log and "Traceback" not in log
