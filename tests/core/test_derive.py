"""From equations to steps: linear blocks, quadratics, searches, and equations that say nothing new."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stillroom import formula
from stillroom.derive import Found, Unsolvable, redundant, solve_block
from stillroom.errors import OutOfBounds
from stillroom.roots import find_roots


def pairs(*texts: str) -> list[tuple[formula.Tree, formula.Tree]]:
    return [formula.equation(t) for t in texts]


def run(found: list[Found], env: dict[str, float]) -> dict[str, float]:
    for f in found:
        assert len(f.roots) == 1
        env[f.name] = formula.evaluate(f.roots[0], env)
    return env


@pytest.mark.parametrize(
    ("equations", "unknowns", "known", "want"),
    [
        (["a = b * c"], "c", {"a": 6.0, "b": 2.0}, {"c": 3.0}),
        (["a = b * c"], "b", {"a": 6.0, "c": 4.0}, {"b": 1.5}),
        (["t = x + y", "s * t = p * x + q * y"], "xy", {"t": 10.0, "s": 0.3, "p": 0.1, "q": 0.6}, {"x": 6.0, "y": 4.0}),
        (["a = x + y", "b = x - y"], "xy", {"a": 7.0, "b": 1.0}, {"x": 4.0, "y": 3.0}),
        (["a = x + y + z", "b = x - y", "z = 2 * x"], "xyz", {"a": 9.0, "b": 1.0}, {"x": 2.5, "y": 1.5, "z": 5.0}),
        (["x / y = 3", "x + y = s"], "xy", {"s": 8.0}, {"x": 6.0, "y": 2.0}),
        (["a = x ** 3"], "x", {"a": 8.0}, {"x": 2.0}),
    ],
    ids=lambda x: " ; ".join(x) if isinstance(x, list) else "",
)
def test_blocks_with_one_solution(
    equations: list[str], unknowns: str, known: dict[str, float], want: dict[str, float]
) -> None:
    found = solve_block(pairs(*equations), list(unknowns))
    if any(not f.roots for f in found):
        (f,) = found
        assert find_roots(f.name, lambda x: formula.evaluate(f.residual or 0.0, {**known, f.name: x}), 0, 50) == (
            pytest.approx(want[f.name]),
        )
        return
    values = run(found, dict(known))
    assert {n: values[n] for n in want} == pytest.approx(want, rel=1e-12)


def test_a_quadratic_has_two_roots() -> None:
    first, second = solve_block(pairs("s = x + y", "p = x * y"), ["x", "y"])
    assert len(first.roots) == 2 and len(second.roots) == 1
    found = sorted(formula.evaluate(r, {"s": 7.0, "p": 12.0}) for r in first.roots)
    assert found == pytest.approx([3, 4])


def test_what_stands_in_a_table_is_searched_for() -> None:
    (found,) = solve_block(pairs("a = f(x) * b"), ["x"])
    assert found.residual is not None and not found.roots


def test_the_argument_of_a_table_is_eliminated_last() -> None:
    first, *rest = solve_block(pairs("m = f(x) * v", "s = x * m"), ["x", "m"])
    assert first.name == "x" and first.residual is not None and [f.name for f in rest] == ["m"]


@pytest.mark.parametrize("equations", [["a * x = b * y", "c * x = d * y"], ["x = y", "y = x"]], ids=str)
def test_proportions_alone_find_nothing(equations: list[str]) -> None:
    with pytest.raises(Unsolvable):
        solve_block(pairs(*equations), ["x", "y"])


@pytest.mark.parametrize(
    ("equations", "spare"),
    [
        (["a = b", "b = c"], ()),
        (["a = b", "b = c", "a = c"], (2,)),
        (["w = d * v", "a * v = b * f", "f = v + w", "a * v = b * (v + d * v)"], (3,)),
        (["a = b + c", "2 * a = 2 * b + 2 * c"], (1,)),
        (["a = b * c", "a / b = c"], (1,)),
        (["a = f(b)", "c = f(b)", "a = c"], (2,)),
        (["a = b", "a = b + 1"], ()),
    ],
    ids=str,
)
def test_equations_that_follow_from_the_others(equations: list[str], spare: tuple[int, ...]) -> None:
    assert redundant(pairs(*equations)) == spare


@given(st.lists(st.integers(1, 19).map(lambda i: i * 5), min_size=1, max_size=4, unique=True))
def test_every_root_of_a_polynomial_is_found(zeros: list[int]) -> None:
    """Roots that are at least two cells of the grid apart."""
    found = find_roots("x", lambda x: math.prod(x - z for z in zeros), 0, 98.3)
    assert [round(x, 6) for x in found] == sorted(zeros)


@pytest.mark.parametrize(
    ("curve", "low", "high", "want"),
    [
        (lambda x: x - 0.013, 0, 100, [0.013]),
        (lambda x: x * (x - 1.7), 0, 100, [0, 1.7]),
        (lambda x: (x - 50.3) * (x - 50.4), 0, 100, [50.3, 50.4]),
        (lambda x: (x - 99.99) * x, 0, 100, [0, 99.99]),
        (lambda x: math.log(x - 30) + 4, 0, 100, [30 + math.exp(-4)]),
        (lambda x: math.sqrt(40 - x) - 0.1, 0, 100, [39.99]),
        (lambda x: 1 / (x - 33.3), 0, 100, []),
        (lambda x: x**2 + 1, 0, 100, []),
        (lambda x: (x - 4) ** 0.5 - 1 if x >= 4 else (x - 4) ** 0.5, 0, 100, [5]),
    ],
    ids=[
        "near the bound",
        "a zero at the bound",
        "two in a cell",
        "at the far end",
        "beside where it starts",
        "beside where it ends",
        "a pole is no root",
        "none",
        "complex before",
    ],
)
def test_searches(curve, low: float, high: float, want: list[float]) -> None:
    try:
        found = [x for x in find_roots("x", curve, low, high) if abs(curve(x)) < 1e-6]
    except (OutOfBounds, ZeroDivisionError):
        found = []
    assert found == pytest.approx(want, abs=1e-9)


def test_no_root_is_said_by_name() -> None:
    with pytest.raises(OutOfBounds, match=r"^No old strength that is possible fits these values.$"):
        find_roots("old_strength", lambda x: x + 1, 0, 9)
