"""getChatMember, leaveChat."""

from __future__ import annotations

from ..errors import KICKED, bad, forbidden
from ..params import Json, Params
from ..world import World


def get_chat_member(world: World, params: Params) -> Json:
    """A member and whether they administer the chat."""
    room, number = world.room(params), params.number("user_id")
    for person in room.members:
        if person.id == number:
            if number in room.admins:
                return {"user": person.as_json(), "status": "creator", "is_anonymous": False}
            return {"user": person.as_json(), "status": "member"}
    raise bad("Bad Request: PARTICIPANT_ID_INVALID")


def leave_chat(world: World, params: Params) -> bool:
    """The bot is no member any more."""
    room = world.room(params)
    if room.kind == "private":
        raise bad("Bad Request: chat member status can't be changed in private chats")
    room.closed = forbidden(KICKED)
    return True
