"""Errors of the Bot API: status code, sentence, parameters.

Sentences that every caller shares are kept here as constants; they are written from memory of the
descriptions that the published server (tdlib/telegram-bot-api) and the hosted one return.
"""

from __future__ import annotations

from typing import Any

CHAT_NOT_FOUND = "chat not found"
CHAT_EMPTY = "chat_id is empty"
TEXT_EMPTY = "message text is empty"
TEXT_TOO_LONG = "message is too long"
CAPTION_TOO_LONG = "message caption is too long"
EDIT_NOT_FOUND = "message to edit not found"
EDIT_REFUSED = "message can't be edited"
EDIT_NO_TEXT = "there is no text in the message to edit"
EDIT_NO_CAPTION = "there is no caption in the message to edit"
NOT_MODIFIED = (
    "message is not modified: specified new message content and reply markup are exactly the same "
    "as a current content and reply markup of the message"
)
DELETE_NOT_FOUND = "message to delete not found"
REPLY_NOT_FOUND = "message to be replied not found"
REACT_NOT_FOUND = "message to react not found"
QUERY_TOO_OLD = "query is too old and response timeout expired or query ID is invalid"
WRONG_FILE = "wrong file identifier/HTTP URL specified"
POLL_UNDER_WEBHOOK = (
    "can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first"
)
POLL_SUPERSEDED = "terminated by other getUpdates request; make sure that only one bot instance is running"
BLOCKED = "bot was blocked by the user"
KICKED = "bot was kicked from the supergroup chat"
UPGRADED = "group chat was upgraded to a supergroup chat"


class ApiError(Exception):
    """An answer with `ok: false`."""

    def __init__(self, code: int, description: str, parameters: dict[str, Any] | None = None) -> None:
        super().__init__(description)
        self.code = code
        self.description = description
        self.parameters = parameters or {}

    def payload(self) -> dict[str, Any]:
        """The JSON body of the answer."""
        body: dict[str, Any] = {"ok": False, "error_code": self.code, "description": self.description}
        return body | ({"parameters": self.parameters} if self.parameters else {})


class NotImitated(Exception):
    """The bot asked for something that exists in the Bot API but not here.

    It is answered with 501 and raised again when the fake server closes, so that a test cannot pass
    by leaning on an absent feature.
    """


def bad(sentence: str) -> ApiError:
    """400 with the given sentence."""
    return ApiError(400, f"Bad Request: {sentence}")


def forbidden(sentence: str) -> ApiError:
    """403 with the given sentence."""
    return ApiError(403, f"Forbidden: {sentence}")


def conflict(sentence: str) -> ApiError:
    """409 with the given sentence."""
    return ApiError(409, f"Conflict: {sentence}")


def flood(seconds: int) -> ApiError:
    """429 with `retry_after` in whole seconds."""
    return ApiError(429, f"Too Many Requests: retry after {seconds}", {"retry_after": seconds})
