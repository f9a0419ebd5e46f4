"""``Round it up``: the last answer in whole numbers of its unit, beside what it is exactly."""

from __future__ import annotations

from math import ceil, floor
from typing import TYPE_CHECKING

from . import phrasing
from .context import recall
from .showing import NOTHING

if TYPE_CHECKING:
    from .intents import Heard, Talk

WAYS = {"up": ceil, "down": floor}
SAME = 1e-9


def hear(talk: Talk) -> Heard:
    """The whole number above (below, nearest) each number of the last answer; the chat's state stays as it is."""
    context = recall(talk.state.last, talk.kernel)
    answer = talk.kernel.answer(context.request) if context is not None else None
    if context is None or answer is None or answer.status != "answered":
        return phrasing.noted(talk.text, NOTHING), talk.state
    words = talk.text.lower().replace(".", " ").split()
    way = next((w for w in ("up", "down") if w in words), "")
    model, said = talk.kernel.models[context.request.calculator], []
    for v in answer.answer:
        own = model.variables.get(v.name)
        title, exact = own.title if own else v.name, phrasing.say(v, talk.kernel, context.request)
        whole = WAYS.get(way, round)(v.value - SAME if way == "up" else v.value)
        if abs(whole - v.value) < SAME:
            said.append(f"{title}: {exact} is a whole number already")
        else:
            number, _, unit = exact.partition(" ")
            said.append(f"{title}: {whole} {unit}".rstrip() + f" ({number} exactly)")
    return phrasing.noted(talk.text, "; ".join(said) + "."), talk.state
