"""What is partly full beside full ones, and a part of several that nobody counted.

``Two full 70 cl bottles and one that's half full`` are two and a half of them; ``half of them ran over``, where no
number of them is told, is no number of any job.
"""

from __future__ import annotations

from dataclasses import replace

from .combining import VESSELS
from .message import Message
from .numbers import number_at
from .tokens import Token

LONGEST, FAR = 8, 6
ONE = frozenset({"one", "another"})
OF_WHICH = frozenset("that's that which is which's only about just roughly".split())
PRONOUNS = frozenset({"them", "these", "those"})


def partly_full(tokens: list[Token]) -> list[Token]:
    """The tokens with the number of full vessels and the part of another one as one number; the same tokens where
    nothing is partly full."""
    full = next((i for i, t in enumerate(tokens) if t.text == "full" and _part(tokens, i) is not None), 0)
    found = _part(tokens, full)
    if found is None:
        return tokens
    part, first = found
    one = first - 1
    while one > 0 and tokens[one].text in OF_WHICH:
        one -= 1
    if tokens[one].text not in ONE or tokens[one - 1].text not in ("and", "+", "plus"):
        return tokens
    vessel = next((i for i in range(one - 2, max(one - FAR, 0), -1) if tokens[i].stem in VESSELS), 0)
    for i in range(max(0, vessel - LONGEST), vessel):
        n = number_at(tokens, i)
        if n is not None and n.value == int(n.value) and n.first == n.last and n.other is None:
            number = f"{n.value + part:g}"
            some = replace(tokens[i], kind="number", text=number, stem=number)
            between = [t for t in tokens[i + 1 : one - 1] if t.text != "full"]
            return [*tokens[:i], some, *between, *tokens[full + 1 :]]
    return tokens


def _part(tokens: list[Token], full: int) -> tuple[float, int] | None:
    """The fraction that ends before token ``full``, and where it begins."""
    for first in range(max(0, full - 3), full):
        n = number_at(tokens, first)
        if n is not None and n.last == full - 1 and 0 < n.value < 1:
            return n.value, first
    return None


def of_nobody(m: Message) -> None:
    """Mark ``half of them`` where no number of anything is told before: a part of nothing that is counted."""
    for k, q in enumerate(m.quantities):
        after = [t.text for t in m.tokens[q.last + (m.tokens[q.last].text != "of") : q.last + 3]]
        after = after[after[:1] == ["of"] :]
        if q.bare and 0 < q.value < 1 and after[:1] and after[0] in PRONOUNS:
            counted = any(o.bare and not o.noise for o in m.quantities[:k])
            q.noise = q.noise or ("" if counted else "count")
