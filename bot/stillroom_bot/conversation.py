"""One conversation for every front end: a text and a state in, a reply and a state out."""

from __future__ import annotations

from stillroom import Kernel

from .reply import Reply
from .state import State


class Conversation:
    """Reads, solves and phrases.  It keeps nothing between calls but what the kernel keeps."""

    def __init__(self, kernel: Kernel):
        self.kernel = kernel

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        """The reply to a message, and what the chat remembers now.  Never raises for what a person wrote."""
        state = state or State()
        return Reply("declined", text, "I cannot read this yet."), state
