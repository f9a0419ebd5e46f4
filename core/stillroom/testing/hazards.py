"""Subjects that the trade warns of, and which of them a calculator is about without a caution that speaks of them.

A word in a declaration is no proof of a danger: what is found here is a reminder for its author.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from functools import cache
from importlib import resources
from typing import NamedTuple

from ..declare import Calculator
from ..substances import Substance


class Hazard(NamedTuple):
    """A subject, the words that tell it, parts of words of which a caution about it has one, what is usually said."""

    about: str
    words: frozenset[str]
    said: tuple[str, ...]
    usual: str


@cache
def hazards() -> tuple[Hazard, ...]:
    """The rows of ``hazards.csv``: common practice, no source."""
    text = resources.files(__package__).joinpath("hazards.csv").read_text("utf-8")
    return tuple(Hazard(row["about"], frozenset(_parts(row["words"])), _parts(row["said"]), row["usual"])
                 for row in csv.DictReader(text.splitlines()))


def unsaid(calculator: Calculator, substances: Iterable[Substance] = (), more: Iterable[str] = ()
           ) -> Iterator[tuple[str, str]]:
    """(subject with the words that tell it, what is usually said of it) of what no caution speaks of.

    ``substances`` are those of its plugin: they count where a variable or a spec takes them, and each of their
    ``allergens`` has to be named.  ``more`` are sentences beside its own cautions, such as those of its answers.
    """
    c = calculator
    taken = [s for s in substances if _takes(c, s)]
    told = {w for v in c.variables.values() for w in (*v.words, *v.things)} | {*c.words, *c.only}
    told |= {w for k in c.choices.values() for r in k.rows.values() for w in r.words}
    told |= {w for s in taken for w in s.words}
    single = told | {part for w in told for part in w.split()}
    spoken = " ".join((*cautions(c), *more)).lower()
    for h in hazards():
        if (words := sorted(h.words & single)) and not any(part in spoken for part in h.said):
            yield f"{h.about} (it says {', '.join(words)})", h.usual
    for s in taken:
        for allergen in _parts(str(s.values.get("allergens") or "").replace(";", ",")):
            if allergen not in spoken:
                yield f"{s.words[0]} with its allergen {allergen}", "an allergen: name it"


def cautions(calculator: Calculator) -> Iterator[str]:
    """Every sentence of a declaration that may warn: its own, those of its limits and of the rows of its choices."""
    yield from calculator.cautions
    yield from (x.reason for x in calculator.limits)
    for k in calculator.choices.values():
        for r in k.rows.values():
            yield from (r.caution, r.refuse)


def _takes(calculator: Calculator, substance: Substance) -> bool:
    return calculator.lines is not None or any(
        substance.kinds & {*v.things} for v in calculator.variables.values())


def _parts(text: str) -> tuple[str, ...]:
    return tuple(p.strip() for p in text.split(",") if p.strip())
