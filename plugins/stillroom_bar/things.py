"""What a bar pours, weighs and counts, and what it never answers: the tables behind two hooks."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from pathlib import Path
from typing import Any

TABLES = Path(__file__).parent / "tables"


def rows_of(name: str) -> list[dict[str, str]]:
    """The rows of a table as text, the units in the column names left out."""
    with (TABLES / f"{name}.csv").open(encoding="utf-8", newline="") as f:
        return [{k.partition(" [")[0]: v for k, v in row.items() if k} for row in csv.DictReader(f)]


def substances() -> list[Mapping[str, Any]]:
    """Rows of ``tables/substances.csv``."""
    return list(rows_of("substances"))


def refusals() -> list[Mapping[str, Any]]:
    """Rows of ``tables/refusals.csv``."""
    return list(rows_of("refusals")) if (TABLES / "refusals.csv").exists() else []
