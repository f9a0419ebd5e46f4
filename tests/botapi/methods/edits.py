"""editMessageText, editMessageCaption, editMessageReplyMarkup."""

from __future__ import annotations

from ..errors import (
    EDIT_NO_CAPTION,
    EDIT_NO_TEXT,
    EDIT_NOT_FOUND,
    EDIT_REFUSED,
    NOT_MODIFIED,
    TEXT_EMPTY,
    NotImitated,
    bad,
)
from ..formatting import formatted
from ..keyboards import inline_only, read_keyboard
from ..params import Json, Params
from ..world import Room, World


def _target(world: World, params: Params) -> tuple[Room, Json]:
    if params.text("inline_message_id"):
        raise NotImitated("inline_message_id")
    room = world.room(params)
    message = world.message(room, params.number("message_id"), EDIT_NOT_FOUND)
    if message["from"]["id"] != world.bot.id:
        raise bad(EDIT_REFUSED)
    return room, message


def _apply(
    world: World, params: Params, room: Room, message: Json, content: Json, source: str | None
) -> Json:
    """Change the content and the keyboard; a keyboard that is not given again goes away."""
    changes = content | {"reply_markup": inline_only(read_keyboard(params))}
    if all(message.get(name) == value for name, value in changes.items()):
        raise bad(NOT_MODIFIED)
    return world.rewrite(room, message, changes, source)


def edit_text(world: World, params: Params) -> Json:
    """Replace the text of a text message; raises 400 when nothing would change."""
    text, entities = formatted(params, "text")
    if not text:
        raise bad(TEXT_EMPTY)
    room, message = _target(world, params)
    if "text" not in message:
        raise bad(EDIT_NO_TEXT)
    content: Json = {"text": text, "entities": entities or None}
    return _apply(world, params, room, message, content, params.text("text"))


def edit_caption(world: World, params: Params) -> Json:
    """Replace or remove the caption of a photo or document."""
    caption, entities = formatted(params, "caption")
    room, message = _target(world, params)
    if "text" in message:
        raise bad(EDIT_NO_CAPTION)
    content: Json = {"caption": caption or None, "caption_entities": entities or None}
    return _apply(world, params, room, message, content, params.text("caption"))


def edit_markup(world: World, params: Params) -> Json:
    """Replace or remove the inline keyboard only."""
    room, message = _target(world, params)
    return _apply(world, params, room, message, {}, None)
