"""Subjects that the trade warns of, and which of them a calculator is about without a caution.

A word in a declaration is no proof of a danger: what is found here is a reminder for its author.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from functools import cache
from importlib import resources

from ..declare import Calculator


@cache
def hazards() -> tuple[tuple[str, frozenset[str], str], ...]:
    """(subject, words, what is usually said of it) by row of ``hazards.csv``: common practice, no source."""
    text = resources.files(__package__).joinpath("hazards.csv").read_text("utf-8")
    return tuple((row["about"], frozenset(w.strip() for w in row["words"].split(",")), row["usual"])
                 for row in csv.DictReader(text.splitlines()))


def unsaid(calculator: Calculator) -> Iterator[tuple[str, str]]:
    """(subject with the words that tell it, what is usually said of it) of a calculator without any caution."""
    c = calculator
    rows = [r for k in c.choices.values() for r in k.rows.values()]
    if c.cautions or any(x.action == "caution" for x in c.limits) or any(r.caution or r.refuse for r in rows):
        return
    words = {w for v in c.variables.values() for w in (*v.words, *v.things)} | {*c.words, *c.only}
    words |= {w for r in rows for w in r.words}
    single = words | {part for w in words for part in w.split()}
    for about, some, usual in hazards():
        if told := sorted(some & single):
            yield f"{about} (it says {', '.join(told)})", usual
