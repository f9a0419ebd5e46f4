"""The kit finds what it is there to find."""

from __future__ import annotations

import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stillroom import Calculator, Function, choice, limit, var
from stillroom.testing import Direction, Point, assert_same, check, points, rows, solve_directions, specs, values
from stillroom.testing.directions import determined

from .samples import BRINE, CLIMB, HILL, INK, ROOM, TEA, kernel_of, slope
from .test_specs import BLEND

KERNEL = kernel_of(TEA, BRINE, ROOM, CLIMB, HILL, BLEND)
EXAMPLE = {"example": ("how much?", "1 gram"), "source": "made up"}


def problems(calculator: Calculator, **more: int) -> list[str]:
    return [str(p) for p in check(kernel_of(calculator), f"{calculator.name}.{calculator.name}", **more).problems]


def test_a_good_calculator_has_no_problems() -> None:
    report = check(KERNEL, "tea.tea")
    assert not report.problems and report.points == 3 and report.asked == 9
    assert str(report) == "tea.tea: 3 points, 9 directions"


@pytest.mark.parametrize("calculator", ["brine", "room", "climb", "blend"])
def test_the_others_lack_only_examples(calculator: str) -> None:
    report = check(KERNEL, f"{calculator}.{calculator}")
    assert {p.kind for p in report.problems} <= {"declaration"} and report.points == 3


def test_several_answers_are_told_not_blamed() -> None:
    report = check(KERNEL, "hill.hill")
    assert any("More than one place fits" in t for t in report.told)
    assert {p.kind for p in report.problems} <= {"declaration"}


def test_a_table_that_is_searched_in_a_part_of_where_it_is_used() -> None:
    """The hill is used from 0 to 100 but searched to 40 only, so that one of two places is never told."""
    part = Function("arc", lambda t: t * (100 - t) / 25, ("percent",), "percent", (0, 40), "made up")
    found = problems(
        Calculator("hill", "t", *HILL.parts, equations=HILL.equations, functions=[part], **EXAMPLE), examples=9
    )
    assert any(p.startswith("direction: place from height: found ") or "No place that is possible" in p for p in found)


def test_a_table_that_is_not_the_same_twice() -> None:
    count = iter(range(10**6))
    drift = Function(
        "slope", lambda t: slope(t) * (1 + next(count) * 1e-6), ("percent",), "percent", (0, 100), "made up"
    )
    calculator = Calculator("climb", "t", *CLIMB.parts, equations=CLIMB.equations, functions=[drift], **EXAMPLE)
    assert problems(calculator)


def test_limits_that_leave_nothing() -> None:
    never = limit("leaf >= 2 * leaf + leaf", "refuse", "Never.")
    found = problems(Calculator("tea", "t", *TEA.parts, equations=TEA.equations, limits=[never], **EXAMPLE))
    assert found == ["points: no consistent point was found within bounds, usual ranges and limits"]


@pytest.mark.parametrize(
    ("calculator", "sentence"),
    [
        (Calculator("c", "t", var("a", "gram"), example=("q", "a")), "no source is named"),
        (Calculator("c", "t", var("a", "gram"), source="s"), "no example is given"),
        (
            Calculator("c", "t", var("a", "gram"), source="s", example=("how much?", " ")),
            "the example 'how much?' lacks its question or its answer",
        ),
        (Calculator("c", "t", var("a", "gram", default=-1), **EXAMPLE), "the default of a is -1, outside its bounds"),
        (
            Calculator("c", "t", var("a", "gram", usual=(5, 2)), **EXAMPLE),
            "the usual range of a is (5, 2), no range within its bounds",
        ),
        (
            Calculator("c", "t", var("a", "gram", bounds=(0, 9), usual=(5, 12)), **EXAMPLE),
            "the usual range of a is (5, 12), no range within its bounds",
        ),
        (Calculator("c", "t", var("a", "gram"), choice("k", []), **EXAMPLE), "the choice k has no rows"),
        (
            Calculator(
                "c",
                "t",
                var("a", "gram"),
                choice("k", [{"id": "r", "source": "s", "a": -4}], fills={"a": "a"}),
                **EXAMPLE,
            ),
            "a of the row r is -4, outside its bounds",
        ),
        (
            Calculator("c", "t", var("a", "gram"), limits=[limit("a >= 0", "refuse", " ")], **EXAMPLE),
            "the limit 'a >= 0' gives no reason",
        ),
    ],
    ids=lambda x: x if isinstance(x, str) else "",
)
def test_what_a_declaration_should_not_be_without(calculator: Calculator, sentence: str) -> None:
    assert f"declaration: {sentence}" in problems(calculator)


