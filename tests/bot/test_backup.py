"""A backup is one state of the database, taken while others write to it, and never in place of another file."""

from __future__ import annotations

import sqlite3
import threading
from pathlib import Path

import pytest
from stillroom_bot.cli import main
from stillroom_bot.store import open_store


@pytest.fixture
def database(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The file that the program uses, whether it is there or not."""
    monkeypatch.delenv("STILLROOM_DATABASE", raising=False)
    monkeypatch.setenv("STILLROOM_DATA", str(tmp_path))
    return tmp_path / "stillroom.sqlite3"


async def test_a_backup_is_consistent_while_somebody_writes(database: Path, tmp_path: Path) -> None:
    """Two rows that are always changed together are equal in every copy."""
    async with open_store(f"sqlite:///{database}") as store:
        await store.chats.put("a", 0, 0)
        await store.chats.put("b", 0, 0)
    stop = threading.Event()

    def write() -> None:
        with sqlite3.connect(database, timeout=30, isolation_level=None) as raw:
            number = 0
            while not stop.is_set():
                number += 1
                raw.execute("BEGIN IMMEDIATE")
                raw.execute("UPDATE chats SET state = ? WHERE chat = 'a'", (str(number),))
                raw.execute("UPDATE chats SET state = ? WHERE chat = 'b'", (str(number),))
                raw.execute("COMMIT")

    writer = threading.Thread(target=write)
    writer.start()
    seen = set()
    try:
        for n in range(10):
            assert main(["backup", str(tmp_path / f"copy{n}")]) == 0
            with sqlite3.connect(tmp_path / f"copy{n}") as copy:
                rows = [state for (state,) in copy.execute("SELECT state FROM chats ORDER BY chat")]
            assert len(rows) == 2 and rows[0] == rows[1]
            seen.add(rows[0])
    finally:
        stop.set()
        writer.join()
    assert len(seen) > 1, "nothing was written between two copies"
    assert (tmp_path / "copy0").stat().st_mode & 0o777 == 0o600
    async with open_store(f"sqlite:///{tmp_path / 'copy0'}") as restored:
        assert (await restored.chats.get("a")).version == 1
    assert not list(tmp_path.glob(".stillroom-*"))


async def test_a_backup_replaces_nothing_and_needs_a_database(
    database: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = tmp_path / "copy"
    assert main(["backup", str(copy)]) == 69 and "no database" in capsys.readouterr().err
    async with open_store(f"sqlite:///{database}"):
        pass
    copy.write_text("precious")
    assert main(["backup", str(copy)]) == 69 and "there already" in capsys.readouterr().err
    assert copy.read_text() == "precious"
    assert main(["backup", str(tmp_path / "nowhere" / "copy")]) == 69 and capsys.readouterr().err
    monkeypatch.setenv("STILLROOM_DATABASE", "postgresql://bar:hush@db/bar")
    assert main(["backup", str(tmp_path / "other")]) == 69
    told = capsys.readouterr().err
    assert "pg_dump" in told and "hush" not in told
