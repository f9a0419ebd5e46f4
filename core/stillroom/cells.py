"""The one cell of a spec that is not known, found from what is said of the whole.

Two measures of vermouth at 18 % and some of a gin without a label make 30 %: the strength of the
gin follows.  The cell is searched so that the spec gives the value that was said.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from .errors import Contradiction, Missing, NotAnswered, OutOfBounds
from .messages import Amount, Line, Request
from .model import Model
from .roots import find_roots
from .specs import Cells, sums_of
from .units import PERCENTS, Unit

if TYPE_CHECKING:
    from .kernel import Kernel
    from .solver import Solution

SPANS = (1.0, 10.0, 1e3, 1e6)


@dataclass(frozen=True, slots=True)
class Found:
    """A cell that was found: ``attribute`` (or ``amount``) of ``thing``, the request with it, and what it rests on."""

    attribute: str
    thing: str
    base: float
    unit: Unit
    request: Request
    used: frozenset[str]

    @property
    def name(self) -> str:
        """The thing alone for its amount, else ``abv of gin``."""
        return self.thing if self.attribute == "amount" else f"{self.attribute} of {self.thing}"


def find_cell(kernel: Kernel, model: Model, request: Request, given: Mapping[str, float],
              rows: Mapping[str, str], cell: tuple[str, str]) -> Found | None:
    """The value of ``cell`` (attribute, thing) that agrees with what is given; None if nothing given decides it.

    Raises OutOfBounds where something given decides it and no value fits.
    """
    for target in sorted(given, key=lambda n: model.unit[n].kind not in PERCENTS):
        found = _found_from(kernel, model, request, given, rows, cell, target)
        if found is not None:
            return found
    return None


def _found_from(kernel: Kernel, model: Model, request: Request, given: Mapping[str, float], rows: Mapping[str, str],
                cell: tuple[str, str], target: str) -> Found | None:
    """The cell with which the spec gives the value of ``target`` that was said; None if that does not depend on it.

    Where the others that are given contradict each other at one value of the cell, they do at any.
    """
    attribute, thing = cell
    unit, solver = _unit(kernel, model, request, attribute, thing), kernel.solver(model.id)
    others = {n: v for n, v in given.items() if n != target}
    untold = replace(request, given={n: a for n, a in request.given.items() if n != target})
    rest = tuple(x for x in request.spec if x.thing != thing)
    of_the_rest = sums_of(kernel, model, replace(untold, spec=rest)) if rest else None

    def filled(base: float, lines: tuple[Line, ...]) -> tuple[Line, ...]:
        return tuple(_fill(x, attribute, thing, base, unit) for x in lines)

    own = tuple(x for x in request.spec if x.thing == thing)

    def solved(base: float) -> Solution:
        sums = sums_of(kernel, model, replace(untold, spec=filled(base, own)))
        return solver.solve({**others, **sums.added_to(of_the_rest, model)}, rows, (target,))

    def gap(base: float) -> float:
        try:
            with solver.blaming_nobody():
                return solved(base).values[target] - given[target]
        except NotAnswered as e:
            raise ValueError(str(e)) from None

    scale, decided = max((x.amount.base for x in request.spec if x.amount), default=100.0), False
    for span in (1.0,) if unit.kind in PERCENTS else [s * scale for s in SPANS]:
        try:
            solved(span)
        except (Missing, Contradiction):
            return None
        except (NotAnswered, ValueError, ZeroDivisionError, OverflowError):
            continue
        none, low, high = (_tried(gap, x) for x in (0.0, span * 1e-3, span))
        if low is None or high is None or low == high:
            continue
        decided = True
        if none is not None and _on_one_side(none, low, high):
            continue
        try:
            base = find_roots(thing, gap, 0.0, span)[0]
        except OutOfBounds:
            continue
        with_it = replace(request, spec=filled(base, request.spec))
        return Found(attribute, thing, base, unit, with_it, solved(base).used | {target})
    if decided:
        raise OutOfBounds(f"No possible {attribute} of {thing} makes that.")
    return None


def _unit(kernel: Kernel, model: Model, request: Request, attribute: str, thing: str) -> Unit:
    lines = model.calculator.lines
    assert lines is not None
    if attribute != "amount":
        line = next(x for x in request.spec if x.thing == thing)
        return Cells(kernel.units, lines, line, None).unit(attribute)
    said = request.units.get(thing) or next((x.amount.unit for x in request.spec if x.amount), "milliliter")
    return kernel.units[said]


def _fill(line: Line, attribute: str, thing: str, base: float, unit: Unit) -> Line:
    if line.thing != thing:
        return line
    amount = Amount(unit.from_base(base), unit.name, base)
    if attribute == "amount":
        return replace(line, amount=amount)
    return replace(line, attributes={**line.attributes, attribute: amount})


def _on_one_side(none: float, low: float, high: float) -> bool:
    """Do what a cell of nothing, of little and of much would make lie on one side of what was said, in order?

    A sum rises or falls all the way with one of its cells, and so does what follows from it.
    """
    return 0 < none <= low < high or high < low <= none < 0 or 0 < high < low <= none or none <= low < high < 0


def _tried(gap: Callable[[float], float], base: float) -> float | None:
    try:
        return gap(base)
    except (ValueError, ZeroDivisionError, OverflowError):
        return None
