"""A bot at work against the loopback server, with a stand-in conversation whose answers are plain to see."""

from __future__ import annotations

import io
import logging
import re
import threading
from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from pathlib import Path
from typing import Any

import certifi
import pytest
from botapi import FakeBotApi
from stillroom_bot.reply import Reply
from stillroom_bot.state import State
from stillroom_bot.store import Store, open_store
from stillroom_bot.telegram.application import App, polling
from stillroom_bot.telegram.config import Setup
from stillroom_bot.telegram.logging import redacted


class Parrot:
    """Says what it heard and what it remembered; asks back about syrup; trips over "boom"."""

    def __init__(self) -> None:
        self.threads: set[str] = set()

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        state = state or State()
        self.threads.add(threading.current_thread().name)
        if "boom" in text:
            raise ValueError(f"cannot read {text!r}")
        if found := re.search(r"(\d+) ml", text):
            return self._answered(text, int(found[1]), state)
        if text == "double" and state.last:
            return self._answered(text, 2 * state.last["ml"], state)
        if found := re.search(r"dash is ([\d.]+)", text):
            return Reply("noted", text, "Noted."), state.but(settings={**state.settings, "dash": float(found[1])})
        if text == "dash?":
            return Reply("answered", text, f"{state.settings.get('dash', 0.8)} ml"), state
        if "syrup" in text:
            open_ = {"about": text}
            return Reply("asks", text, "Which syrup?", ("<1:1> & 2:1",), ("1:1", "2:1")), state.but(open=open_)
        if text in ("1:1", "2:1") and state.open:
            return self._answered(f"{state.open['about']} {text}", 100 * int(text[0]), state.but(open=None))
        if found := re.fullmatch(r"lines (\d+) of (\d+)", text):
            body = tuple(f"{n} " + "x" * (int(found[2]) - len(str(n)) - 1) for n in range(int(found[1])))
            return Reply("answered", text, "Long", body), state
        return Reply("declined", text, "I cannot read that.", (text,)), state

    def why(self, text: str, state: State | None = None) -> str:
        return f"Working of {text}\nfrom {(state or State()).last}"

    @staticmethod
    def _answered(text: str, ml: int, state: State) -> tuple[Reply, State]:
        return Reply("answered", text, f"{ml} ml", (f"heard: {text}",)), state.but(last={"ml": ml})


Start = Callable[..., AbstractAsyncContextManager[App]]


@pytest.fixture(scope="session")
def one_authority(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file with a single certificate: the server speaks plain HTTP, and reading them all takes a while."""
    first = Path(certifi.where()).read_text().partition("-----END CERTIFICATE-----")
    file = tmp_path_factory.mktemp("authority") / "one.pem"
    file.write_text(f"{first[0]}{first[1]}\n")
    return file


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch, one_authority: Path) -> None:
    """Clients are made quickly, and the library warns of nothing that has been seen to."""
    monkeypatch.setenv("SSL_CERT_FILE", str(one_authority))
    monkeypatch.setenv("PTB_TIMEDELTA", "true")


@pytest.fixture
async def api() -> AsyncIterator[FakeBotApi]:
    """A loopback server whose token must turn up in no log, at any level, by the end of the test."""
    written = io.StringIO()
    handler, root = logging.StreamHandler(written), logging.getLogger()
    handler.setFormatter(logging.Formatter("%(name)s %(levelname)s %(message)s"))
    level = root.level
    root.addHandler(handler)
    root.setLevel(logging.DEBUG)
    async with FakeBotApi("4242:a-very-secret-half") as server:
        with redacted(server.token):
            for name in ("httpx", "httpcore", "telegram"):
                logging.getLogger(name).setLevel(logging.DEBUG)
            yield server
    root.removeHandler(handler)
    root.setLevel(level)
    log = written.getvalue()
    assert "telegram.ext.ExtBot DEBUG" in log, "the log is not the whole log"
    assert "a-very-secret-half" not in log


@pytest.fixture
def url(tmp_path: Path) -> str:
    """A database that is a file of this test."""
    return f"sqlite:///{tmp_path / 'bot.sqlite3'}"


@pytest.fixture
async def store(url: str) -> AsyncIterator[Store]:
    """A second pair of eyes on the bot's database."""
    async with open_store(url) as opened:
        yield opened


@pytest.fixture
def start(api: FakeBotApi, url: str) -> Start:
    """Start the bot: ``async with start():``."""

    @asynccontextmanager
    async def started(talker: Parrot | None = None, **how: Any) -> AsyncIterator[App]:
        setup = Setup(api.token, api.base_url, **{"rate": 0.0, **how})
        async with open_store(url) as opened, polling(setup, talker or Parrot(), opened, timeout=5) as app:
            yield app

    return started


@pytest.fixture
async def bot(start: Start) -> AsyncIterator[App]:
    """The bot at work."""
    async with start() as app:
        yield app


@pytest.fixture
def parrot() -> type[Parrot]:
    """The stand-in, for a test that needs one of its own."""
    return Parrot
