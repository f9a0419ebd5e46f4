"""Reading and solving beside the event loop: in a thread, or in processes that can be ended.

A plugin is somebody else's code.  In a process of its own it can raise, return nonsense, run for ever or
fill the memory, and costs the answer that it was asked for.  ``nursery`` is a process that has everything
loaded and does nothing but fork; ``child`` is what it forks; ``processes`` hands out the work.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import Executor
from contextvars import ContextVar
from dataclasses import dataclass, field
from typing import Protocol

from ..reply import Reply
from ..state import State
from ..talker import Talker, screened, working
from .examples import examples_of

__all__ = ["BEGUN", "InThread", "Overdue", "Reckoner"]

BEGUN: ContextVar[Callable[[], None] | None] = ContextVar("begun", default=None)
"""Called when a message's turn has come, for whoever wants to know how long it takes from there."""


def begun() -> None:
    """A message's turn has come."""
    if (tell := BEGUN.get()) is not None:
        tell()



class Overdue(Exception):
    """It took longer than it may, or its process ended; nothing was worked out."""


class Reckoner(Protocol):
    """Answers without holding up whoever waits."""

    @property
    def examples(self) -> tuple[tuple[str, str], ...]:
        """(calculator, question) of those that give one."""

    async def answer(self, text: str, state: State) -> tuple[Reply, State]:
        """The reply and the next state.  Raises Overdue, or what reading raised."""

    async def why(self, text: str, state: State) -> str:
        """How it was read."""


@dataclass(frozen=True)
class InThread:
    """One message at a time in ``pool``'s thread.  Nothing ends a message that takes for ever."""

    talker: Talker
    pool: Executor
    examples: tuple[tuple[str, str], ...] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "examples", examples_of(self.talker))

    async def answer(self, text: str, state: State) -> tuple[Reply, State]:
        """``screened``, in the thread."""
        begun()
        return await asyncio.get_running_loop().run_in_executor(self.pool, screened, self.talker, text, state)

    async def why(self, text: str, state: State) -> str:
        """``working``, in the thread."""
        return await asyncio.get_running_loop().run_in_executor(self.pool, working, self.talker, text, state)
