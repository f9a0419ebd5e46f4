"""The command ``stillroom``: its statuses and sentences in-process, its manners as a process."""

from __future__ import annotations

import json
import os
import pty
import select
import signal
import subprocess
import sys
import termios
import time
from pathlib import Path

import pytest
from stillroom_bot import cli
from stillroom_bot.reply import Reply
from stillroom_bot.state import State
from stillroom_bot.terminal.catalogue import catalogue

PASTING = b"\x1b[?2004h"
"""What a line editor sends when it begins to read: bracketed paste, as xterm has it."""

HEAVY = ("sympy", "telegram", "sqlalchemy", "prompt_toolkit", "pint", "httpx", "asyncio")


class Echo:
    """Answers with the question; ``^C`` is interrupted."""

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        if text == "^C":
            raise KeyboardInterrupt
        return Reply("asks" if text.endswith("?") else "answered", text, text, ("below ½",)), state or State()


@pytest.fixture(autouse=True)
def places(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Nothing of the person who runs the tests is read or written."""
    for name in ("STILLROOM_TELEGRAM_TOKEN", "STILLROOM_TELEGRAM_API", "STILLROOM_DATABASE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("STILLROOM_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("STILLROOM_CONFIG", str(tmp_path / "config"))
    monkeypatch.setenv("STILLROOM_CACHE", str(tmp_path.parent / "cache"))


@pytest.mark.parametrize(("argv", "status", "out"), [
    (["ask", "5", "ml", "of", "it"], 0, "5 ml of it"),
    (["ask", "5 ml of it?"], 1, "5 ml of it?"),
    (["ask", "--json", "5", "ml"], 0, '"question": "5 ml"'),
    (["ask", "5", "ml", "--json"], 0, '"question": "5 ml"'),
    (["ask", "5", "--json", "ml", "now"], 0, '"question": "5 ml now"'),
    (["ask", "chill", "to", "-18", "C"], 0, "chill to -18 C"),
    (["ask", "--", "--json", "is", "no", "drink"], 0, "--json is no drink"),
    (["ask", "20%", "in", "%s"], 0, "20% in %s"),
    (["--version"], 0, "stillroom 0."),
    (["--help"], 0, "usage: stillroom"),
    (["ask", "--help"], 0, "--jsonl"),
])
def test_what_is_asked_is_answered(argv: list[str], status: int, out: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(argv, Echo) == status
    printed = capsys.readouterr()
    assert out in printed.out and printed.err == ""


@pytest.mark.parametrize(("argv", "sentence"), [
    (["ask"], "ask needs a question"),
    (["ask", " ", ""], "ask needs a question"),
    (["ask", "--jsonl", "5 ml"], "takes nothing else"),
    (["ask", "--jsonl", "--why"], "takes nothing else"),
    (["ask", "5 ml", "--jsom"], "--jsom means nothing here"),
    (["chat", "hello"], "hello means nothing here"),
    (["pour"], "invalid choice: 'pour'"),
    (["telegram"], "STILLROOM_TELEGRAM_TOKEN"),
    (["telegram", "4242:token"], "means nothing here"),
])
def test_a_wrong_command_line_is_a_sentence_and_64(
        argv: list[str], sentence: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(argv, Echo) == 64
    printed = capsys.readouterr()
    assert sentence in printed.err and printed.out == "" and "Traceback" not in printed.err


def test_no_command_is_help_and_64(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main([], Echo) == 64
    assert "usage: stillroom" in capsys.readouterr().out


def test_an_interrupt_is_quiet(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["ask", "^C"], Echo) == 130
    assert capsys.readouterr() == ("", "")


@pytest.mark.parametrize("database", ["sqlite:////proc/nowhere/x.sqlite3", "not a url"])
def test_a_database_that_cannot_be_used_is_a_sentence_and_69(
        database: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setenv("STILLROOM_DATABASE", database)
    assert cli.main(["chat"], Echo) == 69
    assert capsys.readouterr().err.startswith("stillroom: The database ")


def test_a_data_folder_that_is_a_file_is_a_sentence_and_69(
        monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("STILLROOM_DATA", str(tmp_path / "file"))
    assert cli.main(["chat"], Echo) == 69
    assert "cannot be used" in capsys.readouterr().err


def test_a_policy_that_cannot_be_read_is_a_sentence_and_69(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "stillroom.toml").write_text("of = ['bar']")
    assert cli.main(["plugins"]) == 69
    assert capsys.readouterr().err == (
        f"stillroom: {tmp_path / 'config' / 'stillroom.toml'} cannot be used: "
        "of means nothing here; off, prefer and pin do.\n")


def test_a_file_in_the_plugins_folder_is_asked_and_a_policy_switches_it_off(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "config" / "plugins"
    folder.mkdir(parents=True)
    (folder / "feltbar.py").write_text(
        "from stillroom import Calculator, var\n"
        "felt = Calculator('felt', 'Wool for felt', var('wool', 'gram'), var('felt', 'centimeter'),\n"
        "    var('weight', 'gram / centimeter', default=3), equations=['wool = weight * felt'])\n")
    assert cli.main(["ask", "how much wool for 40 cm of felt?"]) == 0
    assert capsys.readouterr().out.startswith("wool: 120 g")
    (tmp_path / "config" / "stillroom.toml").write_text("off = ['feltbar', 'nobody']")
    assert cli.main(["plugins"]) == 1
    out = capsys.readouterr().out
    assert "\nfeltbar: off\n" in out and "wrong in the policy: off names 'nobody', which is not installed.\n" in out
    assert cli.main(["ask", "how much wool for 40 cm of felt?"]) == 2


def test_calculators_and_plugins_by_the_installed_ones(capsys: pytest.CaptureFixture[str]) -> None:
    status = cli.main(["plugins", "--json"])
    rows = json.loads(capsys.readouterr().out)
    assert status == (1 if any(r["errors"] for r in rows) else 0)
    assert [r["name"] for r in rows] and all(list(r)[:2] == ["name", "version"] for r in rows)
    assert cli.main(["calculators", "--json"]) == 0
    names = [row["name"] for row in json.loads(capsys.readouterr().out)]
    assert sorted(names) == sorted(id for r in rows for id in r["calculators"])
    whole = cli.kernel()
    for name in names:
        status, text = catalogue(whole, name)
        assert (status, text.partition(":")[0]) == (0, name)


def start(*argv: str, **more) -> subprocess.Popen[bytes]:
    """The command as a process that hears Ctrl-C, even where the tests run in the background of a shell."""
    return subprocess.Popen([sys.executable, "-m", "stillroom_bot.cli", *argv],
                            preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL), **more)


def test_questions_by_the_line_as_a_process() -> None:
    process = start("ask", "--jsonl", stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert process.stdin and process.stdout
    for line in (b"what is 5 fl oz in ml?\n", b"\xff\n", b"\n"):
        process.stdin.write(line)
        process.stdin.flush()
        row = json.loads(process.stdout.readline())
        assert row["status"] in ("answered", "asks", "declined") and row["text"]
    assert process.communicate() == (b"", b"") and process.returncode == 0


def test_nobody_reading_is_no_error() -> None:
    process = start("ask", "--jsonl", stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert process.stdin and process.stdout and process.stderr
    process.stdout.close()
    process.stdin.write(b"5 ml\n" * 20)
    process.stdin.close()
    assert (process.stderr.read(), process.wait(20)) == (b"", 141)
    process.stderr.close()


def test_an_interrupted_process_is_quiet() -> None:
    process = start("ask", "--jsonl", stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert process.stdin and process.stdout
    process.stdin.write(b"5 ml\n")
    process.stdin.flush()
    process.stdout.readline()
    process.send_signal(signal.SIGINT)
    assert process.communicate(timeout=20) == (b"", b"") and process.returncode == 130


def test_a_warm_question_imports_nothing_heavy() -> None:
    question = ["ask", "how much salt for 300 ml of 20% saline?"]
    script = (f"import sys; from stillroom_bot import cli; status = cli.main({question!r});"
              f"print(status, [m for m in {HEAVY!r} if m in sys.modules])")
    first, second = (subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True).stdout
                     for _ in range(2))
    assert first.splitlines()[:-1] == second.splitlines()[:-1]
    assert second.splitlines()[-1] == "0 []"


def test_a_terminal_has_line_editing_and_a_history(tmp_path: Path) -> None:
    ours, theirs = pty.openpty()
    termios.tcsetwinsize(theirs, (24, 80))
    process = start("chat", stdin=theirs, stdout=theirs, stderr=theirs, env=os.environ | {"TERM": "xterm"})
    os.close(theirs)
    try:
        _until(ours, PASTING)
        os.write(ours, b"zzqqzXX\x7f\x7f hello\r")
        _until(ours, PASTING)
        os.write(ours, b"\x04")
        _until(ours, None)
        assert process.wait(10) == 0
    finally:
        process.kill()
        process.wait()
        os.close(ours)
    history = tmp_path / "data" / "history"
    assert "+zzqqz hello" in history.read_text() and history.stat().st_mode & 0o077 == 0


def _until(terminal: int, seen: bytes | None, seconds: float = 15.0) -> bytes:
    """Read until something is seen, or (None) until the other end closes; answers the cursor's query."""
    got, end = b"", time.monotonic() + seconds
    while time.monotonic() < end:
        if not select.select([terminal], [], [], 0.05)[0]:
            continue
        try:
            piece = os.read(terminal, 4096)
        except OSError:
            piece = b""
        if not piece:
            return got
        got += piece
        if b"\x1b[6n" in piece:
            os.write(terminal, b"\x1b[1;1R")
        if seen is not None and seen in got:
            return got
    raise TimeoutError(f"{seen!r} did not come in {seconds} s; there was {got!r}")
