"""Choices as buttons, and what a pressed button says: ``v1:<id>:<number of the choice>``.

The data come back from a client and may be old or forged: they only name a row of the store.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..reply import Reply
from .formatting import units
from .saying import COPY, Row

MOST = 24
LABEL = 60
COPIED = 256
"""Characters that a copy button may hold (Bot API, CopyTextButton)."""
HALF, TWICE = ("½ ×", "half of that"), ("2 ×", "double it")
PATTERN = re.compile(r"v1:([0-9a-f]{16}):(0|[1-9][0-9]?)\Z", re.ASCII)
GROWING = re.compile(r"(?:milli|centi|kilo)?(?:gram|liter)s?|(?:\w*_)?ounces?|pints?|quarts?|gallons?|cups?|pounds?")


def rows(id: str, choices: Sequence[str]) -> tuple[Row, ...]:
    """A button a row, for wet hands; at most ``MOST`` of them."""
    return tuple(((_label(choice), f"v1:{id}:{n}"),) for n, choice in enumerate(choices[:MOST]))


def again(id: str, reply: Reply, scales: bool) -> tuple[tuple[str, ...], tuple[Row, ...]]:
    """What may be done with an answer: the texts that are said, and the row of buttons."""
    copied = reply.headline.strip()
    copy = ((("Copy", COPY + copied),) if 0 < units(copied) <= COPIED else ())
    if not scales:
        return (), ((copy,) if copy else ())
    row = tuple((label, f"v1:{id}:{n}") for n, (label, _) in enumerate((HALF, TWICE)))
    return (HALF[1], TWICE[1]), (row + copy,)


def grows(unit: str) -> bool:
    """Is a unit one of amounts, that are twice as much for twice the batch?"""
    return GROWING.fullmatch(unit) is not None


def pressed(data: str | None) -> tuple[str, int] | None:
    """The id and the number of the choice, or None for data that this version did not make."""
    found = PATTERN.match(data or "")
    return (found[1], int(found[2])) if found else None


def _label(choice: str) -> str:
    text = " ".join(choice.split()) or "…"
    return text if len(text) <= LABEL else text[:LABEL - 1] + "…"
