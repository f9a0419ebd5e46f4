"""The methods that the fake server serves, by lower-case name (the Bot API ignores case)."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from ..params import Params
from ..webhook import Webhook
from ..world import World
from . import commands, edits, media, members, messages, queries, updates

Method = Callable[[World, Params], object]
HookMethod = Callable[[World, Webhook, Params], Awaitable[object]]

METHODS: dict[str, Method] = {
    "getme": commands.get_me,
    "setmycommands": commands.set_commands,
    "getmycommands": commands.get_commands,
    "deletemycommands": commands.delete_commands,
    "sendmessage": messages.send_message,
    "sendchataction": messages.send_chat_action,
    "deletemessage": messages.delete_message,
    "setmessagereaction": messages.set_reaction,
    "sendphoto": media.send_photo,
    "senddocument": media.send_document,
    "getfile": media.get_file,
    "editmessagetext": edits.edit_text,
    "editmessagecaption": edits.edit_caption,
    "editmessagereplymarkup": edits.edit_markup,
    "answercallbackquery": queries.answer_callback,
    "answerinlinequery": queries.answer_inline,
    "answerguestquery": queries.answer_guest,
    "getchatmember": members.get_chat_member,
    "leavechat": members.leave_chat,
}

HOOK_METHODS: dict[str, HookMethod] = {
    "getupdates": updates.get_updates,
    "setwebhook": updates.set_webhook,
    "deletewebhook": updates.delete_webhook,
    "getwebhookinfo": updates.get_webhook_info,
}
