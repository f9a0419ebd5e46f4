"""What the server knows: the bot, its users, chats, messages, files, queries and commands."""

from __future__ import annotations

import asyncio
import itertools
import time
from dataclasses import dataclass, field

from .errors import CHAT_EMPTY, CHAT_NOT_FOUND, ApiError, bad
from .params import Json, Params, Upload, copied
from .pending import Pending

QUERY_SECONDS = {"callback": 150.0, "inline": 30.0, "guest": 150.0}
"""How long a query may be answered (the published server's own waiting times)."""


@dataclass(frozen=True)
class User:
    """A person, or the bot itself."""

    id: int
    first_name: str
    username: str | None = None
    language_code: str | None = None
    is_bot: bool = False

    def as_json(self) -> Json:
        """The Bot API's User object; what is not set is left out."""
        known: Json = {"id": self.id, "is_bot": self.is_bot, "first_name": self.first_name}
        optional = {"username": self.username, "language_code": self.language_code}
        return known | {name: value for name, value in optional.items() if value is not None}


@dataclass
class Room:
    """A chat as the server keeps it. `sent` and `edited` hold what the bot did and no test has read yet."""

    id: int
    kind: str
    title: str
    members: list[User]
    username: str | None = None
    forum: bool = False
    messages: dict[int, Json] = field(default_factory=dict)
    sources: dict[int, str] = field(default_factory=dict)
    sent: asyncio.Queue[Json] = field(default_factory=asyncio.Queue)
    edited: asyncio.Queue[Json] = field(default_factory=asyncio.Queue)
    history: list[Json] = field(default_factory=list)
    actions: list[str] = field(default_factory=list)
    reactions: dict[int, list[Json]] = field(default_factory=dict)
    closed: ApiError | None = None
    admins: set[int] = field(default_factory=set)

    def as_json(self) -> Json:
        """The Bot API's Chat object."""
        if self.kind == "private":
            person = self.members[0]
            name: Json = {"first_name": person.first_name}
            username = person.username
        else:
            name, username = {"title": self.title}, self.username
        known: Json = {"id": self.id, "type": self.kind} | name
        known |= {"username": username} if username else {}
        return known | ({"is_forum": True} if self.forum else {})


@dataclass
class Query:
    """A button press or an inline query that waits for its answer."""

    id: str
    kind: str
    person: User
    asked: float = field(default_factory=time.monotonic)
    expired: bool = False
    answers: asyncio.Queue[Json] = field(default_factory=asyncio.Queue)

    @property
    def too_old(self) -> bool:
        """Whether the server no longer takes an answer."""
        return self.expired or time.monotonic() - self.asked > QUERY_SECONDS[self.kind]


@dataclass(frozen=True)
class StoredFile:
    """A file that the server holds."""

    file_id: str
    path: str
    name: str
    mime: str
    data: bytes


class World:
    """All state of one fake server, and the few operations that keep it consistent."""

    def __init__(self, bot: User, pending: Pending, *, privacy: bool) -> None:
        self.bot = bot
        self.pending = pending
        self.privacy = privacy
        self.rooms: dict[int, Room] = {}
        self.users: dict[int, User] = {}
        self.files: dict[str, StoredFile] = {}
        self.queries: dict[str, Query] = {}
        self.commands: dict[tuple[str, str], list[Json]] = {}
        self._private_ids = itertools.count(11)
        self._group_ids: dict[int, itertools.count[int]] = {}
        self._serial = itertools.count(1)

    def serial(self) -> int:
        """The next number of a sequence shared by files and queries."""
        return next(self._serial)

    def _next_message_id(self, room: Room) -> int:
        if room.kind in ("private", "group"):
            return next(self._private_ids)
        return next(self._group_ids.setdefault(room.id, itertools.count(1)))

    def room(self, params: Params, name: str = "chat_id") -> Room:
        """The chat that a call names by number or @username; raises 400 or 403."""
        key = params.values.get(name)
        if key in (None, ""):
            raise bad(CHAT_EMPTY)
        found = self.rooms.get(key) if isinstance(key, int) else None
        if isinstance(key, str) and key.startswith("@"):
            public = {room.username: room for room in self.rooms.values() if room.kind != "private"}
            found = public.get(key[1:])
        if found is None:
            raise bad(CHAT_NOT_FOUND)
        if found.closed:
            raise found.closed
        return found

    def message(self, room: Room, message_id: int, sentence: str) -> Json:
        """A message of the chat; raises 400 with `sentence` when there is none."""
        try:
            return room.messages[message_id]
        except KeyError:
            raise bad(sentence) from None

    def post(self, room: Room, sender: User, body: Json, source: str = "") -> Json:
        """Put a message into a chat and give it its number and date."""
        number = self._next_message_id(room)
        message = {
            "message_id": number,
            "date": int(time.time()),
            "chat": room.as_json(),
            "from": sender.as_json(),
        } | body
        room.messages[number] = message
        room.sources[number] = source
        if sender.is_bot:
            room.history.append(message)
            room.sent.put_nowait(copied(message))
        return message

    def rewrite(self, room: Room, message: Json, changes: Json, source: str | None = None) -> Json:
        """Change a message in place; a key whose new value is `None` is removed."""
        for name, value in changes.items():
            if value is None:
                message.pop(name, None)
            else:
                message[name] = value
        message["edit_date"] = int(time.time())
        if source is not None:
            room.sources[message["message_id"]] = source
        if message["from"]["id"] == self.bot.id:
            room.edited.put_nowait(copied(message))
        return message

    def store(self, upload: Upload, folder: str) -> StoredFile:
        """Keep a file; its id and path are its own."""
        number = self.serial()
        suffix = upload.name.rpartition(".")[2] or "bin"
        kept = StoredFile(
            f"FILE-{number:06d}", f"{folder}/file_{number}.{suffix}", upload.name, upload.mime, upload.data
        )
        self.files[kept.file_id] = kept
        return kept

    def ask(self, kind: str, person: User) -> Query:
        """Open a callback or inline query."""
        query = Query(str(7_000_000_000 + self.serial()), kind, person)
        self.queries[query.id] = query
        return query
