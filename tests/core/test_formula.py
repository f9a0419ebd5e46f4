"""The small language of formulas: what it takes, what it refuses, and what survives JSON."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stillroom import formula
from stillroom.errors import FormulaError

REFUSED = {
    "attribute": "a.b",
    "method": "a.real()",
    "dunder": "().__class__",
    "keyword call": "f(x=1)",
    "starred call": "f(*a)",
    "doubly starred call": "f(**a)",
    "call of a call": "f(1)(2)",
    "string": "'a'",
    "bytes": "b'a'",
    "f-string": "f'{a}'",
    "true": "True",
    "none": "None",
    "complex": "2j",
    "list": "[1]",
    "tuple": "1, 2",
    "comprehension": "[x for x in a]",
    "generator": "sum(x for x in a)",
    "lambda": "lambda: 1",
    "conditional": "a if b else c",
    "comparison": "a < b",
    "boolean": "a and b",
    "not": "not a",
    "walrus": "(a := 1)",
    "index": "a[0]",
    "floor division": "a // b",
    "modulo": "a % b",
    "matrix product": "a @ b",
    "shift": "1 << 99",
    "unary plus": "+a",
    "invert": "~a",
    "await": "await a",
    "statement": "import os",
    "empty": "",
    "two formulas": "a; b",
    "null byte": "a\0b",
    "unclosed": "(a",
    "too deep": "-" * 60 + "a",
    "far too deep": "-" * 1900 + "a",
    "brackets": "(" * 300 + "a" + ")" * 300,
    "too long": "1+" * 2000 + "1",
    "infinite": "1e999",
    "huge whole number": "9" * 400,
}


@pytest.mark.parametrize("text", REFUSED.values(), ids=REFUSED.keys())
def test_what_is_no_formula_is_refused(text: str) -> None:
    with pytest.raises(FormulaError):
        formula.parse(text)


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("a + b * c", ("+", "a", ("*", "b", "c"))),
        ("a - b - c", ("-", ("-", "a", "b"), "c")),
        ("a ** 2 / 3", ("/", ("**", "a", 2.0), 3.0)),
        ("-a ** 2", ("neg", ("**", "a", 2.0))),
        ("f(a, 1)", ("call", "f", "a", 1.0)),
        ("  a  ", "a"),
    ],
)
def test_trees(text: str, tree: formula.Tree) -> None:
    assert formula.parse(text) == tree


@pytest.mark.parametrize("text", ["a", "a = b = c", "a == b", "= b", "a ="])
def test_an_equation_has_two_sides(text: str) -> None:
    with pytest.raises(FormulaError):
        formula.equation(text)


@pytest.mark.parametrize("text", ["a", "a = b", "a < b < c", "a != b", "a in b", "a is b", "not a < b"])
def test_a_comparison_compares_two_sides(text: str) -> None:
    with pytest.raises(FormulaError):
        formula.comparison(text)


def test_the_sentence_names_the_formula() -> None:
    with pytest.raises(FormulaError) as e:
        formula.parse("a.b + 1")
    assert str(e.value) == (
        "'a.b + 1': only numbers, names, + - * / **, brackets and functions may stand in a formula."
    )


NAMES = ("a", "b", "c")
LEAVES = st.one_of(st.floats(0, 100, allow_nan=False), st.sampled_from(NAMES))
TREES = st.recursive(
    LEAVES,
    lambda t: st.one_of(
        st.tuples(st.sampled_from("+-*/"), t, t),
        st.tuples(st.just("neg"), t),
        st.tuples(st.just("call"), st.sampled_from(["min", "max"]), t, t),
    ),
    max_leaves=12,
)


@given(TREES)
def test_trees_survive_json(tree: formula.Tree) -> None:
    back = formula.from_json(json.loads(json.dumps(formula.to_json(tree))), set(NAMES), {"min": None, "max": None})
    assert back == tree


@given(TREES, st.tuples(*[st.floats(0.5, 9) for _ in NAMES]))
def test_a_shown_tree_means_the_same(tree: formula.Tree, numbers: tuple[float, ...]) -> None:
    """What a reader is shown, written back as a formula, has the same value (to the ten digits that are shown)."""
    env = dict(zip(NAMES, numbers, strict=True))
    text = formula.show(tree).replace("×", "*").replace("−", "-").replace("^", "**")
    try:
        want = formula.evaluate(tree, env)
        got = formula.evaluate(formula.parse(text), env)
        near = formula.evaluate(_rounded(tree), env)
    except (ZeroDivisionError, OverflowError):
        return
    assert got == near or math.isclose(got, near, rel_tol=1e-12) or not math.isclose(want, near, rel_tol=1e-6)


def _rounded(tree: formula.Tree) -> formula.Tree:
    if isinstance(tree, float):
        return float(f"{tree:.10g}")
    return tuple(_rounded(t) for t in tree) if isinstance(tree, tuple) else tree


BAD_JSON = {
    "unknown name": "x",
    "unknown function": ["call", "system", "a"],
    "no function": ["call"],
    "no arguments": ["call", "min"],
    "wrong arity": ["call", "one", "a", "b"],
    "unknown operator": ["%", "a", "b"],
    "one operand": ["+", "a"],
    "three operands": ["+", "a", "b", "c"],
    "not a number": float("nan"),
    "infinite": float("inf"),
    "true": True,
    "null": None,
    "object": {"+": 1},
    "empty": [],
    "list as operator": [["+"], "a"],
    "list as function": ["call", ["min"], "a"],
}


@pytest.mark.parametrize("data", BAD_JSON.values(), ids=BAD_JSON.keys())
def test_foreign_json_is_refused(data: object) -> None:
    with pytest.raises(ValueError):
        formula.from_json(data, {"a", "b", "c"}, {"min": None, "one": 1})


def test_deep_json_is_refused() -> None:
    data: object = "a"
    for _ in range(500):
        data = ["neg", data]
    with pytest.raises(ValueError, match="deep"):
        formula.from_json(data, {"a"}, {})


@pytest.mark.parametrize(("x", "up", "down"), [(2.0, 2, 2), (2.0000000001, 2, 2), (1.9999999999, 2, 2), (2.1, 3, 2)])
def test_rounding_forgives_the_last_digits(x: float, up: int, down: int) -> None:
    assert (formula.BUILTINS["ceil"](x), formula.BUILTINS["floor"](x)) == (up, down)


def test_renaming_leaves_functions_alone() -> None:
    assert formula.rename(("call", "a", "a", "b"), {"a": "z"}) == ("call", "a", "z", "b")
