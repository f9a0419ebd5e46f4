"""The bar's calculators, their tables and the physical functions that they stand on.

One subject a file, in the trade's order of work; each reads top to bottom as the trade
explains the job: what goes in, what comes out, what is true of them, what to beware of.
``tables`` are data files with a source on every row, ``physics`` are published formulas as plain
functions.  Nothing here formats an answer or reads a question.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from importlib import import_module
from typing import Any

from stillroom import Answer, Calculator, Request, hookimpl

from . import measures, things

SUBJECTS = (
    "solution",
    "stock",
    "drops",
    "hydrocolloid",
    "gelatine",
    "milk",
    "peel",
    "siphon",
    "siphon_gas",
    "conversion",
    "syrup",
    "acid",
    "strength",
    "dilution",
    "ice_time",
    "batch",
    "carbonation",
    "infusion",
    "fruit",
    "garnish",
    "cases",
    "cost",
    "alcohol",
    "keeping",
)


@hookimpl
def stillroom_calculators() -> Iterable[Calculator]:
    """Every calculator of every subject."""
    for subject in SUBJECTS:
        yield from import_module(f"{__name__}.{subject}").CALCULATORS


@hookimpl
def stillroom_units() -> list[Mapping[str, str]]:
    """Drops, dashes, barspoons, proof, Brix, and the measures that have no size."""
    return measures.rows()


@hookimpl
def stillroom_substances() -> list[Mapping[str, Any]]:
    """What a bar pours, weighs and counts."""
    return things.substances()


@hookimpl
def stillroom_refusals() -> list[Mapping[str, Any]]:
    """Subjects that are never answered."""
    return things.refusals()


@hookimpl
def stillroom_cautions(request: Request, answer: Answer) -> Iterable[str]:
    """What the lines of a spec must be warned of: allergens, raw egg, pressure."""
    return things.cautions(request, answer)
