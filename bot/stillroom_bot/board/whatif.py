"""``What if I use 10 ml less syrup``: the question before, on other lines, beside what it came to."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from stillroom import Answer, Kernel, Request
from stillroom.errors import RequestError, StillroomError
from stillroom.units import Units

from ..state import State
from .changes import LESS, Unclear, by_so_much, with_line, without
from .lines import BadLine, LineReader
from .spec import KeptSpec

IF = re.compile(
    r"(?:\b(?:and|so|but)\s+)?\b(?:what if|what about|how about|suppose|if|and with|with|using|and)\b[\s,]*"
    r"(?:i|we|you)?\s*"
    r"(?:use|used|put|had|have|take|took|add|added|pour|poured|went|go with|try|tried|make it|made it)?\s*"
    r"(?:with|in)?\s*",
    re.I,
)
TURNED = re.compile(
    r"(?P<amount>\b(?:\d+(?:[.,]\d+)?|half an?|an?|one|two|three)\s*[a-z]+)\s+of\s+(?:the\s+)?(?P<thing>[a-z' ]+?)\s+"
    r"(?P<how>less|fewer|more)\b", re.I)
INSTEAD = re.compile(r"\b(?P<line>(?:[\d½¼¾]|half ).+?)(?:\s+instead(?:\s+of\s+[^,?]+)?)(?=$|[,?.])", re.I)
LEFT_OUT = re.compile(
    r"\b(?:without|no|leave out|skip|left out|skipped)\s+(?:the\s+|any\s+)?(?P<thing>[a-z' ]+?)(?=$|[,?.])", re.I
)
ASKS_WHAT_IF = re.compile(r"^\W*(?:and|so|but)?\s*(?:what if|what about|how about|suppose|if)\b", re.I)


@dataclass(frozen=True, slots=True)
class Other:
    """The spec with other lines, what is other, and the text without that."""

    spec: KeptSpec
    told: str
    rest: str


def other(text: str, spec: KeptSpec, lines: LineReader, units: Units) -> Other | None:
    """What a text changes of a spec for once; None where it changes nothing.  Raises Unclear."""
    rest = TURNED.sub(r"\g<amount> \g<how> \g<thing>", text)
    told: list[str] = []
    while len(told) < 4:
        less = LESS.search(rest)
        changed = by_so_much(spec, rest, lines, units) if less else None
        if less is None or changed is None:
            break
        spec, words = changed
        told.append(words)
        rest = f"{rest[: less.start()]} {rest[less.end() :]}"
    instead = INSTEAD.search(rest)
    if instead is not None:
        try:
            line = lines.read(instead["line"], units)
        except BadLine as e:
            raise Unclear(str(e)) from None
        if line is not None and line.amount is not None:
            spec = with_line(spec, line)
            told.append(f"{line.thing} {line.amount.said}")
            rest = f"{rest[: instead.start()]} {rest[instead.end() :]}"
    left_out = LEFT_OUT.search(rest)
    if left_out is not None and ASKS_WHAT_IF.match(text):
        spec = without(spec, left_out["thing"])
        told.append(f"no {left_out['thing'].strip()}")
        rest = f"{rest[: left_out.start()]} {rest[left_out.end() :]}"
    if not told:
        return None
    return Other(spec, "; ".join(told), " ".join(IF.sub(" ", rest).split()).strip(" ,;:?.!"))


def last_request(state: State, kernel: Kernel) -> Request | None:
    """The last request, if it stood on lines."""
    data = state.last if isinstance(state.last, Mapping) else None
    try:
        request = Request.from_json(data["request"]) if data else None
    except (KeyError, RequestError, TypeError):
        return None
    return request if request is not None and request.spec and request.calculator in kernel.models else None


def again(request: Request, spec: KeptSpec, kernel: Kernel) -> tuple[Request, Answer] | None:
    """The last request on other lines, solved; None where it cannot be."""
    changed = replace(request, spec=spec.lines)
    try:
        return changed, kernel.answer(changed)
    except StillroomError:
        return None
