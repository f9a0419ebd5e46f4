"""Work for the database that is asked for while some is under way is done together by the next transaction.

A transaction costs its begin and its commit (to a server, trips and a wait for its disk) however little it does.
Under load these are shared by all who wait, who are gathered for a moment (``PAUSE``); without load nobody waits.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence
from typing import Generic, TypeVar

A = TypeVar("A")
B = TypeVar("B")
Work = Callable[[Sequence[A]], Awaitable[Sequence[B | BaseException]]]
MOST = 100
PAUSE = 0.01
"""Seconds from the beginning of a transaction that served several to that of the next: little to somebody who waits
for an answer, and under load at most a hundred transactions a second."""


class Together(Generic[A, B]):
    """``work`` gets the waiting items and gives an outcome for each, in their order; an exception is raised there."""

    def __init__(self, work: Work[A, B], most: int = MOST, at_once: int = 1, pause: float = PAUSE):
        self._work, self._most, self._at_once, self._pause = work, most, at_once, pause
        self._free_at = 0.0
        self._waiting: list[tuple[A, asyncio.Future[B]]] = []
        self._running = 0
        self._tasks: set[asyncio.Task[None]] = set()

    async def __call__(self, item: A) -> B:
        """Have one item done.  Whoever stops waiting does not stop the work."""
        future: asyncio.Future[B] = asyncio.get_running_loop().create_future()
        self._waiting.append((item, future))
        if self._running < self._at_once:
            self._running += 1
            task = asyncio.create_task(self._run())
            self._tasks.add(task)
            task.add_done_callback(self._tasks.discard)
        return await future

    async def _run(self) -> None:
        """Work until nothing waits; from then on, and not a moment later, the next who comes begins anew."""
        try:
            await self._work_off()
        finally:
            self._running -= 1

    async def _work_off(self) -> None:
        now = asyncio.get_running_loop().time
        while self._waiting:
            if (rest := self._free_at - now()) > 0:
                await asyncio.sleep(rest)
                continue
            taken, self._waiting = self._waiting[:self._most], self._waiting[self._most:]
            self._free_at = now() + (self._pause if len(taken) > 1 else 0.0)
            try:
                outcomes = await self._work([item for item, _ in taken])
            except Exception as e:
                outcomes = [e] * len(taken)
            for (_, future), outcome in zip(taken, outcomes, strict=True):
                if future.done():
                    continue
                if isinstance(outcome, BaseException):
                    future.set_exception(outcome)
                else:
                    future.set_result(outcome)
