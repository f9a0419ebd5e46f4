"""Requests from another program, a JSON object a line; answers the same way."""

from __future__ import annotations

import json
from typing import Any, BinaryIO, TextIO

from stillroom import Answer, Kernel
from stillroom.errors import StillroomError


def solve_lines(kernel: Kernel, lines: BinaryIO, out: TextIO) -> None:
    """Answer each request (``stillroom calculators --schema`` describes it) in order, flushing each answer.

    A line that is none, or names what is not there, gets a declined answer with the reason.
    """
    for raw in lines:
        if raw.strip():
            out.write(json.dumps(_answer(kernel, raw).to_json(), allow_nan=False) + "\n")
            out.flush()


def _answer(kernel: Kernel, raw: bytes) -> Answer:
    try:
        data: Any = json.loads(raw)
    except (ValueError, RecursionError):
        return Answer("declined", None, reason="That line is no JSON object.")
    try:
        return kernel.answer(kernel.request_from(data))
    except RecursionError:
        return Answer("declined", None, reason="That request is nested too deep.")
    except StillroomError as e:
        name = data.get("calculator") if isinstance(data, dict) else None
        return Answer("declined", name if isinstance(name, str) else None, reason=str(e))
