"""The working: the steps of a plan read out with their numbers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from . import formula
from .formula import Tree
from .model import Model
from .units import Unit, Units

if TYPE_CHECKING:
    from .solver import Solution

LONGEST = 110


def work_out(model: Model, solution: Solution, units: Units, whole: Mapping[str, float]) -> tuple[str, ...]:
    """One line a step: the name, the formula, the same with numbers, the result."""
    lines = []
    values = {**solution.values}
    for s in solution.plan.path:
        if s.name not in values:
            continue
        unit = model.unit[s.name]
        result = _number(values[s.name], unit)
        title = model.variables[s.name].title
        if len(s.roots) == 1 and len(text := formula.show(s.roots[0])) <= LONGEST:
            numbers = _numbers(s.roots[0], model, values)
            lines.append(" = ".join(dict.fromkeys((title, text, numbers, result))))
        elif s.equation >= 0:
            lines.append(f"{title} = {result}, from {model.calculator.equations[s.equation].replace('_', ' ')}")
        else:
            lines.append(f"{title} = {result}")
    for step in model.calculator.steps:
        if step.name in whole:
            tree = formula.parse(step.formula)
            title = model.variables[step.name].title
            lines.append(f"{title} = {formula.show(tree)} = {_number(whole[step.name], model.unit[step.name])}")
    return tuple(lines)


def _number(base: float, unit: Unit) -> str:
    return f"{unit.from_base(base):.5g}{' ' + unit.symbol if unit.symbol else ''}"


def _numbers(tree: Tree, model: Model, values: Mapping[str, float]) -> str:
    text = {n: _number(values[n], model.unit[n]) for n in formula.names(tree) if n in values and n in model.unit}
    return formula.show(_substitute(tree, text))


def _substitute(tree: Tree, text: Mapping[str, str]) -> Tree:
    return formula.rename(tree, text)
