"""Plain sentences that a declaration lets one expect, made of its words and of sensible numbers."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from stillroom import Kernel
from stillroom.model import Model
from stillroom.testing import solve_directions
from stillroom.testing.drawing import span

MOST_GIVEN, MOST_SENTENCES = 2, 8
WORDS_APIECE = 2


def sentences(kernel: Kernel, calculator: str) -> Iterator[str]:
    """``how much leaf for 1.5 l of water?``, for the variables of a calculator: at most ``MOST_SENTENCES``.

    Each asks for one variable from at most two others that determine it, by the first words that each has;
    a row is named where none is the default.
    """
    return islice(_all(kernel, calculator), MOST_SENTENCES)


def _all(kernel: Kernel, calculator: str) -> Iterator[str]:
    model = kernel.model(calculator)
    rows = {n: k.default or next(iter(k.rows)) for n, k in model.choices.items() if k.rows}
    named = [k.rows[rows[n]].words[0] for n, k in model.choices.items() if n in rows and not k.default]
    end = f" with {' and '.join(named)}" if named else ""
    for d in solve_directions(kernel, calculator, rows, 1):
        v = model.variables[d.hidden]
        if v.shy or not v.words or not 1 <= len(d.given) <= MOST_GIVEN:
            continue
        said = [part for n in d.given if (part := _amount(model, n))]
        if len(said) == len(d.given):
            how = "how many" if model.unit[d.hidden].kind == "count" else "how much"
            for word in v.words[:WORDS_APIECE]:
                yield f"{how} {word} for {' and '.join(said)}{end}?"


def _amount(model: Model, name: str) -> str:
    """An amount in the middle of where it is usual, to two digits; empty where it cannot be said."""
    unit, v = model.unit[name], model.variables[name]
    low, high = span(model, name)
    middle = (low * high) ** 0.5 if low > 0 else (low + high) / 2
    if not v.words or not (unit.symbol or unit.kind in ("count", "ratio")):
        return ""
    return f"{float(f'{middle:.2g}'):g} {unit.symbol} of {v.words[0]}".replace("  of", "")
