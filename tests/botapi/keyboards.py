"""What may stand under a message, and what the server refuses there."""

from __future__ import annotations

from urllib.parse import urlsplit

from .errors import bad
from .params import Json, Params

MAX_DATA = 64
"""Bytes of `callback_data` (core.telegram.org/bots/api#inlinekeyboardbutton)."""

MAX_BUTTONS = 100
"""Buttons of one inline keyboard (from memory of the limits that clients report)."""

MAX_COPY = 256
"""Characters of `copy_text` (core.telegram.org/bots/api#copytextbutton)."""

_ACTIONS = (
    "url", "callback_data", "web_app", "login_url", "switch_inline_query", "switch_inline_query_current_chat",
    "switch_inline_query_chosen_chat", "copy_text", "callback_game", "pay",
)  # fmt: skip
_OTHER_MARKUP = ("keyboard", "remove_keyboard", "force_reply")


def _check_button(button: object) -> None:
    if not isinstance(button, dict):
        raise bad("can't parse inline keyboard button: InlineKeyboardButton must be an Object")
    if not button.get("text"):
        raise bad("can't parse inline keyboard button: Can't find field \"text\"")
    actions = [name for name in _ACTIONS if name in button]
    if not actions:
        raise bad("can't parse inline keyboard button: Text buttons are unallowed in the inline keyboard")
    if len(actions) > 1:
        raise bad("BUTTON_TYPE_INVALID")
    if "callback_data" in button and not 1 <= len(str(button["callback_data"]).encode()) <= MAX_DATA:
        raise bad("BUTTON_DATA_INVALID")
    if "copy_text" in button and not 1 <= len(button["copy_text"].get("text", "")) <= MAX_COPY:
        raise bad("BUTTON_COPY_TEXT_INVALID")
    if "url" in button:
        parts = urlsplit(button["url"])
        if parts.scheme not in {"http", "https", "tg"} or not parts.netloc:
            raise bad(f"inline keyboard button URL '{button['url']}' is invalid: Wrong HTTP URL")


def read_keyboard(params: Params) -> Json | None:
    """The reply markup of a call; raises 400 when it is broken. An empty inline keyboard is none."""
    markup = params.object("reply_markup", "reply keyboard markup")
    return None if markup is None else check_keyboard(markup)


def check_keyboard(markup: Json) -> Json | None:
    """The markup without empty rows; raises 400 when a button is broken."""
    if any(name in markup for name in _OTHER_MARKUP):
        return markup
    rows = markup.get("inline_keyboard")
    if not isinstance(rows, list) or not all(isinstance(row, list) for row in rows):
        raise bad("can't parse reply keyboard markup JSON object")
    for row in rows:
        for button in row:
            _check_button(button)
    if sum(len(row) for row in rows) > MAX_BUTTONS:
        raise bad("REPLY_MARKUP_TOO_LONG")
    kept = [row for row in rows if row]
    return {"inline_keyboard": kept} if kept else None


def inline_only(markup: Json | None) -> Json | None:
    """The part of the markup that stays with the message: an inline keyboard or nothing."""
    return markup if markup and "inline_keyboard" in markup else None
