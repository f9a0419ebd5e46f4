"""The bar's own measures: sized by the trade, resized by a chat, or without any size."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from pathlib import Path


def rows() -> list[Mapping[str, str]]:
    """Rows of ``tables/measures.csv`` as the kernel reads units."""
    with (Path(__file__).parent / "tables" / "measures.csv").open(encoding="utf-8", newline="") as f:
        return list(csv.DictReader(f))
