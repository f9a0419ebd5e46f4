"""A plan: the steps that lead from what is given to what is wanted, as data and as a function.

On disk a plan is JSON: prefix lists over declared names, finite numbers, ``+ - * / **`` and
the calculator's own functions.  Reading it back checks every operator, arity, name,
size and depth; the function is built from ``ast`` nodes, never from text.  The checks are
not kept: they are the declaration's own equations, so that a file cannot talk them away.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from . import formula
from .formula import Tree
from .model import Model
from .roots import find_roots

MAX_STEPS = 60


@dataclass(frozen=True, slots=True)
class Step:
    """``name`` is one of ``roots``; or, without roots, a zero of ``residual`` between ``low`` and ``high``."""

    name: str
    roots: tuple[Tree, ...] = ()
    residual: Tree | None = None
    low: float = 0.0
    high: float = 0.0
    equation: int = -1


@dataclass(frozen=True)
class Plan:
    """``inputs`` are given or assumed values, then choices; ``needed`` steps find what is wanted.

    ``defaults`` are what is assumed, ``free`` an amount that may be anything; ``checks`` are pairs of sides
    that must agree, first those of the needed steps (``needed_checks`` of them).  ``path`` are the
    needed steps on which what is wanted rests; the others are found along with them.
    """

    inputs: tuple[str, ...]
    defaults: tuple[str, ...]
    free: str | None
    steps: tuple[Step, ...]
    needed: int
    checks: tuple[tuple[Tree, Tree], ...]
    needed_checks: int
    path: tuple[Step, ...] = ()

    @cached_property
    def used(self) -> frozenset[str]:
        """The names on which what is wanted rests."""
        return frozenset(n for t in self._trees for n in formula.names(t))

    @cached_property
    def called(self) -> frozenset[str]:
        """The functions on which what is wanted rests."""
        return frozenset(c[1] for t in self._trees for c in formula.calls(t))

    @property
    def _trees(self) -> list[Tree]:
        return [t for s in self.path for t in (*s.roots, s.residual or 0.0)]


Runner = Callable[..., tuple[tuple[float, ...], tuple[float, ...]]]


def build(plan: Plan, model: Model, part: str = "needed") -> Runner:
    """The plan as a function of its inputs (base numbers, row ids), then the picks and counts of roots.

    ``part`` is ``needed`` or ``extra``; the extra steps take the needed ones' results as inputs too.
    Returns (values of the steps, left and right sides of the checks alternating).
    """
    inputs = list(plan.inputs)
    steps, checks = plan.steps[:plan.needed], plan.checks[:plan.needed_checks]
    if part == "extra":
        inputs += [s.name for s in steps]
        steps, checks = plan.steps[plan.needed:], plan.checks[plan.needed_checks:]
    space: dict[str, Any] = {"_choose": _choose, "_find": find_roots, **formula.BUILTINS}
    space.update({"f_" + n: model.base_function(n) for n in model.functions})

    def name(n: str) -> ast.expr:
        return ast.Name(n, ast.Load())

    def call(f: str, args: list[ast.expr]) -> ast.expr:
        return ast.Call(ast.Name(f if f in formula.BUILTINS else "f_" + f, ast.Load()), args, [])

    def node(tree: Tree) -> ast.expr:
        return formula.to_ast(tree, name, call)

    body: list[ast.stmt] = []
    for s in steps:
        if len(s.roots) == 1:
            value = node(s.roots[0])
        else:
            if s.roots:
                roots: ast.expr = ast.Tuple([node(r) for r in s.roots], ast.Load())
            else:
                assert s.residual is not None
                search = ast.Lambda(ast.arguments([], [ast.arg(s.name)], None, [], [], None, []), node(s.residual))
                roots = ast.Call(name("_find"), [ast.Constant(s.name), search, ast.Constant(s.low),
                                                 ast.Constant(s.high)], [])
            value = ast.Call(name("_choose"), [roots, name("_pick"), name("_counts")], [])
        body.append(ast.Assign([ast.Name(s.name, ast.Store())], value))
    sides = [side for pair in checks for side in pair]
    body.append(ast.Return(ast.Tuple([ast.Tuple([name(s.name) for s in steps], ast.Load()),
                                      ast.Tuple([node(t) for t in sides], ast.Load())], ast.Load())))
    arguments = ast.arguments([], [ast.arg(i) for i in (*inputs, "_pick", "_counts")], None, [], [], None, [])
    return function_of(arguments, body, space, f"<plan of {model.id}>")  # type: ignore[no-any-return]


def function_of(arguments: ast.arguments, body: list[ast.stmt], space: dict[str, Any], where: str) -> Any:
    """A function compiled from checked nodes, never from text; ``space`` is all that it can reach."""
    function = ast.FunctionDef("run", arguments, body, [], None, None)
    if "type_params" in ast.FunctionDef._fields:
        function.type_params = []  # type: ignore[attr-defined,unused-ignore]
    exec(compile(ast.fix_missing_locations(ast.Module([function], [])), where, "exec"), space)
    return space["run"]


def _choose(roots: Sequence[Any], pick: Sequence[int], counts: list[int]) -> Any:
    counts.append(len(roots))
    return roots[pick[len(counts) - 1] if len(counts) <= len(pick) else 0]


def to_json(plan: Plan) -> dict[str, Any]:
    """What of a plan cannot be told from the declaration: its assumptions and its formulas."""
    j = formula.to_json
    return {"defaults": list(plan.defaults), "free": plan.free,
            "steps": [[s.name, [j(r) for r in s.roots], None if s.residual is None else j(s.residual)]
                      for s in plan.steps]}


def from_json(data: Any, model: Model) -> tuple[tuple[str, ...], str | None, list[Step]]:
    """Defaults, free amount and steps from untrusted JSON data; what they are worth is the planner's to judge.

    Raises ValueError, KeyError or TypeError if anything in it is not of this calculator.
    """
    defaults, free, steps = data["defaults"], data["free"], data["steps"]
    for name in (*defaults, *([] if free is None else [free])):
        if name not in model.variables:
            raise ValueError(f"{name!r} is not declared")
    if not isinstance(steps, list) or len(steps) > MAX_STEPS:
        raise ValueError("too many steps")
    return tuple(defaults), free, [_step(model, *step) for step in steps]


def _step(model: Model, name: str, roots: Any, residual: Any) -> Step:
    if name not in model.variables or not isinstance(roots, list) or bool(roots) == (residual is not None):
        raise ValueError("not a step")
    return Step(name, tuple(_tree(r, model) for r in roots), None if residual is None else _tree(residual, model))


def _tree(data: Any, model: Model) -> Tree:
    arity: dict[str, int | None] = {"min": None, "max": None, "ceil": 1, "floor": 1}
    arity.update({n: len(f.takes) for n, f in model.functions.items()})
    tree = formula.from_json(data, {*model.variables, *model.choices}, arity)
    if sum(1 for _ in formula.walk(tree)) > formula.MAX_NODES:
        raise ValueError("too large")
    for node in ("neg", tree), *formula.walk(tree):
        if isinstance(node, tuple):
            takes = model.functions[node[1]].takes if node[0] == "call" and node[1] in model.functions else ()
            for i, part in enumerate(node[2:] if node[0] == "call" else node[1:]):
                if (part in model.choices) != (takes[i:i + 1] == ("choice",)):
                    raise ValueError("a choice is no number")
    return tree
