"""What a chat remembers of the job before: to be changed, scaled or asked for in another unit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from stillroom import Answer, Kernel, Request
from stillroom.units import Units

from .state import State


@dataclass(slots=True)
class Context:
    """The last request (or the one that waits for an answer), its result, and what it still needs."""

    request: Request
    result: tuple[tuple[str, float, str], ...] = ()
    missing: tuple[str, ...] = ()
    open: bool = False
    order: tuple[str, ...] = ()
    refused: str = ""
    own: Mapping[str, float] = field(default_factory=dict)
    choices: Mapping[str, Any] = field(default_factory=dict)


def remember(request: Request, answer: Answer, order: tuple[str, ...], units: Units) -> dict[str, Any]:
    """What a chat keeps of a request and its answer: plain data."""
    model_values = [[v.name, v.base, v.unit] for v in answer.answer]
    refused = {"refused": answer.reason} if answer.status == "declined" else {}
    return {"request": request.to_json(), "result": model_values, "order": list(order), **refused}


def recall(data: Mapping[str, Any] | None, kernel: Kernel) -> Context | None:
    """The context of a chat, or None where it cannot be used any more (a plugin has gone)."""
    if not data:
        return None
    try:
        request = Request.from_json(data["request"])
        if request.calculator not in kernel.models:
            return None
        return Context(
            request,
            tuple((str(n), float(b), str(u)) for n, b, u in data.get("result", ())),
            tuple(str(m) for m in data.get("missing", ())),
            bool(data.get("open")),
            tuple(data.get("order", ())),
            str(data.get("refused") or ""),
            choices=data.get("choices") or {},
            own={str(u): float(b) for u, b in dict(data.get("own") or {}).items()},
        )
    except Exception:
        return None


def settle_own(state: State, settings: Mapping[str, Any]) -> State:
    """The state with new settings; a size that the chat sets replaces what its last question said for itself."""
    changed = {k[5:] for k in {*settings, *state.settings} if settings.get(k) != state.settings.get(k)}
    if not changed:
        return state

    def kept(data: Mapping[str, Any] | None) -> Mapping[str, Any] | None:
        own = (data or {}).get("own")
        return {**data, "own": {u: x for u, x in own.items() if u not in changed}} if data and own else data

    return state.but(settings=dict(settings), last=kept(state.last), open=kept(state.open))
