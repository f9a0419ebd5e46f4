"""Replies and states as JSON, for another process or another day; a book goes with its state only once."""

from __future__ import annotations

import base64
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from ..reply import STATUSES, Attachment, Reply
from ..state import Here, State


class Nonsense(Exception):
    """What came back is no reply."""


def reply_to_plain(reply: Reply) -> dict[str, Any]:
    """All of a reply that a front end draws.  Raises Nonsense for what is none."""
    texts = (*reply.body, *reply.buttons, *reply.working, reply.headline)
    if reply.status not in STATUSES or not all(isinstance(x, str) for x in texts):
        raise Nonsense
    return {"status": reply.status, "question": reply.question, "headline": reply.headline, "body": list(reply.body),
            "buttons": list(reply.buttons), "working": list(reply.working), "calculator": reply.calculator,
            "data": dict(reply.data), "attachments": [file_to_plain(a) for a in reply.attachments]}


def reply_of_plain(data: Mapping[str, Any]) -> Reply:
    """The reply again."""
    return Reply(data["status"], data["question"], data["headline"], tuple(data["body"]), tuple(data["buttons"]),
                 tuple(data["working"]), data["calculator"], data["data"],
                 tuple(file_of_plain(a) for a in data["attachments"]))


def file_to_plain(file: Attachment) -> dict[str, str]:
    """A file, its bytes as base 64."""
    return {"name": file.name, "media": file.media, "caption": file.caption,
            "content": base64.b64encode(file.content).decode()}


def file_of_plain(data: Mapping[str, str]) -> Attachment:
    """The file again."""
    return Attachment(data["name"], data["media"], base64.b64decode(data["content"]), data["caption"])


def here_to_plain(here: Here) -> list[str | None]:
    """Who, and when."""
    return [here.who, here.now.isoformat() if here.now else None]


def here_of_plain(data: list[Any]) -> Here:
    """Who and when again."""
    return Here(data[0], datetime.fromisoformat(data[1]) if data[1] else None)


def state_to_plain(state: State) -> dict[str, Any]:
    """A state with who speaks, without its book."""
    return {"state": state.to_json(), "here": here_to_plain(state.here), "errand": state.errand}


def state_of_plain(data: Mapping[str, Any]) -> State:
    """The state again."""
    return State.from_json(data["state"]).but(here=here_of_plain(data["here"]), errand=data["errand"])
