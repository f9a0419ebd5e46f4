"""After an answer with a time: the offer to remind.

Which time is the calculator's to say: a value of time that was asked for, else a time that it takes for granted
(how long a peel sugar stands, how long a foam keeps).
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from stillroom import Kernel
from stillroom.model import Model

from ..board.spec import KeptSpec
from ..paper.keeping import rows_named
from ..reply import Reply
from ..state import State
from ..when.moments import say_span

SHORTEST, LONGEST = 60.0, 400 * 86400.0
PASSED = ("from", "to")
"""Roles of times that have gone by, or are converted into one another."""
_TIMES: dict[str, tuple[Model, tuple[str, ...]]] = {}


def with_offer(kernel: Kernel, reply: Reply, state: State) -> tuple[Reply, State]:
    """The reply with an offer, and a state that remembers it, where the answer has a time to wait for."""
    if reply.status != "answered" or reply.calculator is None or state.last is None:
        return reply, state
    named = [r.id for r in rows_named(kernel, reply.question)]
    state = state.but(last={**state.last, "named": named}) if named else state
    found = _time(kernel, reply)
    if found is None or not SHORTEST <= found[1] <= LONGEST:
        return reply, state
    what, seconds = found
    span = say_span(seconds)
    over = "is over" if re.fullmatch(r"1 [a-z]+", span) else "are over"
    offer = {"seconds": seconds, "text": f"{what}: {span} {over} ({reply.headline})"}
    return replace(reply, body=(*reply.body, offer_line(span))), state.but(last={**(state.last or {}), "offer": offer})


def with_rest(kernel: Kernel, reply: Reply, state: State, spec: KeptSpec) -> tuple[Reply, State]:
    """The reply about so much of a kept spec, with an offer where it has to stand before it is used."""
    from ..board.plan_times import rest_of

    seconds, _ = rest_of(kernel, spec)
    if state.last is None or "offer" in state.last or not SHORTEST <= seconds <= LONGEST:
        return reply, state
    offer = {"seconds": seconds, "text": f"{spec.name} is ready"}
    line = f"It stands {say_span(seconds)}. {offer_line(say_span(seconds))}"
    return replace(reply, body=(*reply.body, line)), state.but(last={**state.last, "offer": offer})


def offer_line(span: str) -> str:
    """How a reminder is offered."""
    return f"Say “remind me” to be told in {span}."


def offered(state: State) -> tuple[float, str] | None:
    """The seconds and the text of the last offer, if there is one."""
    offer: Any = (state.last or {}).get("offer")
    try:
        return (float(offer["seconds"]), str(offer["text"])) if offer else None
    except (KeyError, TypeError, ValueError):
        return None


def _time(kernel: Kernel, reply: Reply) -> tuple[str, float] | None:
    """What the time is of, and its seconds."""
    model = kernel.models.get(reply.calculator or "")
    names = times_of(kernel, model) if model else ()
    if model is None or not names:
        return None
    title = model.calculator.title
    values = {v["name"]: v for v in (*reply.data.get("values", ()), *reply.data.get("answer", ()))}
    asked = reply.data["answer"][0]["name"] if reply.data.get("answer") else ""
    waits = [n for n in names if model.variables[n].default is not None]
    for name in ([asked] if asked in names else []) + waits:
        v = values.get(name)
        if v is not None:
            return title, kernel.units[v["unit"]].to_base(v["value"]) if v["unit"] in kernel.units else 0.0
        default = model.variables[name].default
        if isinstance(default, (int, float)):
            return title, model.unit[name].to_base(default)
    return None


def times_of(kernel: Kernel, model: Model) -> tuple[str, ...]:
    """The variables of a calculator that are times to wait for."""
    kept = _TIMES.get(model.id)
    if kept is None or kept[0] is not model:
        time = kernel.units["hour"].dimension
        names = tuple(n for n, v in model.variables.items()
                      if model.unit[n].dimension == time and v.role not in PASSED)
        kept = _TIMES[model.id] = (model, names)
    return kept[1]
