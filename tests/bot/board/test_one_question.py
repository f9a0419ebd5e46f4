"""``stillroom ask`` knows the terminal chat's book, changes nothing of it, and fetches no database for nothing."""

from __future__ import annotations

import asyncio
import json
import os
import subprocess
import sys
from collections.abc import Awaitable, Callable
from datetime import UTC, datetime
from io import BytesIO, TextIOWrapper
from pathlib import Path
from typing import TypeVar

import pytest
from stillroom_bot.board.schema import book_json
from stillroom_bot.cli import main
from stillroom_bot.store import Store, open_store

from .conftest import Chat

T = TypeVar("T")
ABSENT = ("sqlalchemy", "telegram", "sqlite3", "sympy")


@pytest.fixture
def kept(bar: Chat, url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """A database with the bar's book in the terminal's chat, and its URL where the command looks for it."""
    monkeypatch.setenv("STILLROOM_DATABASE", url)
    monkeypatch.setenv("STILLROOM_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("STILLROOM_CACHE", str(tmp_path.parent / "cache"))
    file = tmp_path / "book.json"
    file.write_text(json.dumps(book_json(bar.state.book)))
    assert main(["book", "import", str(file)]) == 0
    return url


def test_a_kept_spec_is_known(kept: str, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert main(["ask", "forty of the Marsh Light"]) == 0
    assert "gin: 1800 ml" in capsys.readouterr().out
    assert main(["ask", "specs"]) == 0
    assert "Kept here: 2 specs" in capsys.readouterr().out


def test_questions_by_the_line_know_the_same_book(
    kept: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each on its own: nothing follows from the line before, and nothing is kept."""
    lines = ["forty of the Marsh Light", "for 5 litres", "delete Marsh Light", "what is in the Marsh Light", "specs"]
    monkeypatch.setattr(sys, "stdin", TextIOWrapper(BytesIO("\n".join(lines).encode())))
    capsys.readouterr()
    assert main(["ask", "--jsonl"]) == 0
    many, more, delete, shown, specs = (json.loads(x) for x in capsys.readouterr().out.splitlines())
    assert many["status"] == "answered" and many["answer"][0]["value"] == pytest.approx(1800)
    assert more["status"] != "answered"
    assert delete["status"] == "declined" and "stillroom chat" in delete["text"]
    assert "45 ml gin" in shown["text"] and "2 specs" in specs["text"]


@pytest.mark.parametrize("text", ["delete Marsh Light", "keep Reed: 10 ml gin, 20 ml water", "forget me",
                                  "change the gin in Marsh Light to 50 ml", "remind me in 2 h to stir"])
def test_what_would_have_to_be_kept_is_not_said_to_be(
    kept: str, text: str, capsys: pytest.CaptureFixture[str]
) -> None:
    async def rows(store: Store) -> object:
        return await store.export("terminal")

    before = asyncio.run(_with(kept, rows))
    assert main(["ask", text]) == 2
    assert "stillroom chat" in capsys.readouterr().out
    assert asyncio.run(_with(kept, rows)) == before


async def _with(url: str, do: Callable[[Store], Awaitable[T]]) -> T:
    async with open_store(url) as store:
        return await do(store)


def test_a_file_that_is_no_database_costs_the_book_and_not_the_answer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delenv("STILLROOM_DATABASE", raising=False)
    monkeypatch.setenv("STILLROOM_DATA", str(tmp_path))
    (tmp_path / "stillroom.sqlite3").write_bytes(b"no database" * 100)
    assert main(["ask", "how much salt for 300 ml of 20% saline?"]) == 0
    told = capsys.readouterr()
    assert "the book is left out" in told.err and "salt" in told.out


@pytest.mark.parametrize(("has", "absent"), [(False, ABSENT), (True, ABSENT[:2])])
def test_a_question_fetches_no_more_than_it_needs(has: bool, absent: tuple[str, ...], tmp_path: Path) -> None:
    """SymPy may be wanted once, for a calculator that was never asked; the second question is looked at."""
    data, file = tmp_path / "data", tmp_path / "book.txt"
    environment = {"STILLROOM_DATA": str(data), "STILLROOM_CACHE": str(tmp_path.parent / "cache")}
    file.write_text("Marsh Light\n45 ml gin\n25 ml lime juice\n")
    if has:
        _run(environment, "from stillroom_bot import cli; raise SystemExit(cli.main(['book', 'import', "
             f"{str(file)!r}]))")
    question = ["ask", "forty of the marsh light" if has else "how much salt for 300 ml of 20% saline?"]
    script = (f"import sys; from stillroom_bot import cli; status = cli.main({question!r});"
              f"print(status, [m for m in {absent!r} if m in sys.modules])")
    told = [_run(environment, script) for _ in range(2)]
    assert told[1].splitlines()[-1] == "0 []", told
    assert has == ("gin: 1800 ml" in told[1])
    assert data.exists() == has, "a question makes no folder"


def _run(environment: dict[str, str], script: str) -> str:
    here = {k: v for k, v in os.environ.items() if k != "STILLROOM_DATABASE"} | environment
    return subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, env=here).stdout


def test_what_is_kept_now_is_what_was_written_last(kept: str, capsys: pytest.CaptureFixture[str]) -> None:
    """A change that was acknowledged is seen by the next question, though SQLite holds it in its log."""

    async def change(store: Store) -> None:
        was = await store.books.get("terminal")
        spec = was.book.named("Marsh Light")
        assert spec is not None
        now = datetime(2026, 5, 2, tzinfo=UTC).isoformat()
        assert await store.books.put("terminal", was.book.put(spec.but(name="Fen Light"), "", now, "renamed"), was)
        capsys.readouterr()
        assert await asyncio.to_thread(main, ["ask", "forty of the fen light"]) == 0

    asyncio.run(_with(kept, change))
    assert "gin: 1800 ml" in capsys.readouterr().out
