"""What follows an answer about a kept spec: so much of it instead, twice as much, what if it were made otherwise."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from zlib import crc32

from stillroom import Kernel, Line
from stillroom.answering import say_number
from stillroom.errors import RequestError

from ..reading.reader import Reader
from ..scaling import factor_of
from ..state import State
from .spec import KeptSpec
from .whatif import last_request
from .wording import NUMBER, PEOPLE, SIPHON, SIZE, Asked

OPENING = (
    r"(?:(?:and|then|now|ok|okay|so|or|but|sorry|no|please|actually|rather|i meant|what about|how about|what if|"
    r"(?:make|do|scale|batch|bring|change|take)(?: (?:it|that|this|them))?(?: (?:up|down))?|"
    r"(?:i|we)(?: (?:need|want|have|make|made))?|give me|if (?:i|we) (?:make|made|do|did))\b[\s,]*)*"
)
CLOSING = r"(?:\s+(?:instead|please|in all|in total|altogether|of it|of that|then|rather))*"
SO_MUCH = re.compile(
    rf"^(?P<opening>{OPENING})(?P<to>(?:for|to|at|x|×)\s*)?(?:(?P<v>{SIZE})|(?P<n>{NUMBER})(?P<people>\s+{PEOPLE})?)"
    rf"{CLOSING}$",
    re.I,
)

ONLY_A_SIPHON = re.compile(
    r"^(?:(?:it(?:'s| is)|we have|and|the|a|an|our|my)\s+)*(?P<siphon>(?:[\w.½]+\s+){1,3}siphons?)$", re.I)
"""The answer to which siphon it is."""
MADE = re.compile(
    r"^\W*(?:(?:and|what about|how about|what if|ok|now|if|when|it is|it's|i|we)\b\W*)*(?P<how>stir|shak)(?:red|en|e)?"
    r"(?:\s+(?:it|(?:over|on|with) ice))*\W*$", re.I)
"""How it is made cold, which tells its strength in the glass."""


THAT_LINE = re.compile(
    r"^\W*(?:(?:and|so|ok|then)\b\W*)*how (?:much|many) (?:of )?(?:the )?(?P<thing>[^\d?]{2,40}?) "
    r"(?:is|are|was|goes|do i need|do we need)(?: (?:in|for|to|into))?"
    r"(?: (?:that|it|those|them|this|there|all))*\W*$", re.I)
"""``how much gin is that?``"""
ITS = re.compile(r"^\W*(?:(?:and|so|ok)\b\W*)*(?:what(?:['’]?s| is| are)?\s+)?(?:the\s+|its\s+)?"
                 r"(?P<what>abv|strength|proof|cost|price)\W*$", re.I)


def of_that(text: str, last: About) -> str:
    """The question with ``@`` that ``how much gin is that?`` or ``and the cost?`` means; else none."""
    its, line = ITS.match(text), THAT_LINE.match(text)
    if its is not None:
        return f"{its['what'].lower().replace('price', 'cost')} of @"
    things = {w for x in last.spec.lines for w in x.thing.casefold().split()}
    if line is None or not last.amount or not set(line["thing"].casefold().split()) <= things:
        return ""
    return f"how much {line['thing']} for {last.amount} @"


def made_cold(text: str, last: About) -> str:
    """The question with ``@`` that ``and stirred?`` means after one of strength; else none."""
    found = MADE.match(text)
    if found is None or not re.search(r"\b(?:strong|strength|abv|proof)\b", last.said, re.I):
        return ""
    return f"how strong is the @ {'stirred' if found['how'].lower() == 'stir' else 'shaken'}"


@dataclass(frozen=True, slots=True)
class About:
    """What the last answer was about: a spec, its lines where they were other than it keeps, and what was asked.

    ``said`` is the question with ``@`` for the name; ``amount`` so much of the spec as was asked for, if that was.
    """

    spec: KeptSpec
    said: str = ""
    amount: str = ""
    lines: tuple[Line, ...] | None = None

    def named(self, text: str) -> tuple[str, int, int]:
        """A text with the name for ``@``, and where it stands."""
        start = text.index("@")
        return text.replace("@", self.spec.name), start, start + len(self.spec.name)


def kept_about(spec: KeptSpec, things: list[str], said: str, asked: Asked, lines: tuple[Line, ...] | None
               ) -> dict[str, Any]:
    """What a chat keeps of it: plain data."""
    more = {"lines": [x.to_json() for x in lines]} if lines is not None else {}
    return {"id": spec.id, "things": things, "said": said, "amount": asked.made or asked.total or asked.serves, **more}


def about(state: State, kernel: Kernel) -> About | None:
    """What the last answer was about, where it was about a kept spec that is still there."""
    data = (state.board or {}).get("about")
    request = last_request(state, kernel)
    if not isinstance(data, Mapping) or request is None:
        return None
    spec = state.book.latest.get(int(data.get("id", 0)))
    if spec is None or spec.gone:
        return None
    if [x.thing for x in request.spec] not in ([x.thing for x in spec.lines], list(data.get("things", ()))):
        return None
    try:
        lines = tuple(Line.from_json(x) for x in data["lines"]) if "lines" in data else None
    except RequestError:
        return None
    return About(spec, str(data.get("said", "")), str(data.get("amount", "")), lines)


def looking_at(state: State, id: int) -> dict[str, Any]:
    """What the board remembers of a spec that it shows: until something else is answered or asked, ``it`` is that."""
    return {"shown": [id, _trace(state)]}


def shown_in(state: State) -> KeptSpec | None:
    """The spec that was shown or changed last, if nothing else was answered since."""
    kept = (state.board or {}).get("shown")
    if not isinstance(kept, list) or len(kept) != 2 or kept[1] != _trace(state):
        return None
    spec = state.book.latest.get(int(kept[0]))
    return None if spec is None or spec.gone else spec


def spec_meant(state: State, kernel: Kernel) -> KeptSpec | None:
    """The kept spec that ``it`` or ``that`` means: the one that was shown last, or that the last answer was about."""
    shown = shown_in(state)
    if shown is not None:
        return shown
    last = about(state, kernel)
    return last.spec if last else None


def _trace(state: State) -> str:
    """What tells whether anything was answered, or asked back, since."""
    return f"{crc32(repr(((state.last or {}).get('result'), bool(state.open))).encode()):08x}"


def amount_instead(text: str, last: About, reader: Reader) -> str:
    """The question with ``@`` that a few words mean after the last one: ``for 5 litres``, ``double it``; else none."""
    plain = text.strip(" .?!")
    siphon = SIPHON.search(plain)
    if siphon is None and (bare := ONLY_A_SIPHON.match(plain)) and SIPHON.search(last.said):
        plain = f"in a {bare['siphon']}"
        siphon = SIPHON.search(plain)
    held = siphon.group().strip() if siphon else ""
    plain = (plain[: siphon.start()] + plain[siphon.end() :]).strip(" ,") if siphon else plain
    found = SO_MUCH.match(plain)
    if held and last.amount and re.fullmatch(OPENING, plain, re.I):
        amount = last.amount
    elif found is None:
        amount = _times(plain, last, reader)
    elif found["n"] and not (found["opening"] or found["to"] or found["people"] or _counted(last)):
        return ""
    else:
        amount = found["v"] or found["n"]
    if not amount:
        return ""
    asks_cost = re.search(r"\bcosts?\b", last.said) is not None
    return " ".join(f"{'cost of @ for' if asks_cost else '@ for'} {amount} {held}".split())


def _counted(last: About) -> bool:
    """Was so many of it the last that was asked?"""
    return re.fullmatch(NUMBER, last.amount, re.I) is not None


def _times(text: str, last: About, reader: Reader) -> str:
    """So many times as much as was asked last."""
    factor = factor_of(reader.take_apart(text))
    if factor is None:
        return ""
    before = reader.take_apart(last.amount).quantities if last.amount else []
    if len(before) != 1 or factor.absolute:
        return say_number(factor.value)
    units = before[0].units
    unit = reader.kernel.units[units[-1]] if units else None
    said = (next(iter(unit.words), unit.symbol)) if unit else ""
    return f"{factor.value * before[0].value:.9g} {said}".strip()


__all__ = ["About", "about", "amount_instead", "kept_about", "looking_at", "shown_in", "spec_meant"]
