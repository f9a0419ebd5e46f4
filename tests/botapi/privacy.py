"""Which messages of a group reach a bot in privacy mode (core.telegram.org/bots/features#privacy-mode)."""

from __future__ import annotations

from .params import Json
from .world import Room, World


def addressed(world: World, room: Room, message: Json) -> bool:
    """Whether the server tells the bot: commands to it, replies to it, mentions of it.

    A private chat always does. That mentions count is common practice, not part of the documented list.
    """
    if room.kind == "private" or not world.privacy:
        return True
    if message.get("reply_to_message", {}).get("from", {}).get("id") == world.bot.id:
        return True
    raw = str(message.get("text", message.get("caption", ""))).encode("utf-16-le")
    name = f"@{world.bot.username}".lower()
    for entity in message.get("entities") or message.get("caption_entities") or []:
        start, length = entity["offset"] * 2, entity["length"] * 2
        word = raw[start : start + length].decode("utf-16-le").lower()
        if entity["type"] == "mention" and word == name:
            return True
        if entity["type"] == "bot_command" and ("@" not in word or word.endswith(name)):
            return True
    return False
