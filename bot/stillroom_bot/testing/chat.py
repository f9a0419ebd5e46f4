"""A chat without a front end: say something, get the reply, go on from there."""

from __future__ import annotations

from ..reply import Reply
from ..state import State
from ..talker import Talker


class FakeChat:
    """One person's conversation; ``state`` is what it remembers, ``replies`` all that was said."""

    def __init__(self, talker: Talker) -> None:
        self.talker = talker
        self.state = State()
        self.replies: list[Reply] = []

    def say(self, text: str) -> Reply:
        """The reply to a message, in the state that the ones before it left; errors come through."""
        reply, self.state = self.talker.answer(text, self.state)
        self.state = State.from_json(self.state.to_json())
        self.replies.append(reply)
        return reply
