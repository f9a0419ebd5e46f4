"""The bar's own measures: sized by the trade, resized by a chat, or without any size."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from pathlib import Path

from stillroom import choice

TRADE = "common practice, no source"


def rows() -> list[Mapping[str, str]]:
    """Rows of ``tables/measures.csv`` as the kernel reads units."""
    with (Path(__file__).parent / "tables" / "measures.csv").open(encoding="utf-8", newline="") as f:
        return list(csv.DictReader(f))


DROPPED = choice(
    "liquid",
    [
        {"id": "watery", "words": "saline, salt solution, rose water, orange flower water", "source": TRADE},
        {
            "id": "spirit",
            "words": "tincture, bitters, spirit, overproof, infusion, extract, absinthe, liqueur",
            "source": TRADE,
        },
    ],
    default="watery",
    words="what is dropped",
)
"""What falls in drops: spirit falls in smaller ones than water."""
