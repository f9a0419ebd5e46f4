"""``What if I use 10 ml less syrup``: the question before, on other lines, beside what it came to."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from stillroom import Answer, Kernel, Request
from stillroom.errors import RequestError, StillroomError
from stillroom.units import Units

from ..state import State
from .changes import LESS, Unclear, by_so_much, change, line_of, with_line, without
from .lines import BadLine, LineReader
from .showing import differences
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
SWAPPED = re.compile(
    r"\b(?:use|used|using|with|put|take|took|make it with)\s+(?P<new>[^\d,?.;]{2,40}?)\s+instead of\s+(?:the\s+)?"
    r"(?P<old>[^\d,?.;]{2,40}?)(?=$|[,?.;]|\s+in\b)", re.I)
ON_TOP = r"\b(?:if |and )?(?:it is |it's )?(?:topped |top )?(?:with |plus )?(?P<n>\d+(?:[.,]\d+)?\s*[a-z]+)\s+"
LEFT_OUT = re.compile(
    r"\b(?P<how>without|no|leave out|skip|left out|skipped)\s+(?:the\s+|any\s+)?(?P<thing>[a-z' ]+?)"
    r"(?=$|[,?.:;]|\s+(?:in|from)\b)", re.I)
ASKS_WHAT_IF = re.compile(r"^\W*(?:(?:and|so|but)\b\s*)?(?:what if|what about|how about|suppose|if)\b", re.I)


OTHER_LINE = re.compile(
    r"^\W*(?:and |but |now |ok |so |sorry,? |no,? )*(?:change|make|use|set|with|try|using|what about|if|what if)\s+"
    r"(?:(?:i|we|it)\s+)?(?:(?:use|used|change|changed|make|made|was|were|is)\s+)?(?P<what>.+?)(?:\s+instead)?$", re.I)


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
    swapped = SWAPPED.search(rest) if ASKS_WHAT_IF.match(text) or told else None
    old = line_of(spec, swapped["old"]) if swapped else None
    if swapped is not None and old is not None:
        thing = re.sub(r"^(?:the|our|some)\s+", "", swapped["new"].strip())
        new = replace(old, thing=thing, attributes={}, substance=lines.substance(thing))
        spec = spec.but(lines=tuple(new if x is old else x for x in spec.lines))
        told.append(f"{thing} instead of {old.thing}")
        rest = f"{rest[: swapped.start()]} {rest[swapped.end() :]}"
    for top in (x.thing for x in spec.lines if x.amount is None):
        poured = re.search(rf"{ON_TOP}(?:of\s+)?(?:the\s+)?{re.escape(top)}\b", rest, re.I)
        amount = lines.amount(poured["n"], units, top) if poured else None
        if poured is not None and amount is not None:
            spec = spec.but(lines=tuple(replace(x, amount=amount) if x.thing == top else x for x in spec.lines))
            told.append(f"{amount.said} {top}")
            rest = f"{rest[: poured.start()]} {rest[poured.end() :]}"
    left_out = LEFT_OUT.search(rest)
    things = re.split(r"\s+(?:and|or|nor)\s+(?:the\s+)?", left_out["thing"].strip()) if left_out is not None else []
    plainly = left_out is not None and left_out["how"].lower() != "no" and all(line_of(spec, x) for x in things)
    if left_out is not None and (plainly or ASKS_WHAT_IF.match(text)):
        for thing in things:
            spec = without(spec, thing)
        told.append(f"no {' and no '.join(things)}")
        rest = f"{rest[: left_out.start()]} {rest[left_out.end() :]}"
    if not told:
        return None
    return Other(spec, "; ".join(told), " ".join(IF.sub(" ", rest).split()).strip(" ,;:?.!"))


def other_line(text: str, spec: KeptSpec, lines: LineReader, units: Units) -> Other | None:
    """``change the gin to 50 ml``, ``with 40 ml gin``: another amount of a line, for once; None for a new line."""
    said = OTHER_LINE.match(text.strip(" .?!"))
    try:
        new = change(spec, "change", said["what"], lines, units) if said else None
    except (Unclear, BadLine):
        return None
    if new is None or len(new.lines) != len(spec.lines) or new.says_as(spec):
        return None
    told = "; ".join(differences(spec, new, units))
    return Other(new, f"{told}, for this once: the book stays as it is", "")


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
