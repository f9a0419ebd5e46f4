"""The working of the last answer, on request: ``show me the working``, ``how did you get that?``"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from . import phrasing
from .context import recall

if TYPE_CHECKING:
    from .intents import Heard, Talk

NOTHING = "There is nothing to show yet: ask me for a measure first."


def hear(talk: Talk) -> Heard:
    """The last answer again with every step of it; the chat's state stays as it is."""
    context = recall(talk.state.last, talk.kernel)
    if context is None:
        return phrasing.noted(talk.text, NOTHING), talk.state
    answer = talk.kernel.answer(context.request)
    if answer.status != "answered":
        return phrasing.noted(talk.text, answer.reason or NOTHING), talk.state
    money = str((talk.state.last or {}).get("money", ""))
    reply = phrasing.answered(talk.kernel, talk.text, context.request, answer, money=money)
    steps = answer.working or ("It follows from what was given, without any step between.",)
    return replace(reply, body=(*steps, *reply.body)), talk.state
