"""What an operator has in hand: `stillroom doctor`, counts, readiness, the unit and the container file."""

from __future__ import annotations

import asyncio
import configparser
import re
import shlex
import shutil
import subprocess
import time
import tomllib
from pathlib import Path
from typing import Any

import httpx
import pytest
from bot.telegram.test_delivery import free_port
from bot.telegram.test_security import hook, update  # noqa: F401
from bot.telegram.test_serving import serve
from botapi import FakeBotApi
from sqlalchemy import text
from stillroom_bot.reply import Reply
from stillroom_bot.store import Store
from stillroom_bot.telegram.config import OPTIONS, PREFIX
from stillroom_bot.terminal.doctor import doctor

ROOT = Path(__file__).parents[3]
TOLD = (ROOT / "DEVELOPERS.md").read_text("utf-8")
FENCED = {kind: re.search(rf"^```{kind}\n(.*?)^```", TOLD, re.S | re.M) for kind in ("ini", "dockerfile")}
ELSEWHERE = {"STILLROOM_DATABASE", "STILLROOM_DATA", "STILLROOM_CACHE"}
KNOWN = {PREFIX + option.name for option in OPTIONS} | ELSEWHERE
TOKEN = "4242:a-very-secret-half"


class Kernel:
    """Stands in for the plugins: one that loads, and one that does not where ``broken``."""

    def __init__(self, broken: bool = False):
        errors = ["bar.salt: no such unit"] if broken else []
        self.plugins = {"bar": type("Plugin", (), {
            "name": "bar", "errors": errors, "to_json": lambda self: {"calculators": [1, 2]}})()}


async def examined(monkeypatch: pytest.MonkeyPatch, folder: Path, broken: bool = False,
                   **named: str) -> tuple[int, str]:
    for name in KNOWN:
        monkeypatch.delenv(name, raising=False)
    for name, value in {"DATA": str(folder), **named}.items():
        monkeypatch.setenv(PREFIX + name, value)
    return await asyncio.to_thread(doctor, lambda: Kernel(broken))  # type: ignore[arg-type, return-value]


