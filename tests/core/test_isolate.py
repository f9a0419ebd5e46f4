"""Equations turned round by looking at them, against sympy's own solution of each."""

from __future__ import annotations

import math
import random

import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st
from stillroom import Kernel, formula
from stillroom.derive import redundant, to_sympy
from stillroom.isolate import bound, isolated

OPERATORS = ("+", "-", "*", "/")


@st.composite
def once(draw: st.DrawFn) -> formula.Tree:
    """A tree in which ``x`` stands once."""
    tree: formula.Tree = "x"
    for n in range(draw(st.integers(0, 5))):
        other = draw(st.sampled_from([f"a{n}", 3.0, ("+", f"a{n}", 2.0), ("call", "f", f"a{n}"), ("**", f"a{n}", 2.0)]))
        pair = draw(st.sampled_from([(tree, other), (other, tree)]))
        tree = draw(st.sampled_from([("neg", tree), *((sign, *pair) for sign in OPERATORS)]))
    return tree


@settings(deadline=None)
@given(once(), st.sampled_from(["b", ("+", "b", 1.0), ("call", "f", "b")]), st.booleans())
def test_what_is_turned_round_is_what_sympy_finds(tree: formula.Tree, other: formula.Tree, swapped: bool) -> None:
    left, right = (other, tree) if swapped else (tree, other)
    found = isolated(left, right, "x")
    assert found is not None and "x" not in formula.names(found)
    x = sympy.Symbol("x")
    want = sympy.solve(to_sympy(left, {}) - to_sympy(right, {}), x)
    assert len(want) == 1
    assert sympy.simplify(to_sympy(found, {}) - want[0]) == 0


@pytest.mark.parametrize(
    "text", ["a = x + x * b", "a = b", "a = x ** 2", "a = f(x)", "a = 2 ** x", "0 = x * a", "3 = x"])
def test_what_has_to_be_worked_out_is_left(text: str) -> None:
    assert isolated(*formula.equation(text), "x") is None


@pytest.mark.parametrize(
    ("equations", "among"),
    [
        (["a = b", "b = c"], ()),
        (["a = b", "b = c", "a = c"], (0, 1, 2)),
        (["d = a * e", "a = b", "b = c", "a = c", "e = g + h"], (1, 2, 3)),
        (["a = b", "a = b + 1"], (0, 1)),
    ],
    ids=str,
)
def test_equations_that_may_follow_from_one_another(equations: list[str], among: tuple[int, ...]) -> None:
    sides = [formula.equation(e) for e in equations]
    assert bound([formula.names(a) | formula.names(b) for a, b in sides]) == among
    everything = redundant(sides)
    assert tuple(among[i] for i in redundant([sides[i] for i in among])) == everything


def test_our_own_equations_are_turned_round_truly() -> None:
    """Values drawn at random that fulfil an equation once an unknown has been found from the others."""
    chance, tried = random.Random(7), 0
    for model in Kernel().models.values():
        for left, right in model.equations:
            names = formula.names(left) | formula.names(right)
            if any(formula.calls(left)) or any(formula.calls(right)) or names - model.variables.keys():
                continue
            for name in names:
                found = isolated(left, right, name)
                if found is None:
                    continue
                values = {n: chance.uniform(1, 50) for n in names if n != name}
                values[name] = formula.evaluate(found, values)
                a, b = (formula.evaluate(side, values) for side in (left, right))
                assert math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-9 * max(map(abs, values.values()))), (model.id, name)
                tried += 1
    assert tried > 500
