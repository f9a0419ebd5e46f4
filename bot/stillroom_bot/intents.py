"""What is asked for beside a sum: paper, pictures, reminders, plans.  One table, looked at before the reader.

An intent hears a message only if its pattern fits from the very beginning, and may still pass it on by
returning None: then the message is a question like any other.  Its module is imported when its pattern
fits, so that a question costs a few patterns and nothing else.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from importlib import import_module
from typing import TYPE_CHECKING

from .reply import Reply
from .state import State
from .when.zones import now_in

if TYPE_CHECKING:
    from stillroom import Kernel

Answer = Callable[[str, State], tuple[Reply, State]]


@dataclass(frozen=True, slots=True)
class Talk:
    """A message and all that an intent may know: the chat's state, the kernel, and what the clock says.

    ``answer`` is the conversation itself, for an intent that stands on a sum.
    """

    text: str
    state: State
    kernel: Kernel
    clock: Callable[[], datetime]
    answer: Answer

    @property
    def now(self) -> datetime:
        """The time in the chat's own zone."""
        return now_in(self.state.settings, self.clock())


Heard = tuple[Reply, State] | None


@dataclass(frozen=True, slots=True)
class Intent:
    """``pattern`` is how its messages begin; ``module`` (of this package) has ``hear(talk) -> Heard``."""

    pattern: re.Pattern[str]
    module: str

    def hear(self, talk: Talk) -> Heard:
        """The reply and the chat's new state, or None where the message is for somebody else."""
        if not self.pattern.match(talk.text):
            return None
        found: Heard = import_module(f".{self.module}", __package__).hear(talk)
        return found


def _begins(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"\s*(?:(?:please|ok|okay|now|and|then|could you|can you)\b,?\s+)*(?:{pattern})", re.IGNORECASE)


INTENTS = (
    Intent(_begins(r"(?:(?:set|change|use|our|my|the)\s+)*time ?zone\b"), "when.zones"),
)


def hear(talk: Talk) -> Heard:
    """What the first intent makes of the message that hears it; None for an ordinary question."""
    for intent in INTENTS:
        found = intent.hear(talk)
        if found is not None:
            return found
    return None
