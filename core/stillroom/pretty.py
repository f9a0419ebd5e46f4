"""Equations as sympy sets them: fractions over two lines, powers raised, names as they are read out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import sympy

from . import formula
from .formula import Tree

WIDE = 110
SIGNS = {"+": sympy.Add, "*": sympy.Mul}


def pretty(equation: str, names: Mapping[str, str] | None = None) -> str:
    """An equation (``"a = b / c"``) as text, of several lines where there is a fraction.

    ``names`` are what to call a variable; otherwise ``_`` becomes a space.  Raises FormulaError.
    """
    left, right = formula.equation(equation)
    whole = sympy.Eq(_expr(left, names or {}), _expr(right, names or {}), evaluate=False)
    return str(sympy.pretty(whole, use_unicode=True, num_columns=WIDE, order="none"))


def _expr(tree: Tree, names: Mapping[str, str]) -> Any:
    if isinstance(tree, float):
        return sympy.Integer(int(tree)) if tree == int(tree) and abs(tree) < 1e9 else sympy.Float(repr(tree))
    if isinstance(tree, str):
        return sympy.Dummy(names.get(tree, tree.replace("_", " ")))
    head, rest = tree[0], tree[1:]
    if head == "call":
        return sympy.Function(rest[0].replace("_", " "))(*(_expr(t, names) for t in rest[1:]))
    a = _expr(rest[0], names)
    if head == "neg":
        return sympy.Mul(-1, a, evaluate=False)
    b = _expr(rest[1], names)
    if head in SIGNS:
        return SIGNS[head](a, b, evaluate=False)
    if head == "-":
        return sympy.Add(a, sympy.Mul(-1, b, evaluate=False), evaluate=False)
    return sympy.Mul(a, sympy.Pow(b, -1, evaluate=False), evaluate=False) if head == "/" else sympy.Pow(
        a, b, evaluate=False)