def test_directions_are_the_smallest_sets() -> None:
    assert {(d.hidden, frozenset(d.given)) for d in solve_directions(KERNEL, "brine.brine")} == {
        (hidden, frozenset(pair))
        for hidden, *pairs in (
            ("salt", ("water", "brine"), ("water", "strength"), ("brine", "strength")),
            ("water", ("salt", "brine"), ("salt", "strength"), ("brine", "strength")),
            ("brine", ("salt", "water"), ("salt", "strength"), ("water", "strength")),
            ("strength", ("salt", "water"), ("salt", "brine"), ("water", "brine")),
        )
        for pair in pairs
    }
    assert str(Direction(("a", "b"), "c")) == "c from a, b" and str(Direction((), "c")) == "c from the rows alone"


def test_proportions_do_not_determine_an_amount() -> None:
    twice = Calculator(
        "twice",
        "t",
        var("a", "gram"),
        var("b", "gram"),
        var("c", "percent"),
        var("d", "percent"),
        equations=["a = c * b", "d * a = b"],
    )
    kernel = kernel_of(twice)
    point = Point({"a": 6.0, "b": 3.0, "c": 2.0, "d": 0.5}, {}, ("b", "c"))
    assert not determined(kernel.model("twice.twice"), point, Direction(("c", "d"), "a"))
    assert determined(kernel.model("twice.twice"), point, Direction(("c", "b"), "a"))


@settings(deadline=None, max_examples=30)
@given(st.data())
def test_drawn_points_are_true(data: st.DataObject) -> None:
    point = data.draw(points(KERNEL, "brine.brine"))
    v = point.values
    assert v["brine"] == pytest.approx(v["salt"] + v["water"]) and v["salt"] == pytest.approx(
        v["strength"] * v["brine"]
    )
    assert v["strength"] <= 0.26 * (1 + 1e-9) and len(point.drawn) == 2


@settings(deadline=None, max_examples=30)
@given(st.data())
def test_values_rows_and_specs_keep_to_the_declaration(data: st.DataObject) -> None:
    dose = data.draw(values(KERNEL.model("tea.tea"), "dose"))
    assert 4e-3 <= dose <= 15e-3
    assert data.draw(rows(INK.choices["kind"])) in ("iron", "soot")
    lines = data.draw(specs(KERNEL, "blend.blend"))
    assert 2 <= len(lines) <= 4 and all(x.amount and {"power", "supply"} <= x.attributes.keys() for x in lines)


@pytest.mark.parametrize(
    ("value", "unit", "want", "want_unit"),
    [
        (1, "liter", 1000, "milliliter"),
        (25, "degree_Celsius", 77, "degree_Fahrenheit"),
        (15, "gram / liter", 1.5, "percent_wv"),
    ],
)
def test_the_same_amount_in_two_units(value: float, unit: str, want: float, want_unit: str) -> None:
    assert_same(value, unit, want, want_unit)


@pytest.mark.parametrize(
    ("value", "unit", "want", "want_unit", "sentence"),
    [
        (1, "liter", 1001, "milliliter", "1000 milliliter is not 1001 milliliter"),
        (1, "liter", 1, "kilogram", "measure different things"),
        (1, "percent_ww", 1, "percent_vv", "measure different things"),
        (1, "litre", 1, "liter", "There is no unit 'litre'"),
        (float("nan"), "gram", 1, "gram", "nan gram is not 1 gram"),
    ],
)
def test_what_is_not_the_same(value: float, unit: str, want: float, want_unit: str, sentence: str) -> None:
    with pytest.raises(AssertionError, match=sentence):
        assert_same(value, unit, want, want_unit)


def test_the_kernel_does_not_need_it() -> None:
    code = "import sys, stillroom.kernel; print({'hypothesis', 'stillroom.testing'} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "set()\n"
