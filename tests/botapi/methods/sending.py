"""What every method that sends a message has in common."""

from __future__ import annotations

from ..errors import REPLY_NOT_FOUND, bad
from ..keyboards import inline_only, read_keyboard
from ..params import Json, Params
from ..world import Room, World


def _reply_fields(world: World, room: Room, params: Params) -> Json:
    """The answered message, after `reply_parameters` or the older pair of parameters.

    A missing message is an error unless `allow_sending_without_reply` is set.
    """
    asked = params.object("reply_parameters", "reply parameters")
    if asked is None:
        asked = {
            "message_id": params.number("reply_to_message_id"),
            "allow_sending_without_reply": params.flag("allow_sending_without_reply"),
        }
    number = asked.get("message_id")
    if not number:
        return {}
    other = asked.get("chat_id")
    source = room if other in (None, room.id) else world.room(Params({"chat_id": other}))
    target = source.messages.get(int(number))
    if target is None:
        if asked.get("allow_sending_without_reply"):
            return {}
        raise bad(REPLY_NOT_FOUND)
    if source is not room:
        origin = {"type": "user", "sender_user": target["from"], "date": target["date"]}
        return {"external_reply": {"origin": origin, "message_id": target["message_id"]}}
    quoted: Json = {"quote": {"text": asked["quote"], "position": 0}} if asked.get("quote") else {}
    return {"reply_to_message": {k: v for k, v in target.items() if k != "reply_to_message"}} | quoted


def send(world: World, params: Params, body: Json, source: str = "") -> Json:
    """Post the bot's message into the chat that the call names; raises 400 or 403."""
    room = world.room(params)
    markup = inline_only(read_keyboard(params))
    reply = _reply_fields(world, room, params)
    thread = params.number("message_thread_id")
    if thread and not room.forum:
        raise bad("message thread not found")
    topic: Json = {"message_thread_id": thread, "is_topic_message": True} if thread else {}
    keyboard: Json = {"reply_markup": markup} if markup else {}
    return world.post(room, world.bot, topic | reply | body | keyboard, source)
