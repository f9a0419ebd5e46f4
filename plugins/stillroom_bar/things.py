"""What a bar pours, weighs and counts, what it must be warned of, and what it never answers.

The tables behind three hooks, and the rows of a table as a calculator's choice takes them.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stillroom import Answer, Request

TABLES = Path(__file__).parent / "tables"

HOLDS = {
    "abv": "spirit, wine, liqueur, beer, bitters",
    "sugar": "liqueur, juice, syrup, soda, wine, beer, dairy, fruit",
    "acid": "juice, wine, vinegar, liquid acid, fruit",
    "powder": "acid",
}
"""What kinds of things hold alcohol, sugar, acid, or are acid powder: for others a line of a spec counts none."""


def rows_of(name: str) -> list[dict[str, str]]:
    """The rows of a table as text, the units in the column names left out."""
    with (TABLES / f"{name}.csv").open(encoding="utf-8", newline="") as f:
        return [{k.partition(" [")[0]: v for k, v in row.items() if k} for row in csv.DictReader(f)]


def choices_of(name: str, key: str, low: str = "", high: str = "", unit: str = "") -> list[dict[str, str]]:
    """The rows of a table as ``stillroom.choice`` takes them.

    ``key`` is the column that names a row.  Keys of cautions become their sentences, and with
    ``refused`` the reason of a refusal; ``low`` and ``high`` are columns whose range in ``unit``
    is told with the source.
    """
    rows = []
    for row in rows_of(name):
        told = f"usual range {row[low]} to {row[high]} {unit}; " if row.get(low) and row.get(high) else ""
        sentences = said(row.get("caution", ""))
        rows.append(
            {
                **row,
                "id": row[key],
                "words": row["words"].replace(";", ","),
                "source": told + row["source"],
                "caution": "" if row.get("refused") else sentences,
                "refuse": sentences if row.get("refused") else "",
            }
        )
    return rows


@cache
def sentences() -> Mapping[str, str]:
    """The cautions by key."""
    return {row["key"]: row["sentence"] for row in rows_of("cautions")}


def said(keys: str) -> str:
    """The sentences of ``;``-separated caution keys.  KeyError for a key without a sentence."""
    return " ".join(sentences()[key.strip()] for key in keys.split(";") if key.strip())


def substances() -> list[Mapping[str, Any]]:
    """Rows of ``tables/substances.csv``."""
    return list(rows_of("substances"))


def refusals() -> list[Mapping[str, Any]]:
    """Rows of ``tables/refusals.csv``."""
    return list(rows_of("refusals")) if (TABLES / "refusals.csv").exists() else []


@cache
def warned_of() -> Mapping[str, tuple[str, ...]]:
    """The cautions of each substance that has any, by its id and by each of its words."""
    return {
        name: tuple(sentences()[key.strip()] for key in row["caution"].split(";"))
        for row in rows_of("substances")
        if row["caution"]
        for name in (row["id"], *row["words"].split(";"))
    }


def in_small_drops(request: Request, answer: Answer) -> bool:
    """Is something counted in drops of the usual size that falls in smaller ones?"""
    if request.choices.get("liquid") != "spirit" or "drop" in request.sizes:
        return False
    return "drop" in {a.unit for a in request.given.values()} | {v.unit for v in answer.answer}


def cautions(request: Request, answer: Answer) -> Iterable[str]:
    """What the lines of a spec and the things that were named must be warned of, and drops that fall small."""
    named = [line.substance or line.thing for line in request.spec] + list(request.things.values())
    told = [text for name in named for text in warned_of().get(name, ())]
    if in_small_drops(request, answer):
        told.append(said("drop-size"))
    return dict.fromkeys(told)
