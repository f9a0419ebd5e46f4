"""sendMessage, sendChatAction, deleteMessage, setMessageReaction."""

from __future__ import annotations

from telegram.constants import ReactionEmoji

from ..errors import DELETE_NOT_FOUND, REACT_NOT_FOUND, TEXT_EMPTY, bad
from ..formatting import formatted
from ..params import Json, Params
from ..world import World
from .sending import send

_ACTIONS = frozenset(
    {"typing", "upload_photo", "record_video", "upload_video", "record_voice", "upload_voice",
     "upload_document", "choose_sticker", "find_location", "record_video_note", "upload_video_note"}
)  # fmt: skip
_EMOJI = frozenset(emoji.value for emoji in ReactionEmoji)


def send_message(world: World, params: Params) -> Json:
    """Send text of 1-4096 characters."""
    text, entities = formatted(params, "text")
    if not text:
        raise bad(TEXT_EMPTY)
    preview = params.object("link_preview_options", "link preview options")
    optional: Json = {"entities": entities, "link_preview_options": preview}
    body: Json = {"text": text} | {name: value for name, value in optional.items() if value}
    return send(world, params, body, params.text("text"))


def send_chat_action(world: World, params: Params) -> bool:
    """Show a status such as "typing"."""
    action = params.text("action")
    if action not in _ACTIONS:
        raise bad("wrong parameter action in request")
    world.room(params).actions.append(action)
    return True


def delete_message(world: World, params: Params) -> bool:
    """Delete a message of the bot, or any message of a private chat."""
    room = world.room(params)
    message = world.message(room, params.number("message_id"), DELETE_NOT_FOUND)
    if room.kind != "private" and message["from"]["id"] != world.bot.id:
        raise bad("message can't be deleted")
    del room.messages[message["message_id"]]
    return True


def set_reaction(world: World, params: Params) -> bool:
    """Set at most one reaction of the bot, a plain emoji; an empty list takes it away."""
    room = world.room(params)
    message = world.message(room, params.number("message_id"), REACT_NOT_FOUND)
    reaction = params.objects("reaction", "reaction") or []
    if len(reaction) > 1:
        raise bad("REACTIONS_TOO_MANY")
    for one in reaction:
        if one.get("type") != "emoji" or one.get("emoji") not in _EMOJI:
            raise bad("REACTION_INVALID")
    room.reactions[message["message_id"]] = reaction
    return True