async def test_the_doctor_finds_a_sound_house_sound(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with FakeBotApi(TOKEN) as api:
        status, said = await examined(monkeypatch, tmp_path, TELEGRAM_TOKEN=api.token, TELEGRAM_API=api.base_url)
    assert status == 0
    lines = [line.split(None, 2) for line in said.splitlines()]
    assert {(what, how) for how, what, _ in lines} == {
        (what, "ok") for what in ("store", "plugin", "settings", "token", "webhook", "clock")}
    assert "a-very-secret-half" not in said and "@loopback_bot" in said


@pytest.mark.parametrize(("named", "what", "sentence"), [
    ({"TELEGRAM_TOKEN": "4242:another-secret"}, "wrong token", "ask BotFather"),
    ({"TELEGRAM_TOKEN": "hush"}, "wrong settings", "STILLROOM_TELEGRAM_TOKEN has to be"),
    ({"TIME_LIMIT": "a while"}, "wrong settings", "STILLROOM_TIME_LIMIT has to be"),
    ({"DATABASE": "sqlite:////proc/nowhere/x.sqlite3"}, "wrong store", "STILLROOM_DATABASE"),
    ({"TELEGRAM_TOKEN": "4242:a-very-secret-half", "TELEGRAM_API": "http://127.0.0.1:9/bot"}, "wrong telegram",
     "look at the network"),
])
async def test_the_doctor_says_what_is_wrong_and_what_to_do(
        tmp_path: Path, monkeypatch: pytest.MonkeyPatch, named: dict[str, str], what: str, sentence: str) -> None:
    async with FakeBotApi(TOKEN) as api:
        status, said = await examined(monkeypatch, tmp_path, **{"TELEGRAM_API": api.base_url, **named})
    found = [line for line in said.splitlines() if line.split()[:2] == what.split()]
    assert status == 1 and len(found) == 1 and sentence in found[0], said
    assert not any(secret in said for secret in ("another-secret", "a-very-secret-half", "hush", "a while"))


async def test_the_doctor_looks_at_plugins_privacy_and_webhook(
        tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with FakeBotApi(privacy=False) as api:
        how = {"TELEGRAM_TOKEN": api.token, "TELEGRAM_API": api.base_url, "TELEGRAM_SECRET": "s" * 20,
               "TELEGRAM_WEBHOOK": "https://bar.example/hook"}
        status, said = await examined(monkeypatch, tmp_path, broken=True, **how)
    assert status == 1 and "no such unit" in said
    assert "privacy mode is off" in said and "Telegram does not know it yet" in said


async def test_counts_are_shown_where_they_are_asked_for_and_hold_no_texts(
        tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    port = free_port()
    async with FakeBotApi("4242:only-for-this-test") as api:
        process = await serve(tmp_path, api.base_url, api.token, STILLROOM_METRICS=f"127.0.0.1:{port}",
                              STILLROOM_LOG="json")
        try:
            chat = api.private(api.user("Mara"))
            await chat.say("250 ml of hushhush at 20 %")
            await chat.next_reply(30)
            await api.drained()
            async with httpx.AsyncClient() as client:
                shown = (await client.get(f"http://127.0.0.1:{port}/metrics")).text
        finally:
            process.terminate()
            _, err = await asyncio.wait_for(process.communicate(), 20)
    counts = dict(line.rsplit(" ", 1) for line in shown.splitlines() if line.startswith("stillroom"))
    assert float(counts["stillroom_updates_total"]) == 1 and float(counts["stillroom_workers"]) == 1
    assert sum(float(v) for k, v in counts.items() if k.startswith("stillroom_replies_total")) == 1
    named = [line.rpartition(" ")[0] for line in shown.splitlines() if not line.startswith("#")]
    assert "hushhush" not in shown and not any(str(chat.id) in name for name in named)
    assert all(line.startswith('{"time": ') for line in err.decode().splitlines())


async def test_typing_is_shown_for_what_takes_a_while_only(api: FakeBotApi, start: Any, parrot: Any) -> None:
    class Slow(parrot):  # type: ignore[misc]
        def answer(self, text: str, state: Any = None) -> tuple[Reply, Any]:
            time.sleep(0.8 if "slow" in text else 0)
            return super().answer(text, state)  # type: ignore[no-any-return]

    chat = api.private(api.user("Mara"))
    async with start(Slow()):
        await chat.say("1 ml")
        await chat.next_reply()
        assert not api.calls_of("sendChatAction")
        await chat.say("slow 2 ml")
        await chat.next_reply()
        shown = api.calls_of("sendChatAction")
    assert [call.params["chat_id"] for call in shown] == [chat.id]
    assert shown[0].at < api.calls_of("sendMessage")[-1].at


async def away(store: Store, gone: bool) -> None:
    """Take the inbox away, or bring it back: what is asked of the database fails in between."""
    old, new = ("inbox", "elsewhere") if gone else ("elsewhere", "inbox")
    await store.database.write(lambda c: c.execute(text(f"ALTER TABLE {old} RENAME TO {new}")))


async def test_while_the_database_is_away_telegram_keeps_what_was_asked(
        api: FakeBotApi, start: Any, store: Store) -> None:
    chat = api.private(api.user("Mara"))
    async with start():
        await chat.say("1 ml")
        await chat.next_reply()
        await away(store, True)
        for n in (2, 3, 4):
            await chat.say(f"{n} ml")
        await chat.silence(0.5)
        await away(store, False)
        heard = [(await chat.next_reply(10)).text.split("\n")[0] for _ in range(3)]
    assert heard == ["2 ml", "3 ml", "4 ml"]
    await chat.silence()


async def test_a_webhook_hands_back_while_the_database_is_away(
        api: FakeBotApi, hook: Any, store: Store) -> None:  # noqa: F811
    from bot.telegram.test_security import HEADER, SECRET

    client, _ = hook
    chat = api.private(api.user("Mara"))
    body, headers = update(7, chat.id, "5 ml"), {HEADER: SECRET}
    assert (await client.get("/ready")).json()["ready"]
    await away(store, True)
    assert (await client.get("/ready")).status_code == 503 and (await client.get("/health")).status_code == 200
    handed_back = await client.post("/hook", json=body, headers=headers)
    assert handed_back.status_code == 503 and int(handed_back.headers["Retry-After"]) > 0
    await away(store, False)
    assert (await client.get("/ready")).status_code == 200
    assert (await client.post("/hook", json=body, headers=headers)).status_code == 200
    assert [r.text.split("\n")[0] for r in chat.replies] == ["5 ml"]


async def test_workers_share_what_may_be_sent(hook: Any, store: Store) -> None:  # noqa: F811
    _, bot = hook
    assert bot.limiter.share == 1
    await store.workers.alive(bot.app.bot.id, "another")
    await bot.share()
    assert bot.limiter.share == 0.5
    await store.workers.leave(bot.app.bot.id, "another")
    await bot.share()
    assert bot.limiter.share == 1


@pytest.mark.parametrize("kind", FENCED)
def test_what_is_deployed_names_variables_that_are_known(kind: str) -> None:
    found = FENCED[kind]
    assert found is not None
    names = set(re.findall(r"STILLROOM_[A-Z_]+", found[1]))
    assert names and names <= KNOWN


def test_the_table_of_variables_is_that_of_the_configuration() -> None:
    rows = [line for line in TOLD.splitlines() if line.startswith("| `STILLROOM_")]
    assert {name for row in rows for name in re.findall(r"`(STILLROOM_[A-Z_]+)`", row.split("|")[1])} == KNOWN
    for option in OPTIONS:
        assert f"| `{PREFIX}{option.name}` | {option.line} |" in rows


def test_what_is_deployed_starts_a_command_that_there_is(tmp_path: Path) -> None:
    unit = configparser.ConfigParser(strict=False, interpolation=None)
    unit.optionxform = str  # type: ignore[assignment, method-assign]
    unit.read_string(FENCED["ini"][1])  # type: ignore[index]
    container = FENCED["dockerfile"][1]  # type: ignore[index]
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    started = [shlex.split(unit["Service"]["ExecStart"]), re.findall(r'"([^"]+)"', container.split("CMD ")[1])]
    for program, *arguments in started:
        assert Path(program).name in project["scripts"] and arguments == ["telegram"]
    assert set(re.findall(r"/src\[(\w+)\]", container)) <= set(project["optional-dependencies"])
    steps = [line.split()[0] for line in container.splitlines()]
    assert steps.index("USER") < steps.index("CMD") and ":" in container.splitlines()[0]


@pytest.mark.skipif(shutil.which("systemd-analyze") is None, reason="no systemd on this machine")
def test_systemd_understands_the_unit(tmp_path: Path) -> None:
    unit = tmp_path / "stillroom.service"
    unit.write_text(FENCED["ini"][1].replace("/opt/stillroom/bin/stillroom", "/bin/true"))  # type: ignore[index]
    done = subprocess.run(["systemd-analyze", "verify", str(unit)], capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stderr) == (0, "")
