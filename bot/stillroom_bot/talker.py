"""What a front end needs of a conversation, and how it keeps standing when that trips."""

from __future__ import annotations

import os
from typing import Protocol

from .reply import Reply
from .state import State

LONGEST = 4096
"""Characters of a message that are still read: as many as Telegram lets a person send."""


class Talker(Protocol):
    """``Conversation``, or a stand-in for it."""

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        """The reply to a message, and what the chat remembers now."""


def screened(talker: Talker, text: str, state: State | None = None) -> tuple[Reply, State]:
    """``talker.answer``, with a declined reply for a message that is empty or too long."""
    before = state or State()
    if not text.strip():
        return Reply("declined", text, "That line is empty: ask me for a measure."), before
    if len(text) > LONGEST:
        return Reply("declined", text, f"That is longer than the {LONGEST} characters that I read at once."), before
    return talker.answer(text, before)


def respond(talker: Talker, text: str, state: State | None = None) -> tuple[Reply, State]:
    """``screened``, with a declined reply for a message that trips the conversation.

    ``STILLROOM_DEBUG=1`` lets the error through.
    """
    before = state or State()
    try:
        return screened(talker, text, before)
    except Exception as e:
        if os.environ.get("STILLROOM_DEBUG") == "1":
            raise
        return Reply("declined", text, f"Something broke inside ({type(e).__name__}); nothing was worked out."), before


def working(talker: Talker, text: str, state: State | None = None) -> str:
    """How the answer to ``text`` was found, as plain text; a sentence where there is nothing to show."""
    why = getattr(talker, "why", None)
    if why is not None:
        return str(why(text, state or State()))
    reply, _ = respond(talker, text, state)
    return "\n".join(reply.working) or "There is no working to show for that."
