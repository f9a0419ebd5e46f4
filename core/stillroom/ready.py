"""A plan made ready for one kind of question: everything that never changes is worked out beforehand.

What is left for each call is the arithmetic: the steps, what follows from them, the bounds of every value and
both sides of every check, in one generated function.  It gives None wherever anything is out of the ordinary
(a bound is crossed, a check fails, there are several roots, a table ends); the solver then goes the long way
round and says what is the matter.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from . import formula
from .formula import Tree
from .model import Model
from .plan import Plan, function_of
from .roots import find_roots
from .units import Unit

Ready = Callable[[Mapping[str, float]], "dict[str, float] | None"]

BOUNDS_SLACK = 1e-9
TOLERANCE = 1e-9
LARGEST = sys.float_info.max


def same(a: float, b: float) -> bool:
    """Do two base numbers agree as well as sums in floats can?"""
    return abs(a - b) <= TOLERANCE * max(abs(a), abs(b), 1e-6)


def bounds(model: Model, name: str) -> tuple[float | None, float | None, float]:
    """The physical bounds of a variable on the base units, and by how much a sum in floats may overstep them."""
    low, high = model.base_bounds(name)
    return low, high, BOUNDS_SLACK * max(1.0, abs(low or 0.0), abs(high or 0.0))


def usable(plan: Plan) -> bool:
    """Can a plan be made ready: no amount that may be anything, and no step with two closed forms?"""
    return plan.free is None and all(len(s.roots) <= 1 for s in plan.steps)


def make_ready(plan: Plan, model: Model, given: tuple[str, ...], fixed: Mapping[str, float],
               rows: Mapping[str, str]) -> Ready:
    """A function from the ``given`` names' base numbers to every value, or to None.

    ``fixed`` are the assumed inputs and ``rows`` the chosen rows: both are written into it.
    """
    return _Writer(plan, model, given, fixed, rows).function()


class _Writer:
    """Writes the function, as ``ast`` nodes and never as text.

    A call of a table is made once for the same arguments, however often it stands in steps and checks.
    """

    def __init__(self, plan: Plan, model: Model, given: tuple[str, ...], fixed: Mapping[str, float],
                 rows: Mapping[str, str]):
        self.plan, self.model, self.given, self.fixed, self.rows = plan, model, given, fixed, rows
        self.body: list[ast.stmt] = []
        self.called: dict[Tree, str] = {}
        self.space: dict[str, Any] = {"_find": find_roots, "_same": same, **formula.BUILTINS,
                      **{"f_" + n: f.call for n, f in model.functions.items()}}

    def function(self) -> Ready:
        inputs = [n for n in self.plan.inputs if n in self.given or n in self.fixed]
        for name in self.given:
            self._set(name, ast.Subscript(_name("given"), ast.Constant(name), ast.Load()))
            self._bound(name)
        for name, value in self.fixed.items():
            self._set(name, ast.Constant(value))
        for step in self.plan.steps:
            if step.roots:
                self._set(step.name, self._node(step.roots[0]))
            else:
                self._search(step.name, step.residual or 0.0, step.low, step.high)
            self._bound(step.name)
        steps = {(s.name, s.roots[0]) for s in self.plan.steps if s.roots}
        for left, right in self.plan.checks:
            if (left, right) not in steps and (right, left) not in steps:
                self._check(left, right)
        names = dict.fromkeys([*inputs, *self.given, *(s.name for s in self.plan.steps)])
        self.body.append(ast.Return(ast.Dict([ast.Constant(n) for n in names], [_name(n) for n in names])))
        wrong = [_name(e) for e in ("ValueError", "ZeroDivisionError", "OverflowError", "TypeError", "KeyError")]
        handler = ast.ExceptHandler(ast.Tuple(wrong, ast.Load()), None, [_nothing()])
        arguments = ast.arguments([], [ast.arg("given")], None, [], [], None, [])
        body: list[ast.stmt] = [ast.Try(self.body, [handler], [], [])]
        return function_of(arguments, body, self.space, f"<ready plan of {self.model.id}>")  # type: ignore[no-any-return]

    def _set(self, name: str, value: ast.expr) -> None:
        self.body.append(ast.Assign([ast.Name(name, ast.Store())], value))

    def _unless(self, test: ast.expr) -> None:
        self.body.append(ast.If(ast.UnaryOp(ast.Not(), test), [_nothing()], []))

    def _bound(self, name: str) -> None:
        """Leave where a value is outside its bounds, no number, or without an end."""
        low, high, slack = bounds(self.model, name)
        least = ast.Constant(-LARGEST if low is None else low - slack)
        most = ast.Constant(LARGEST if high is None else high + slack)
        self._unless(ast.Compare(least, [ast.LtE(), ast.LtE()], [_name(name), most]))

    def _check(self, left: Tree, right: Tree) -> None:
        """Leave where the two sides of an equation do not agree."""
        self._set("_left", self._node(left))
        self._set("_right", self._node(right))
        agree = ast.Call(_name("_same"), [_name("_left"), _name("_right")], [])
        self._unless(ast.BoolOp(ast.Or(), [ast.Compare(_name("_left"), [ast.Eq()], [_name("_right")]), agree]))

    def _search(self, name: str, residual: Tree, low: float, high: float) -> None:
        curve = ast.Lambda(ast.arguments([], [ast.arg(name)], None, [], [], None, []), self._node(residual, {name}))
        found = ast.Call(_name("_find"), [ast.Constant(name), curve, ast.Constant(low), ast.Constant(high)], [])
        self._set("_roots", found)
        one = ast.Compare(ast.Call(_name("len"), [_name("_roots")], []), [ast.Eq()], [ast.Constant(1)])
        self._unless(one)
        self._set(name, ast.Subscript(_name("_roots"), ast.Constant(0), ast.Load()))

    def _node(self, tree: Tree, searched: frozenset[str] | set[str] = frozenset()) -> ast.expr:
        for call in _inner_calls(tree):
            if call not in self.called and not formula.names(call) & searched and call[1] not in formula.BUILTINS:
                temporary = f"_call{len(self.called)}"
                self._set(temporary, self._plain(call))
                self.called[call] = temporary
        return self._plain(tree)

    def _plain(self, tree: Tree) -> ast.expr:
        if tree in self.called:
            return _name(self.called[tree])
        if isinstance(tree, str):
            return ast.Constant(self.rows[tree]) if tree in self.rows else _name(tree)
        if isinstance(tree, float):
            return ast.Constant(tree)
        if tree[0] == "call":
            return self._call(tree[1], [self._plain(t) for t in tree[2:]])
        if tree[0] == "neg":
            return ast.UnaryOp(ast.USub(), self._plain(tree[1]))
        return ast.BinOp(self._plain(tree[1]), formula.NODES[tree[0]](), self._plain(tree[2]))


    def _call(self, name: str, arguments: list[ast.expr]) -> ast.expr:
        """A call of a table, its arguments turned from the base into its units and what it gives turned back."""
        if name in formula.BUILTINS:
            return ast.Call(_name(name), arguments, [])
        function, units = self.model.functions[name], self.model.units
        taken = [a if t == "choice" else _from_base(a, units[t])
                 for t, a in zip(function.takes, arguments, strict=True)]
        return _to_base(ast.Call(_name("f_" + name), taken, []), units[function.gives])


def _from_base(node: ast.expr, unit: Unit) -> ast.expr:
    if unit.offset:
        node = ast.BinOp(node, ast.Sub(), ast.Constant(unit.offset))
    return node if unit.factor == 1.0 else ast.BinOp(node, ast.Div(), ast.Constant(unit.factor))


def _to_base(node: ast.expr, unit: Unit) -> ast.expr:
    if unit.factor != 1.0:
        node = ast.BinOp(node, ast.Mult(), ast.Constant(unit.factor))
    return ast.BinOp(node, ast.Add(), ast.Constant(unit.offset)) if unit.offset else node


def _inner_calls(tree: Tree) -> Iterator[tuple[str, ...]]:
    """The calls in a tree, inner ones first."""
    if isinstance(tree, tuple):
        for part in tree[2:] if tree[0] == "call" else tree[1:]:
            yield from _inner_calls(part)
        if tree[0] == "call":
            yield tree


def _name(name: str) -> ast.expr:
    return ast.Name(name, ast.Load())


def _nothing() -> ast.stmt:
    return ast.Return(ast.Constant(None))
