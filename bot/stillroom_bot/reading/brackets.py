"""What stands in brackets: people who are told of beside the job, numbers of an invoice or a table."""

from __future__ import annotations

from .message import Message
from .quantity import Quantity
from .tokens import Token

IN_BRACKETS, BRACKETS = 14, frozenset("()[]")
US, SAYING = frozenset("us you them".split()), frozenset("find found think thought like liked say said prefer".split())
PEOPLE = frozenset("people guests persons heads pax covers attendees delegates".split())


def bracket(t: list[Token], q: Quantity) -> tuple[int, int] | None:
    """Where the brackets around a number open and close."""
    first = q.first - 1
    while first >= 0 and q.first - first <= IN_BRACKETS and t[first].text not in BRACKETS:
        first -= 1
    if first < 0 or t[first].text not in ("(", "["):
        return None
    last = q.last + 1
    while last < len(t) and last - q.last <= IN_BRACKETS and t[last].text not in BRACKETS:
        last += 1
    return (first, last) if last < len(t) and t[last].text in (")", "]") else None


def among_references(m: Message, q: Quantity) -> bool:
    """``(order 2, 5 cases, table 9)``: a plain number in the brackets of an invoice's, a table's or a date's."""
    span = bracket(m.tokens, q)
    return span is not None and any(
        o.noise in ("reference", "date", "time") and span[0] < o.first < span[1] for o in m.quantities
    )


def in_brackets(t: list[Token], q: Quantity) -> bool:
    """``the tasting (24 guests, room 2)``, ``(a party of 9)``: people, in brackets."""
    if bracket(t, q) is None:
        return False
    before = [x.text for x in t[max(0, q.first - 2) : q.first]]
    after = t[q.last + 1].text if q.last + 1 < len(t) else ""
    return after in PEOPLE or before in (["party", "of"], ["group", "of"])


def listed_guests(t: list[Token], q: Quantity) -> bool:
    """``guest list: 112``, ``guest list 112``: people on a list; ``two of us find it strong``: who have a say."""
    after = [x.text for x in t[q.last + 1 : q.last + 4]]
    if after[:1] == ["of"] and len(after) > 2 and after[1] in US and after[2] in SAYING:
        return True
    return [x.text for x in t[max(0, q.first - 3) : q.first] if x.text != ":"][-2:] in (["guest", "list"],)
