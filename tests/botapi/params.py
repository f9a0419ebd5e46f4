"""Parameters of a call, whichever of the four published ways they came.

A call may carry a query string, a URL-encoded form, a multipart form or a JSON object
(core.telegram.org/bots/api#making-requests). All become one mapping of typed values here.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any, TypeVar

from aiohttp import BodyPartReader, web

from .errors import bad

Json = dict[str, Any]
Plain = TypeVar("Plain")


def copied(value: Plain) -> Plain:
    """JSON data again, so that a change of one is none of the other."""
    if isinstance(value, dict):
        return {name: copied(x) for name, x in value.items()}  # type: ignore[return-value]
    return [copied(x) for x in value] if isinstance(value, list) else value  # type: ignore[return-value]

_NUMBERS = frozenset(
    {
        "chat_id",
        "message_id",
        "message_thread_id",
        "reply_to_message_id",
        "offset",
        "limit",
        "timeout",
        "max_connections",
        "cache_time",
        "from_chat_id",
        "user_id",
    }
)
_FLAGS = frozenset(
    {
        "disable_notification",
        "protect_content",
        "show_alert",
        "is_personal",
        "is_big",
        "drop_pending_updates",
        "allow_sending_without_reply",
        "disable_content_type_detection",
    }
)
_OBJECTS = frozenset(
    {
        "reply_markup",
        "reply_parameters",
        "link_preview_options",
        "entities",
        "caption_entities",
        "result",
        "results",
        "commands",
        "scope",
        "allowed_updates",
        "reaction",
        "button",
    }
)


@dataclass(frozen=True)
class Upload:
    """A file that came in a multipart form."""

    name: str
    mime: str
    data: bytes


def _typed(name: str, value: object) -> object:
    if not isinstance(value, str):
        return value
    if name in _NUMBERS and value.lstrip("-").isdecimal():
        return int(value)
    if name in _FLAGS:
        return value.lower() in {"true", "1", "yes", "t"}
    if name in _OBJECTS:
        try:
            return json.loads(value)
        except ValueError:
            return value
    return value


class Params:
    """Typed view of the parameters; a missing one reads as `None` or as the given default."""

    def __init__(self, values: Json, files: dict[str, Upload] | None = None) -> None:
        self.values: Json = {name: _typed(name, value) for name, value in values.items()}
        self.files = files or {}

    def text(self, name: str, default: str = "") -> str:
        """The parameter as text."""
        value = self.values.get(name)
        return default if value is None else str(value)

    def number(self, name: str, default: int = 0) -> int:
        """The parameter as a whole number; anything else reads as the default, as the server does."""
        value = self.values.get(name)
        return value if isinstance(value, int) else default

    def flag(self, name: str) -> bool:
        """The parameter as a yes or no; missing is no."""
        return bool(self.values.get(name))

    def objects(self, name: str, what: str) -> list[Any] | None:
        """A JSON array, or `None` when missing; raises 400 naming `what` when it is not an array."""
        value = self.values.get(name)
        if value is None or value == "":
            return None
        if not isinstance(value, list):
            raise bad(f"can't parse {what} JSON object")
        return value

    def object(self, name: str, what: str) -> Json | None:
        """A JSON object, or `None` when missing; raises 400 naming `what` when it is not an object."""
        value = self.values.get(name)
        if value is None or value == "":
            return None
        if not isinstance(value, dict):
            raise bad(f"can't parse {what} JSON object")
        return value

    def upload(self, name: str) -> Upload | None:
        """The file sent under this name, directly or as `attach://<part>`."""
        value = self.values.get(name)
        if isinstance(value, str) and value.startswith("attach://"):
            return self.files.get(value.removeprefix("attach://"))
        return self.files.get(name)


async def read_params(request: web.Request) -> Params:
    """Collect the parameters of a request."""
    values: Json = dict(request.query)
    if request.content_type == "multipart/form-data":
        files: dict[str, Upload] = {}
        async for part in await request.multipart():
            if not isinstance(part, BodyPartReader) or part.name is None:
                continue
            data = bytes(await part.read(decode=True))
            if part.filename is None:
                values[part.name] = data.decode("utf-8", "replace")
            else:
                mime = part.headers.get("Content-Type", "application/octet-stream")
                files[part.name] = Upload(part.filename, mime, data)
        return Params(values, files)
    if request.content_type == "application/json":
        try:
            body = await request.json()
        except ValueError as broken:
            raise bad("can't parse JSON object") from broken
        if not isinstance(body, dict):
            raise bad("object expected")
        return Params(values | body)
    return Params(values | dict(await request.post()))
