"""What a message does to the store, all of it in one transaction with the note that it was done.

A deed that meets a change by somebody else leaves nothing behind and raises Gone or Raced; those that
were written in the same transaction are then written one by one.  A connection may break after the database
has kept a deed and before it says so; the deed is then asked for once more, and found to be done by its plan.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection, insert
from sqlalchemy.exc import IntegrityError

from . import answers, buttons
from .answers import Answered
from .buttons import Question
from .chats import Chats
from .engine import Database, Moved
from .inbox import Gone, Inbox
from .together import Together

Write = Callable[[Connection], object]


class Raced(Exception):
    """The chat's state was changed by somebody else in the meantime."""


@dataclass(frozen=True, slots=True)
class Deed:
    """``number`` is the update's (None: nothing to note), ``plan`` what will be said of it.

    ``state`` is (chat, data, the version that it replaces); ``asked`` are questions with the ids of their
    buttons; ``more`` is anything else that has to be written with it.
    """

    number: int | None
    plan: str
    state: tuple[str, Any, int] | None = None
    asked: tuple[tuple[str, Question], ...] = ()
    more: tuple[Write, ...] = field(default=())


@dataclass(frozen=True, slots=True)
class Said:
    """An update whose answer has been sent, and the answer to be remembered with its chat."""

    number: int | None
    chat: str = ""
    answered: Answered | None = None


class Deeds:
    """Deeds and ends of the updates of one bot."""

    def __init__(self, database: Database, inbox: Inbox, bot: int):
        self.database, self.inbox, self.chats, self.bot = database, inbox, Chats(database), bot
        self.do: Together[Deed, None] = Together(self._do, at_once=database.writers)
        self.end: Together[Said, None] = Together(self._end, at_once=database.writers)

    async def _do(self, deeds: Sequence[Deed]) -> Sequence[BaseException | None]:
        try:
            await self.database.write(lambda c: self._write(c, deeds))
            return [None] * len(deeds)
        except (Gone, Moved, IntegrityError) as e:
            if len(deeds) == 1:
                if deeds[0].number is not None and await self.inbox.planned(self.bot, deeds[0].number, deeds[0].plan):
                    return [None]
                return [e if isinstance(e, Gone) else Raced()]
        outcomes: list[BaseException | None] = []
        for deed in deeds:
            try:
                outcomes += await self._do([deed])
            except Exception as e:
                outcomes.append(e)
        return outcomes

    def _write(self, connection: Connection, deeds: Sequence[Deed]) -> None:
        for deed in deeds:
            for write in deed.more:
                write(connection)
        now = time.time()
        self.inbox.plan(connection, self.bot, [(d.number, d.plan) for d in deeds if d.number is not None])
        for deed in deeds:
            if deed.state is not None:
                self.chats.write(connection, *deed.state, now)
        asked = [buttons.row(id, question, now) for d in deeds for id, question in d.asked]
        if asked:
            connection.execute(insert(buttons.table), asked)

    async def _end(self, said: Sequence[Said]) -> Sequence[BaseException | None]:
        kept = {(s.chat, s.answered.question): s.answered for s in said if s.answered is not None}
        numbers = [s.number for s in said if s.number is not None]

        def write(connection: Connection) -> None:
            if kept:
                answers.write(connection, [(chat, a) for (chat, _), a in kept.items()])
            if numbers:
                self.inbox.finish(connection, self.bot, numbers)

        await self.database.write(write)
        return [None] * len(said)
