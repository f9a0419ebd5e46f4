"""Kill -9 in the middle of a write: whatever was acknowledged is there afterwards.

    python tests/bot/crash.py [COUNT] [URL]

A process keeps specs in a book as fast as it can, each with the chat's state in one transaction, and prints the
number of each once it is kept.  It is killed at a random moment, COUNT times; after each, the database must hold
every spec that was printed, all of them whole, the state must say as many as the book, and at most one more
than was printed may be there.
"""

from __future__ import annotations

import asyncio
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

from stillroom import Amount, Line
from stillroom_bot.board import KeptSpec
from stillroom_bot.store import open_store

CHATS = 20
"""Kills after which another chat is begun, so that its book stays small."""
MOST_WRITES, LONGEST = 4, 0.01
"""A process is killed after fewer writes than this, and so many seconds more, at most."""


def spec(number: int) -> KeptSpec:
    """A spec that is as large as a real one."""
    amounts = [Amount(n + 1.5, "milliliter", n + 1.5, f"{n + 1.5} ml") for n in range(8)]
    lines = tuple(Line(f"thing {number}.{n}", amount) for n, amount in enumerate(amounts))
    return KeptSpec(0, f"Drink {number}", lines, tuple(f"Step {n} of {number}." for n in range(6)))


async def write(url: str, chat: str) -> None:
    """Say which process this is, then keep one spec after the other, and say so of each once it is kept."""
    async with open_store(url) as store:
        os.write(1, f"{os.getpid()}\n".encode())
        while True:
            kept, state = await store.books.get(chat), await store.chats.get(chat)
            number = len(kept.book.specs) + 1
            book = kept.book.put(spec(number), "crash", "2026-05-01T10:00:00Z", "kept")
            if await store.keep(chat, {"version": 1, "count": number}, state.version, book, kept) is not None:
                os.write(1, f"{number}\n".encode())


async def found(url: str, chat: str) -> tuple[int, int]:
    """How many specs the book holds, each checked, and how many the state says."""
    async with open_store(url) as store:
        book = (await store.books.get(chat)).book
        for number, one in enumerate(book.specs, 1):
            assert one.says_as(spec(number)), f"spec {number} is damaged"
        data = (await store.chats.get(chat)).data
    return len(book.specs), data["count"] if data else 0


def stem(url: str) -> None:
    """A process whose imports are done: for each line that it reads, the chat's name, a child that writes."""
    for line in sys.stdin.buffer:
        child = os.fork()
        if child == 0:
            asyncio.run(write(url, line.decode().strip()))
        os.waitpid(child, 0)
        os.write(1, b"gone\n")


@dataclass(slots=True)
class Tally:
    """Kills, specs that were acknowledged, those kept although the word of them was cut off, and what was lost."""

    kills: int = 0
    acknowledged: int = 0
    unsaid: int = 0
    lost: int = 0


def crash(url: str, count: int, seed: int = 1) -> Tally:
    """Kill ``count`` writing processes.  Raises AssertionError for what may not be."""
    chance, tally = random.Random(seed), Tally()
    asyncio.run(found(url, ""))
    process = subprocess.Popen([sys.executable, __file__, "stem", url], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    out, into = process.stdout, process.stdin
    assert out is not None and into is not None
    before = 0
    for n in range(count):
        chat = f"crash {n // CHATS}"
        before = 0 if n % CHATS == 0 else before
        into.write(f"{chat}\n".encode())
        into.flush()
        child = int(out.readline())
        said = [int(out.readline()) for _ in range(chance.randrange(MOST_WRITES))]
        time.sleep(chance.uniform(0, LONGEST))
        os.kill(child, signal.SIGKILL)
        rows = iter(out.readline, b"gone\n")
        said += [int(row.removesuffix(b"gone\n")) for row in rows if row.strip()]
        there, counted = asyncio.run(found(url, chat))
        last = max([before, *said])
        assert there == counted, "the book and the state were not kept together"
        assert there <= last + 1, "more was kept than was written"
        tally.kills += 1
        tally.lost += max(0, last - there)
        tally.unsaid += there > last
        tally.acknowledged += last - before
        before = there
    into.close()
    process.wait()
    out.close()
    return tally


def main() -> None:
    """Print what came of it."""
    if sys.argv[1:2] == ["stem"]:
        stem(sys.argv[2])
        return
    count = int(sys.argv[1]) if sys.argv[1:] else 100
    with tempfile.TemporaryDirectory() as folder:
        url = sys.argv[2] if sys.argv[2:] else f"sqlite:///{Path(folder) / 'crash.sqlite3'}"
        begun = time.monotonic()
        print(f"{crash(url, count)} in {time.monotonic() - begun:.0f} s")


if __name__ == "__main__":
    main()
