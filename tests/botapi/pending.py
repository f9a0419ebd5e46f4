"""Updates that wait for the bot: numbering, the filter on kinds, long polling, confirmation."""

from __future__ import annotations

import asyncio
import itertools
from collections.abc import Callable, Iterable
from dataclasses import dataclass

from .errors import POLL_SUPERSEDED, ApiError, conflict
from .faults import Faults
from .params import Json

KINDS = frozenset(
    {"message", "edited_message", "channel_post", "edited_channel_post", "business_connection",
     "business_message", "edited_business_message", "deleted_business_messages", "message_reaction",
     "message_reaction_count", "inline_query", "chosen_inline_result", "callback_query", "shipping_query",
     "pre_checkout_query", "purchased_paid_media", "poll", "poll_answer", "my_chat_member", "chat_member",
     "guest_message", "chat_join_request", "chat_boost", "removed_chat_boost"}
)  # fmt: skip
NOT_BY_DEFAULT = frozenset({"chat_member", "message_reaction", "message_reaction_count"})
"""Kinds that must be asked for (core.telegram.org/bots/api#getupdates)."""

MAX_BATCH = 100
MAX_TIMEOUT = 50


@dataclass(frozen=True)
class Entry:
    """One update and the queue in which a webhook must keep its order."""

    update: Json
    lane: str

    @property
    def number(self) -> int:
        """The update id."""
        return int(self.update["update_id"])


class Pending:
    """The queue of one bot."""

    def __init__(self, faults: Faults) -> None:
        self.allowed = KINDS - NOT_BY_DEFAULT
        self.entries: list[Entry] = []
        self.on_entry: Callable[[Entry], None] | None = None
        self._faults = faults
        self._numbers = itertools.count(80_001)
        self._held: list[Entry] = []
        self._poll: asyncio.Future[None] | None = None
        self._empty = asyncio.Event()
        self._empty.set()

    def allow(self, kinds: Iterable[object] | None) -> None:
        """Set the wanted kinds: `None` keeps the last choice, an empty list means the default ones."""
        if kinds is None:
            return
        known = KINDS.intersection(str(kind) for kind in kinds)
        self.allowed = known or KINDS - NOT_BY_DEFAULT

    def publish(self, kind: str, body: Json, lane: str) -> int | None:
        """Queue an update and return its number, or `None` when the bot does not want that kind."""
        if kind not in self.allowed:
            return None
        return self.inject({kind: body}, lane)

    def inject(self, update: Json, lane: str = "raw") -> int:
        """Queue an update of any shape, wanted or not, and return its number."""
        if self._faults.take_unknown():
            strange = {"update_id": next(self._numbers), "tap_overflowed": {"litres": 2}}
            self._hold_or_add(Entry(strange, lane))
        entry = Entry({"update_id": next(self._numbers)} | update, lane)
        self._hold_or_add(entry)
        return entry.number

    def _hold_or_add(self, entry: Entry) -> None:
        if self._faults.take_reversed():
            self._held.append(entry)
            if self._faults.reversing:
                return
            for late in reversed(self._held):
                self._add(late)
            self._held.clear()
        else:
            self._add(entry)

    def _add(self, entry: Entry) -> None:
        for _ in range(2 if self._faults.take_duplicate() else 1):
            self.entries.append(entry)
            self._empty.clear()
            if self.on_entry:
                self.on_entry(entry)
        if self._poll and not self._poll.done():
            self._poll.set_result(None)

    def discard(self, entry: Entry) -> None:
        """Forget one delivery that arrived."""
        if entry in self.entries:
            self.entries.remove(entry)
        self._settle()

    def clear(self) -> None:
        """Drop everything that waits."""
        self.entries.clear()
        self._settle()

    def _settle(self) -> None:
        if not self.entries:
            self._empty.set()

    async def drained(self) -> None:
        """Wait until the bot has confirmed everything."""
        await self._empty.wait()

    def _confirm(self, offset: int) -> None:
        if offset < 0:
            self.entries[:] = self.entries[offset:]
        elif offset > 0:
            self.entries[:] = [entry for entry in self.entries if entry.number >= offset]
        self._settle()

    def interrupt(self, reason: ApiError) -> None:
        """End the long poll that is open, with an error."""
        if self._poll and not self._poll.done():
            self._poll.set_exception(reason)

    async def fetch(self, offset: int, limit: int, timeout: float) -> list[Json]:
        """What getUpdates returns: confirm below `offset`, wait up to `timeout` s for at least one update.

        A later call ends an open one with 409.
        """
        self.interrupt(conflict(POLL_SUPERSEDED))
        self._confirm(offset)
        size = limit if 1 <= limit <= MAX_BATCH else MAX_BATCH
        if not self.entries and timeout > 0:
            poll: asyncio.Future[None] = asyncio.get_running_loop().create_future()
            self._poll = poll
            try:
                done, _ = await asyncio.wait({poll}, timeout=min(timeout, MAX_TIMEOUT))
            finally:
                if self._poll is poll:
                    self._poll = None
            if done:
                poll.result()
        return [entry.update for entry in self.entries[:size]]
