"""A chat as a test drives it: people speak, edit, press and forward; the bot's messages come back."""

from __future__ import annotations

import asyncio
import time

from .errors import BLOCKED, KICKED, UPGRADED, ApiError, forbidden
from .formatting import found_entities
from .methods.media import document_json, photo_json, store_upload
from .params import Json, copied
from .privacy import addressed
from .reply import Asked, Reply, Said, as_reply
from .world import Room, User, World

Which = int | Said | Reply


def _number(which: Which) -> int:
    return which if isinstance(which, int) else which.message_id


class Chat:
    """A private chat or a group. Where `by` is left out, the first member acts."""

    def __init__(self, world: World, room: Room) -> None:
        self._world = world
        self.room = room

    @property
    def id(self) -> int:
        """The chat_id."""
        return self.room.id

    @property
    def replies(self) -> list[Reply]:
        """Everything the bot has sent here, as it stands now."""
        return [as_reply(self._world, self.room, message) for message in self.room.history]

    def message(self, which: Which) -> Reply | None:
        """A message as it stands now, or `None` when it was deleted."""
        found = self.room.messages.get(_number(which))
        return as_reply(self._world, self.room, copied(found)) if found else None

    def _tell(self, kind: str, message: Json) -> Said:
        lane = f"chat:{self.id}"
        heard = self.room.closed is None and addressed(self._world, self.room, message)
        told = self._world.pending.publish(kind, copied(message), lane) if heard else None
        return Said(told, copied(message))

    def _post(
        self, body: Json, by: User | None, reply_to: Which | None = None, thread: int | None = None
    ) -> Said:
        if reply_to is not None:
            target = self.room.messages[_number(reply_to)]
            body["reply_to_message"] = {k: v for k, v in target.items() if k != "reply_to_message"}
        if thread is not None:
            body |= {"message_thread_id": thread, "is_topic_message": True}
        return self._tell("message", self._world.post(self.room, by or self.room.members[0], body))

    async def say(
        self, text: str, *, by: User | None = None, reply_to: Which | None = None, thread: int | None = None
    ) -> Said:
        """Send text; commands, mentions and links in it are marked as the server marks them."""
        return self._post(text_body(text), by, reply_to, thread)

    async def forward(
        self, text: str, *, by: User | None = None, origin: User | str = "Somebody", comment: str = ""
    ) -> Said:
        """Forward a text that was first said by `origin`, a user or the name of a hidden one.

        A comment, when given, goes ahead as a message of its own, as clients do.
        """
        if comment:
            await self.say(comment, by=by)
        who: Json = (
            {"type": "user", "sender_user": origin.as_json()}
            if isinstance(origin, User)
            else {"type": "hidden_user", "sender_user_name": origin}
        )
        return self._post(text_body(text) | {"forward_origin": who | {"date": int(time.time()) - 3600}}, by)

    async def send_document(
        self,
        data: bytes,
        name: str = "sheet.txt",
        *,
        mime: str = "text/plain",
        caption: str = "",
        by: User | None = None,
    ) -> Said:
        """Send a file."""
        kept = store_upload(self._world, data, name, mime, "documents")
        return self._post({"document": document_json(kept)} | _caption_body(caption), by)

    async def send_photo(self, data: bytes, *, caption: str = "", by: User | None = None) -> Said:
        """Send a PNG or JPEG picture."""
        kept = store_upload(self._world, data, "photo.jpg", "image/jpeg", "photos")
        return self._post({"photo": photo_json(kept)} | _caption_body(caption), by)

    async def edit(self, which: Which, text: str) -> Said:
        """Change the text of a message that a person sent."""
        message = self.room.messages[_number(which)]
        if message["from"]["id"] == self._world.bot.id:
            raise ValueError("a person cannot edit the bot's message")
        body = {"entities": None} | text_body(text)
        return self._tell("edited_message", self._world.rewrite(self.room, message, body))

    async def delete(self, which: Which) -> None:
        """Delete a message. Bots are not told."""
        del self.room.messages[_number(which)]

    async def press(self, which: Which, button: str, *, by: User | None = None) -> Asked:
        """Press the button with this label or callback data; raises LookupError naming what is there."""
        message = self.room.messages[_number(which)]
        rows: list[list[Json]] = message.get("reply_markup", {}).get("inline_keyboard", [])
        there = [one for row in rows for one in row if "callback_data" in one]
        chosen = [one for one in there if button in (one["text"], one["callback_data"])]
        if not chosen:
            raise LookupError(f"no button {button!r}; there are {[one['text'] for one in there]}")
        return await self.press_data(which, chosen[0]["callback_data"], by=by)

    async def press_data(self, which: Which, data: str, *, by: User | None = None) -> Asked:
        """Press a button with any data, present or not: an old keyboard, or a forged press."""
        person = by or self.room.members[0]
        query = self._world.ask("callback", person)
        body = {
            "id": query.id,
            "from": person.as_json(),
            "message": copied(self.room.messages[_number(which)]),
            "chat_instance": str(self.id * 7919),
            "data": data,
        }
        return Asked(self._world.pending.publish("callback_query", body, f"user:{person.id}"), query)

    async def react(self, which: Which, *emoji: str, by: User | None = None) -> int | None:
        """Set a person's reactions; no emoji takes them away. Returns the update id, if the bot wants it."""
        body = {
            "chat": self.room.as_json(),
            "message_id": _number(which),
            "user": (by or self.room.members[0]).as_json(),
            "date": int(time.time()),
            "old_reaction": [],
            "new_reaction": [{"type": "emoji", "emoji": one} for one in emoji],
        }
        return self._world.pending.publish("message_reaction", body, f"chat:{self.id}")

    async def shut_out(self) -> int | None:
        """Block the bot (private chat) or remove it (group): sending is answered with 403 from now on."""
        private = self.room.kind == "private"
        self.room.closed = forbidden(BLOCKED if private else KICKED)
        return self._membership("member", "kicked")

    async def let_in(self) -> int | None:
        """Undo `shut_out`."""
        self.room.closed = None
        return self._membership("kicked", "member")

    def _membership(self, old: str, new: str) -> int | None:
        bot = self._world.bot.as_json()
        until = {"until_date": 0}
        body = {
            "chat": self.room.as_json(),
            "from": self.room.members[0].as_json(),
            "date": int(time.time()),
            "old_chat_member": {"status": old, "user": bot} | (until if old == "kicked" else {}),
            "new_chat_member": {"status": new, "user": bot} | (until if new == "kicked" else {}),
        }
        return self._world.pending.publish("my_chat_member", body, f"chat:{self.id}")

    async def upgrade(self, *, told: bool = True) -> Chat:
        """Make a supergroup of a basic group: a chat of another number, with messages counted anew.

        Both chats are told of it by a service message, unless `told` is false; the old one takes no more calls.
        """
        old = self.room
        if old.kind != "group":
            raise ValueError("only a basic group becomes a supergroup")
        id = old.id - 1_000_000_000_000
        new = self._world.rooms[id] = Room(id, "supergroup", old.title, list(old.members))
        if told:
            for room, says in ((old, {"migrate_to_chat_id": id}), (new, {"migrate_from_chat_id": old.id})):
                message = self._world.post(room, old.members[0], dict(says))
                self._world.pending.publish("message", copied(message), f"chat:{room.id}")
        old.closed = ApiError(400, f"Bad Request: {UPGRADED}", {"migrate_to_chat_id": id})
        return Chat(self._world, new)

    async def next_reply(self, timeout: float = 2.0) -> Reply:
        """The bot's next message that no test has read; raises TimeoutError after `timeout` s."""
        return await self._next(self.room.sent, "reply", timeout)

    async def next_edit(self, timeout: float = 2.0) -> Reply:
        """The next message that the bot edited, as it is then; raises TimeoutError after `timeout` s."""
        return await self._next(self.room.edited, "edit", timeout)

    async def _next(self, queue: asyncio.Queue[Json], what: str, timeout: float) -> Reply:
        try:
            message = await asyncio.wait_for(queue.get(), timeout)
        except TimeoutError:
            raise TimeoutError(f"no {what} in {self.room.title!r} within {timeout:g} s") from None
        return as_reply(self._world, self.room, message)

    async def silence(self, seconds: float = 0.15) -> None:
        """Raise AssertionError when the bot sends or edits anything here within the time."""
        for queue in (self.room.sent, self.room.edited):
            if not queue.empty():
                seconds = 0.0
        await asyncio.sleep(seconds)
        for queue in (self.room.sent, self.room.edited):
            if not queue.empty():
                raise AssertionError(f"expected silence, got {queue.get_nowait().get('text')!r}")


def text_body(text: str) -> Json:
    """A text with its commands and mentions marked."""
    entities = found_entities(text, [])
    return {"text": text} | ({"entities": entities} if entities else {})


def _caption_body(caption: str) -> Json:
    return {"caption": caption} if caption else {}
