"""Specs: what the lines add up to, and what a solution says of each line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from . import formula
from .errors import Missing
from .messages import Line, Request
from .model import Model
from .units import Unit

if TYPE_CHECKING:
    from .kernel import Kernel

VOLUME = (0.0, 3.0, 0.0, 0.0, 0.0, 0.0)


def sums_of(kernel: Kernel, model: Model, request: Request, assumptions: dict[str, None],
            sources: dict[str, None]) -> dict[str, float]:
    """The declared sums over the lines of the request's spec, on the base units.

    A line counts towards a sum only where its amount is of the sum's own dimension (sugar by
    weight is no part of a volume).  Raises Missing for a line without a needed attribute.
    """
    lines = model.calculator.lines
    if lines is None or not request.spec:
        return {}
    sums = {}
    for name, text in lines.sums.items():
        if name in request.given:
            continue
        tree = formula.parse(text)
        attributes = formula.names(tree) - {"amount"} - set(model.constants)
        total = 0.0
        for line in request.spec:
            if line.amount is None:
                continue
            env = {"amount": line.amount.base, **model.constants}
            if kernel.units[line.amount.unit].dimension != VOLUME and "amount" in formula.names(tree):
                if lines.columns.get("amount") != "any":
                    assumptions[f"{line.thing}: by weight or count, not part of the volume"] = None
                    continue
            for attribute in attributes:
                env[attribute] = _attribute(kernel, model, line, attribute, assumptions, sources)
            total += formula.evaluate(tree, env)
        sums[name] = total
    return sums


def _attribute(kernel: Kernel, model: Model, line: Line, attribute: str, assumptions: dict[str, None],
               sources: dict[str, None]) -> float:
    lines = model.calculator.lines
    assert lines is not None
    if attribute in line.attributes:
        return line.attributes[attribute].base
    unit = kernel.units[lines.columns[attribute]]
    column = lines.fills.get(attribute)
    substance = kernel.substances.get(line.substance or "")
    number = substance.number(column) if substance and column else None
    if number is None:
        if attribute in lines.needs and (substance is None or "spirit" in substance.kinds):
            raise Missing((attribute,), [(f"{attribute} of {line.thing}",)])
        return 0.0
    assert substance is not None
    if number:
        assumptions[f"{line.thing}: {attribute} {number:g} {unit.symbol} ({substance.source})"] = None
    return unit.to_base(number)


def values_of_lines(model: Model, request: Request, values: Mapping[str, float]) -> dict[str, tuple[float, Unit]]:
    """What the solution says of each line, by thing, in the line's own unit."""
    lines = model.calculator.lines
    if lines is None or not lines.each or not request.spec:
        return {}
    found: dict[str, tuple[float, Unit]] = {}
    for text in lines.each.values():
        tree = formula.parse(text)
        for line in request.spec:
            if line.amount is None or not formula.names(tree) <= {"amount", *values}:
                continue
            base = formula.evaluate(tree, {**values, "amount": line.amount.base})
            found[line.thing] = (base, model.units[request.units.get(line.thing, line.amount.unit)])
    return found
