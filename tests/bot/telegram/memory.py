"""How much memory the whole bot holds, every process of it, as messages go by: it should not grow.

    python tests/bot/telegram/memory.py [MESSAGES] [CHATS] [FROM]

The command itself, with two reckoners and SQLite, is asked by polling.  Prints the resident memory of each process at
every tenth of the messages, from message FROM on, and by how much the whole grew between FROM and the end.
"""

from __future__ import annotations

import asyncio
import itertools
import random
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[2]))
sys.path.insert(0, str(Path(__file__).parents[2] / "bench"))

from botapi import FakeBotApi
from echo import QUESTIONS, bot

AT_ONCE = 200
"""Messages that may wait for their answers."""


def family(pid: int) -> list[int]:
    """A process and all that came of it, the eldest first."""
    children = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    return [pid, *(x for child in children for x in family(int(child)))]


def resident(pid: int) -> float:
    """Resident MiB of a process."""
    for line in Path(f"/proc/{pid}/status").read_text().splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    return 0.0


def forget(api: FakeBotApi, chats: list) -> int:
    """Let go of what the server keeps of its chats, and return how many answers that were."""
    count = sum(len(c.room.history) for c in chats)
    for chat in chats:
        for kept in (chat.room.history, chat.room.messages, chat.room.sources):
            kept.clear()
        while not chat.room.sent.empty():
            chat.room.sent.get_nowait()
    api.calls.clear()
    return count


async def held(messages: int, people: int, start: int, folder: Path) -> None:
    """Ask so many questions, and print."""
    dice, numbers, answered, began = random.Random(7), itertools.count(101), 0, time.monotonic()
    async with FakeBotApi("4242:loopback-only") as api:
        chats = [api.private(api.user(f"M{n}")) for n in range(people)]
        async with bot("ours", api, False, folder / "data") as process:
            pids, first = family(process.pid), 0.0
            for n in range(1, messages + 1):
                await chats[n % people].say(dice.choice(QUESTIONS).format(next(numbers)))
                while n - answered - sum(len(c.room.history) for c in chats) > AT_ONCE:
                    await asyncio.sleep(0.02)
                if n % 1000 == 0:
                    answered += forget(api, chats)
                if n == start or (n > start and n % (messages // 10) == 0):
                    sizes = [resident(pid) for pid in pids]
                    first = first or sum(sizes)
                    print(f"{n} messages, {time.monotonic() - began:.0f} s: {sum(sizes):.1f} MiB "
                          f"({' + '.join(f'{s:.1f}' for s in sizes)}), {sum(sizes) / first - 1:+.1%}", flush=True)
            assert pids == family(process.pid), "a process was replaced on the way"


def main() -> int:
    """Run it by the command line."""
    numbers = [int(a) for a in sys.argv[1:]]
    messages, people, start = (numbers + [20000, 300, 2000][len(numbers):])[:3]
    with TemporaryDirectory() as folder:
        asyncio.run(held(messages, people, start, Path(folder)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
