"""getMe, setMyCommands, getMyCommands, deleteMyCommands."""

from __future__ import annotations

import json
import re

from ..errors import bad
from ..params import Json, Params
from ..world import World

MAX_COMMANDS = 100
"""Commands of one scope and language (core.telegram.org/bots/api#setmycommands)."""

_NAME = re.compile(r"[a-z0-9_]{1,32}\Z")
_SCOPES = frozenset(
    {"default", "all_private_chats", "all_group_chats", "all_chat_administrators", "chat",
     "chat_administrators", "chat_member"}
)  # fmt: skip


def get_me(world: World, params: Params) -> Json:
    """The bot itself."""
    return world.bot.as_json() | {
        "can_join_groups": True,
        "can_read_all_group_messages": not world.privacy,
        "supports_inline_queries": True,
        "can_connect_to_business": False,
        "has_main_web_app": False,
    }


def _shelf(params: Params) -> tuple[str, str]:
    scope = params.object("scope", "BotCommandScope") or {"type": "default"}
    if scope.get("type") not in _SCOPES:
        raise bad("can't parse BotCommandScope: unsupported type specified")
    return json.dumps(scope, sort_keys=True), params.text("language_code")


def _checked(command: object) -> Json:
    if not isinstance(command, dict):
        raise bad("expected an Array of BotCommand")
    name, description = str(command.get("command", "")).removeprefix("/"), str(command.get("description", ""))
    if not _NAME.match(name):
        raise bad("BOT_COMMAND_INVALID")
    if not description.strip():
        raise bad("command description must be non-empty")
    if len(description) > 256:
        raise bad("BOT_COMMAND_DESCRIPTION_INVALID")
    return {"command": name, "description": description}


def set_commands(world: World, params: Params) -> bool:
    """Set the commands of one scope and language."""
    commands = [_checked(command) for command in params.objects("commands", "list of commands") or []]
    if len(commands) > MAX_COMMANDS:
        raise bad("BOT_COMMANDS_TOO_MUCH")
    world.commands[_shelf(params)] = commands
    return True


def get_commands(world: World, params: Params) -> list[Json]:
    """The commands of exactly this scope and language; an empty list when none were set."""
    return world.commands.get(_shelf(params), [])


def delete_commands(world: World, params: Params) -> bool:
    """Forget the commands of one scope and language."""
    world.commands.pop(_shelf(params), None)
    return True
