"""A plan made ready gives what the long way gives, and leaves to it whatever is out of the ordinary."""

from __future__ import annotations

from math import inf, isclose, nan
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stillroom import Calculator, Function, Kernel, var
from stillroom.errors import Contradiction, NotAnswered, OutOfBounds
from stillroom.solver import Solution, Solver

from .samples import BRINE, CLIMB, HILL, ROOM, TEA, kernel_of

AMOUNTS = st.floats(0.001, 1e6)


def solver_of(calculator: Calculator) -> Solver:
    return kernel_of(calculator).solver(f"{calculator.name}.{calculator.name}")


def warm(solver: Solver, values: dict[str, float], wanted: str) -> Solution:
    """The third solution of a call: the first derives the plan, the second makes it ready."""
    for _ in range(2):
        solver.solve(values, {}, (wanted,))
    return solver.solve(values, {}, (wanted,))


@settings(deadline=None)
@given(leaf=AMOUNTS, water=AMOUNTS)
def test_the_short_way_gives_what_the_long_way_gives(leaf: float, water: float) -> None:
    values = {"leaf": leaf, "water": water}
    short = warm(TEA_SOLVER, values, "dose")
    long = TEA_SOLVER._the_long_way(values, {}, ("dose",))
    assert dict(short.values) == dict(long.values)
    assert dict(short.origin) == dict(long.origin)
    assert short.plan is long.plan


TEA_SOLVER = solver_of(TEA)


@pytest.mark.parametrize(("calculator", "values", "wanted"), [
    (TEA, {"water": 1000.0}, "leaf"),
    (BRINE, {"strength": 0.1, "water": 90.0}, "salt"),
    (ROOM, {"edge": 33.0, "surface": 90.0}, "long"),
    (CLIMB, {"steps": 90.0, "people": 100.0}, "place"),
])
def test_the_fourth_time_is_as_the_first(calculator: Calculator, values: dict[str, float], wanted: str) -> None:
    solver = solver_of(calculator)
    first = solver.solve(values, {}, (wanted,))
    fourth = [solver.solve(values, {}, (wanted,)) for _ in range(3)][-1]
    assert fourth.values == first.values and dict(fourth.origin) == dict(first.origin)
    assert fourth.used == first.used


def test_a_default_stays_said_to_be_assumed() -> None:
    assert warm(solver_of(TEA), {"water": 1000.0}, "leaf").origin["dose"] == "assumed"


@pytest.mark.parametrize("bad", [-1.0, nan, inf])
def test_what_is_out_of_bounds_is_refused_as_before(bad: float) -> None:
    solver = solver_of(TEA)
    warm(solver, {"leaf": 8.0, "water": 1000.0}, "dose")
    with pytest.raises(NotAnswered) as short:
        solver.solve({"leaf": bad, "water": 1000.0}, {}, ("dose",))
    with pytest.raises(NotAnswered) as long:
        solver._the_long_way({"leaf": bad, "water": 1000.0}, {}, ("dose",))
    assert str(short.value) == str(long.value)


def test_dividing_by_nothing_is_refused_as_before() -> None:
    solver = solver_of(TEA)
    warm(solver, {"leaf": 8.0, "water": 1000.0}, "dose")
    with pytest.raises(OutOfBounds, match="zero"):
        solver.solve({"leaf": 8.0, "water": 0.0}, {}, ("dose",))


def test_a_contradiction_is_still_found() -> None:
    solver = solver_of(BRINE)
    agreed = {"salt": 10.0, "water": 90.0, "strength": 0.1}
    wanted = next(n for n in BRINE.variables if n not in agreed)
    warm(solver, agreed, wanted)
    with pytest.raises(Contradiction):
        solver.solve({**agreed, "strength": 0.2}, {}, (wanted,))


def test_two_roots_are_asked_about_however_often() -> None:
    solver = solver_of(HILL)
    said = set()
    for _ in range(4):
        with pytest.raises(NotAnswered) as e:
            solver.solve({"height": 0.75}, {}, ("place",))
        said.add(str(e.value))
    assert len(said) == 1


def test_a_table_is_asked_once_for_the_same_argument() -> None:
    asked = []

    def curve(x: float) -> float:
        asked.append(x)
        return 2 * x

    heating = Calculator(
        "heating", "Heating", var("start", "milliliter", bounds=(1, 500)), var("end", "milliliter"),
        equations=["end = start * grows(start)"],
        functions=[Function("grows", curve, ("milliliter",), "dimensionless", (0, 500))])
    solver = solver_of(heating)
    assert warm(solver, {"start": 10.0}, "end").values["end"] == 200.0
    asked.clear()
    solver.solve({"start": 10.0}, {}, ("end",))
    assert asked == [10.0]


def test_every_calculator_of_the_bar_is_solved_the_same_both_ways(tmp_path: Path) -> None:
    kernel = Kernel(tmp_path)
    compared = 0
    for id in list(kernel.models)[::6]:
        solver, model = kernel.solver(id), kernel.model(id)
        rows = {c: next(iter(k.rows)) for c, k in model.choices.items()}
        middles = {n: _middle(model.base_usual(n) or model.base_bounds(n)) for n in model.variables}
        for wanted in model.variables:
            try:
                plan = solver._the_long_way({n: v for n, v in middles.items() if n != wanted}, rows, (wanted,)).plan
                values = {n: middles[n] for n in plan.inputs if n in middles}
                long = solver._the_long_way(values, rows, (wanted,))
            except NotAnswered:
                continue
            for _ in range(3):
                short = solver.solve(values, rows, (wanted,))
            assert short.values.keys() == long.values.keys()
            assert all(isclose(short.values[n], long.values[n], rel_tol=1e-12) for n in long.values)
            compared += 1
    assert compared > 5


def _middle(ends: tuple[float | None, float | None]) -> float:
    low, high = ends
    return ((low or 0.0) + (high if high is not None else (low or 0.0) + 100.0)) / 2
