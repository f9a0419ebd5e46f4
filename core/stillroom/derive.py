"""From equations to steps: the only file that knows sympy.

A block of equations is solved by elimination.  Unknowns that stand linearly are expressed
by the others, a table's argument last; what remains is one equation in one unknown.  A
polynomial of degree one or two is solved in closed form; anything else becomes a search
between the unknown's bounds.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import sympy
from sympy.core.function import AppliedUndef

from .formula import Tree

MAX_OPS = 400


@dataclass(frozen=True, slots=True)
class Found:
    """How one unknown is found: closed forms (``roots``), or the ``residual`` whose zero it is."""

    name: str
    roots: tuple[Tree, ...] = ()
    residual: Tree | None = None


class Unsolvable(Exception):
    """A block that elimination cannot bring down to one unknown."""


def solve_block(pairs: Sequence[tuple[Tree, Tree]], unknowns: Sequence[str]) -> list[Found]:
    """The steps that find every unknown of a block, in order.

    Raises Unsolvable if no order of elimination works.
    """
    symbols = {n: sympy.Symbol(n) for n in unknowns}
    exprs = [to_sympy(a, symbols) - to_sympy(b, symbols) for a, b in pairs]
    todo = list(unknowns)
    eliminated: list[tuple[str, Any]] = []
    while len(todo) > 1:
        exprs, todo = _eliminate(exprs, todo, symbols, eliminated)
    name = todo[0]
    last = _last(exprs, symbols[name])
    steps = [last if isinstance(last, Found) else Found(name, tuple(from_sympy(r) for r in last))]
    for name, value in reversed(eliminated):
        steps.append(Found(name, (from_sympy(value),)))
    return steps


def _eliminate(exprs: list[Any], todo: list[str], symbols: Mapping[str, Any],
               eliminated: list[tuple[str, Any]]) -> tuple[list[Any], list[str]]:
    best = None
    for i, e in enumerate(exprs):
        for name in todo:
            x = symbols[name]
            if not e.has(x):
                continue
            inside = any(f.has(x) for f in e.atoms(AppliedUndef))
            if inside:
                continue
            slope = sympy.together(sympy.diff(e, x))
            if slope == 0 or slope.has(x):
                continue
            argument = any(f.has(x) for other in exprs for f in other.atoms(AppliedUndef))
            others = sum(slope.has(symbols[n]) for n in todo)
            rank = (argument, others, sympy.count_ops(e), name)
            if best is None or rank < best[0]:
                best = (rank, i, name, slope)
    if best is None:
        raise Unsolvable
    _, i, name, slope = best
    x = symbols[name]
    value = sympy.together(-(exprs[i].subs(x, 0)) / slope)
    if value.has(sympy.zoo, sympy.nan):
        raise Unsolvable
    eliminated.append((name, value))
    rest = [e.subs(x, value) for k, e in enumerate(exprs) if k != i]
    for e in rest:
        if sympy.count_ops(e) > MAX_OPS:
            raise Unsolvable
    return rest, [n for n in todo if n != name]


def _last(exprs: list[Any], x: Any) -> list[Any] | Found:
    expr = exprs[0]
    if not expr.has(x):
        raise Unsolvable
    top = sympy.numer(sympy.together(expr))  # without poles, where a sign changes and nothing is found
    if any(f.has(x) for f in expr.atoms(AppliedUndef)):
        return Found(x.name, residual=from_sympy(top))
    if top.is_polynomial(x):
        poly = sympy.Poly(top, x)
        if poly.degree() <= 2:
            c = poly.all_coeffs()
            if len(c) == 2 and c[1] == 0:
                raise Unsolvable  # proportions alone: they admit naught of everything, and that finds nothing
            if len(c) == 2:
                return [sympy.cancel(-c[1] / c[0]) if sympy.count_ops(c) < 40 else -c[1] / c[0]]
            if len(c) == 3:
                root = sympy.sqrt(c[1] ** 2 - 4 * c[0] * c[2])
                return [(-c[1] + root) / (2 * c[0]), (-c[1] - root) / (2 * c[0])]
        return Found(x.name, residual=from_sympy(top))
    isolated = _isolate(expr, x)
    return [isolated] if isolated is not None else Found(x.name, residual=from_sympy(top))


def _isolate(expr: Any, x: Any) -> Any:
    positive = sympy.Symbol(x.name + "_positive", positive=True)
    try:
        roots = sympy.solve(expr.subs(x, positive), positive)
    except (NotImplementedError, ValueError, TypeError):
        return None
    if len(roots) != 1 or roots[0].has(sympy.I):
        return None
    return roots[0]


def redundant(pairs: Sequence[tuple[Tree, Tree]]) -> tuple[int, ...]:
    """The indices of equations that follow from the ones before them."""
    from .formula import names

    all_names = sorted({n for a, b in pairs for n in names(a) | names(b)})
    symbols = {n: sympy.Symbol(n) for n in all_names}
    known: list[tuple[Any, Any]] = []
    spare = []
    for i, (a, b) in enumerate(pairs):
        e = to_sympy(a, symbols) - to_sympy(b, symbols)
        for x, value in known:
            e = e.subs(x, value)
        e = sympy.numer(sympy.together(e))
        if sympy.count_ops(e) < MAX_OPS:
            e = sympy.expand(e)
        if e == 0:
            spare.append(i)
            continue
        inside = set().union(*(f.free_symbols for f in e.atoms(AppliedUndef)))
        for x in sorted(e.free_symbols - inside, key=str):
            slope = sympy.diff(e, x)
            if slope != 0 and not slope.has(x):
                value = sympy.together(-e.subs(x, 0) / slope)
                known = [(y, v.subs(x, value)) for y, v in known]
                known.append((x, value))
                break
    return tuple(spare)


def to_sympy(tree: Tree, symbols: Mapping[str, Any]) -> Any:
    """A tree as a sympy expression; functions stay opaque."""
    if isinstance(tree, float):
        return sympy.Integer(int(tree)) if tree == int(tree) and abs(tree) < 1e9 else sympy.Rational(repr(tree))
    if isinstance(tree, str):
        return symbols.get(tree) or sympy.Symbol(tree)
    if tree[0] == "call":
        return sympy.Function(tree[1])(*(to_sympy(t, symbols) for t in tree[2:]))
    a = [to_sympy(t, symbols) for t in tree[1:]]
    make: dict[str, Callable[..., Any]] = {
        "+": lambda: a[0] + a[1], "-": lambda: a[0] - a[1], "*": lambda: a[0] * a[1], "/": lambda: a[0] / a[1],
        "**": lambda: a[0] ** a[1], "neg": lambda: -a[0]}
    return make[tree[0]]()


def from_sympy(e: Any) -> Tree:
    """A sympy expression as a tree of ours.  Raises Unsolvable for anything else."""
    if e.is_Symbol:
        return str(e.name).removesuffix("_positive")
    if e.is_Rational or e.is_Float:
        return float(e)
    if isinstance(e, AppliedUndef):
        return ("call", e.func.__name__, *(from_sympy(a) for a in e.args))
    if e.is_Add:
        terms = sorted(e.args, key=lambda t: (t.could_extract_minus_sign(), str(t)))
        tree = from_sympy(terms[0])
        for t in terms[1:]:
            tree = ("-", tree, from_sympy(-t)) if t.could_extract_minus_sign() else ("+", tree, from_sympy(t))
        return tree
    if e.is_Mul:
        if e.could_extract_minus_sign():
            return ("neg", from_sympy(-e))
        top, bottom = e.as_numer_denom()
        if bottom != 1:
            return ("/", from_sympy(top), from_sympy(bottom))
        factors = [from_sympy(f) for f in e.args]
        tree = factors[0]
        for f in factors[1:]:
            tree = ("*", tree, f)
        return tree
    if e.is_Pow:
        if e.exp == -1:
            return ("/", 1.0, from_sympy(e.base))
        return ("**", from_sympy(e.base), from_sympy(e.exp))
    raise Unsolvable
