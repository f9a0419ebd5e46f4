"""Choices as buttons, and what a pressed button says: ``v1:<id>:<number of the choice>``.

The data come back from a client and may be old or forged: they only name a row of the store.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from telegram import InlineKeyboardButton, InlineKeyboardMarkup

MOST = 24
LABEL = 60
PATTERN = re.compile(r"v1:([0-9a-f]{16}):(0|[1-9][0-9]?)\Z", re.ASCII)


def keyboard(id: str, choices: Sequence[str]) -> InlineKeyboardMarkup:
    """A button a row, for wet hands; at most ``MOST`` of them."""
    return InlineKeyboardMarkup([[InlineKeyboardButton(_label(choice), callback_data=f"v1:{id}:{n}")]
                                 for n, choice in enumerate(choices[:MOST])])


def pressed(data: str | None) -> tuple[str, int] | None:
    """The id and the number of the choice, or None for data that this version did not make."""
    found = PATTERN.match(data or "")
    return (found[1], int(found[2])) if found else None


def _label(choice: str) -> str:
    text = " ".join(choice.split()) or "…"
    return text if len(text) <= LABEL else text[:LABEL - 1] + "…"
