"""What a message does to the store, all of it in one transaction with the note that it was done.

What is done for some chats and was said in others meanwhile goes into one transaction.  A deed that meets a change by
somebody else leaves nothing behind and raises Gone or Raced; those that were to be written with it are then written
one by one.  A connection may break after the database
has kept a deed and before it says so; the deed is then asked for once more, and found to be done by its plan.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from sqlalchemy import Connection
from sqlalchemy.exc import IntegrityError

from . import answers, buttons
from .answers import Answered
from .buttons import Question
from .chats import Chats
from .engine import Database, Moved
from .inbox import Gone, Inbox
from .moves import home_in
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


def _at_home(connection: Connection, chat: str, answered: Answered) -> tuple[str, Answered]:
    """An answer with the chat that it is in: one that has gone on under another key has its messages anew there."""
    home = home_in(connection, chat)
    return (home, answered if home == chat else replace(answered, question=-answered.question, messages=()))


class Deeds:
    """Deeds and ends of the updates of one bot."""

    def __init__(self, database: Database, inbox: Inbox, bot: int):
        self.database, self.inbox, self.chats, self.bot = database, inbox, Chats(database), bot
        self._enter: Together[Deed | Said, None] = Together(self._entered, at_once=database.writers)

    async def do(self, deed: Deed) -> None:
        """Do it.  Raises Gone where that was done already, Raced where the chat's state is another by now."""
        await self._enter(deed)

    async def end(self, said: Said) -> None:
        """Note that it was said."""
        await self._enter(said)

    async def _entered(self, entries: Sequence[Deed | Said]) -> Sequence[BaseException | None]:
        deeds = [e for e in entries if isinstance(e, Deed)]
        said = [e for e in entries if isinstance(e, Said)]

        def write(connection: Connection) -> None:
            self._do(connection, deeds)
            self._end(connection, said)

        try:
            await self.database.write(write, lasting=False)
            return [None] * len(entries)
        except (Gone, Moved, IntegrityError) as e:
            if len(entries) == 1:
                return [await self._outcome(deeds[0], e) if deeds else e]
        outcomes: list[BaseException | None] = []
        for entry in entries:
            try:
                outcomes += await self._entered([entry])
            except Exception as e:
                outcomes.append(e)
        return outcomes

    async def _outcome(self, deed: Deed, error: Exception) -> Exception | None:
        """What came of a deed that met with an error when it was written alone."""
        if deed.number is not None and await self.inbox.planned(self.bot, deed.number, deed.plan):
            return None
        return error if isinstance(error, Gone) else Raced()

    def _do(self, connection: Connection, deeds: Sequence[Deed]) -> None:
        for deed in deeds:
            for write in deed.more:
                write(connection)
        now = time.time()
        self.inbox.plan(connection, self.bot, [(d.number, d.plan) for d in deeds if d.number is not None])
        for deed in deeds:
            if deed.state is not None:
                self.chats.write(connection, *deed.state, now)
        buttons.ADD.each(connection, [buttons.row(id, question, now) for d in deeds for id, question in d.asked])

    def _end(self, connection: Connection, said: Sequence[Said]) -> None:
        told = [_at_home(connection, s.chat, s.answered) for s in said if s.answered is not None]
        kept = {(chat, a.question): a for chat, a in told}
        numbers = [s.number for s in said if s.number is not None]
        if kept:
            answers.write(connection, [(chat, a) for (chat, _), a in kept.items()])
        if numbers:
            self.inbox.finish(connection, self.bot, numbers)
