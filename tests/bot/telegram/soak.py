"""Many messages with faults among them, and workers that are killed now and then.

    python tests/bot/telegram/soak.py [MESSAGES] [CHATS] [KILLS]

Prints how many messages were lost, applied twice, answered again or answered out of order, and by how much
the workers' memory grew between a tenth of the messages and all of them.  Exit status 1 if any was lost,
applied twice or out of order.
"""

from __future__ import annotations

import asyncio
import random
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from bot.telegram import killing
from botapi import FakeBotApi

FAULTS = 0.05
AT_ONCE = 1500
SEED = 20


def fault(api: FakeBotApi, dice: random.Random, chat: int) -> None:
    """One of the faults of the loopback server, on this chat's next answer or on the next updates."""
    f = api.faults
    polls = [lambda: f.drop("getUpdates"), lambda: f.garble("getUpdates"), lambda: f.bad_gateway("getUpdates")]
    if dice.random() < 0.02:
        dice.choice(polls)()
        return
    dice.choice([
        lambda: f.flood("sendMessage", retry_after=1, chat=chat), lambda: f.bad_gateway("sendMessage", chat=chat),
        lambda: f.bad_gateway("sendMessage", after=True, chat=chat), lambda: f.drop("sendMessage", chat=chat),
        lambda: f.drop("sendMessage", after=True, chat=chat), lambda: f.garble("sendMessage", chat=chat),
        lambda: f.slow_body("sendMessage", seconds=0.2, chat=chat), f.duplicate, f.unknown,
    ])()


def memory(pid: int) -> float:
    """Resident MiB of a process."""
    for line in Path(f"/proc/{pid}/status").read_text().splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    return 0.0


async def soak(messages: int, people: int, kills: int, folder: Path) -> killing.Tally:
    """Send so many messages; returns what became of them."""
    dice, sent, url = random.Random(SEED), {}, f"sqlite:///{folder / 'soak.sqlite3'}"
    async with FakeBotApi("4242:loopback-only") as api:
        chats = [api.private(api.user(f"S{n}")) for n in range(people)]
        sent = {chat.id: 0 for chat in chats}
        worker, restarts, early, began = await killing.start(api, url), 0, 0.0, time.monotonic()
        kill_at = [messages * (k + 1) // (kills + 1) for k in range(kills)]
        for n in range(messages):
            chat = dice.choice(chats)
            sent[chat.id] += 1
            if dice.random() < FAULTS:
                fault(api, dice, chat.id)
            await chat.say(f"message {sent[chat.id]}")
            while sum(len(c.room.history) for c in chats) < n - AT_ONCE:
                await asyncio.sleep(0.05)
            if kill_at and n >= kill_at[0]:
                kill_at.pop(0)
                await killing.kill(worker)
                worker, restarts = await killing.start(api, url), restarts + 1
            if n == messages // 10:
                early = memory(worker.pid)
            if n % 1000 == 999:
                print(f"{n + 1} sent, {time.monotonic() - began:.0f} s, {memory(worker.pid):.0f} MiB", flush=True)
        with suppress(TimeoutError):
            await api.wait_until(lambda: all(len({r.text.split(chr(10))[1] for r in c.replies}) >= sent[c.id]
                                             for c in chats), "answers", 60 + messages / 50)
        late = memory(worker.pid)
        await killing.kill(worker)
        api.troubles.clear()
        found = killing.tally(chats, sent)
        seconds = time.monotonic() - began
    print(f"{messages} messages of {people} chats in {seconds:.0f} s, {restarts} kills, {api.faults.left} faults left")
    print(f"lost {found.lost}, applied twice {found.twice}, answered again {found.repeated}, "
          f"chats out of order {found.disordered}")
    print(f"memory {early:.0f} MiB after a tenth, {late:.0f} MiB at the end (of the last worker)")
    return found


def main() -> int:
    """Run it by the command line."""
    numbers = [int(a) for a in sys.argv[1:]]
    messages, people, kills = (numbers + [2000, 50, 4][len(numbers):])[:3]
    with tempfile.TemporaryDirectory() as folder:
        found = asyncio.run(soak(messages, people, kills, Path(folder)))
    return int(bool(found.lost or found.twice or found.disordered))


if __name__ == "__main__":
    sys.exit(main())
