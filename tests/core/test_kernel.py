"""Requests of a kernel: names, units, sizes of a chat, and the working that is shown."""

from __future__ import annotations

import doctest

import pytest
import stillroom.kernel
from stillroom import Calculator, Kernel, var
from stillroom.errors import RequestError, UnitError

from .samples import BOXES, BRINE, CLIMB, INK, ROOM, TEA, ask, kernel_of, number

KERNEL = kernel_of(TEA, BRINE, INK, BOXES, CLIMB, ROOM)


def test_the_example_in_the_docstring() -> None:
    found = doctest.testmod(stillroom.kernel)
    assert found.attempted >= 5 and found.failed == 0


@pytest.mark.parametrize(
    ("calculator", "given", "wanted", "more", "sentence"),
    [
        ("coffee.tea", {}, "leaf", {}, "There is no calculator 'coffee.tea'. Did you mean tea.tea?"),
        ("tea.tea", {"leaves": (1, "gram")}, "water", {}, "tea.tea has no 'leaves'; it has leaf, water, dose."),
        ("tea.tea", {"leaf": (1, "gram")}, "wet", {}, "tea.tea has no 'wet'; it has leaf, water, dose."),
        ("tea.tea", {"leaf": (1, "liter")}, "water", {}, "leaf is measured in gram, not in liter."),
        (
            "brine.brine",
            {"strength": (1, "percent_vv"), "salt": (1, "gram")},
            "water",
            {},
            "strength is measured in percent_ww, not in percent_vv.",
        ),
        (
            "ink.ink",
            {"mass": (1, "gram")},
            "volume",
            {"choices": {"kind": "red"}},
            "ink.ink: kind cannot be 'red'; it is one of iron, soot, lead.",
        ),
        (
            "tea.tea",
            {"leaf": (1, "gram")},
            "water",
            {"units": {"water": "gram"}},
            "water is measured in liter, not in gram.",
        ),
        (
            "tea.tea",
            {"leaf": (1, "gram"), "water": (1, "liter"), "dose": (1, "gram / liter")},
            "",
            {},
            "tea.tea: every value is given already; say what is to be found.",
        ),
    ],
    ids=lambda x: x if isinstance(x, str) else "",
)
def test_a_wrong_name_is_an_error_in_a_sentence(
    calculator: str, given: dict[str, tuple[float, str]], wanted: str, more: dict[str, object], sentence: str
) -> None:
    with pytest.raises(RequestError) as e:
        KERNEL.answer(KERNEL.request(calculator, given, [wanted] if wanted else [], **more))
    assert str(e.value) == sentence


def test_an_unknown_unit_is_an_error() -> None:
    with pytest.raises(UnitError, match=r"There is no unit 'gramm'\. Did you mean gram"):
        KERNEL.request("tea.tea", {"leaf": (1, "gramm")})


def test_what_is_asked_when_nobody_says() -> None:
    assert ask(KERNEL, "tea", {"water": (1, "liter")}).answer[0].name == "leaf"
    assert ask(KERNEL, "tea", {"leaf": (8, "gram")}).answer[0].name == "water"


@pytest.mark.parametrize(("unit", "value"), [("gram", 12), ("kilogram", 0.012), ("ounce", 12 / 28.349523125)])
def test_an_answer_in_the_unit_that_is_asked_for(unit: str, value: float) -> None:
    answer = ask(KERNEL, "tea", {"water": (1.5, "liter")}, "leaf", units={"leaf": unit})
    assert (answer.answer[0].unit, answer.answer[0].value) == (unit, pytest.approx(value))


def test_given_values_are_told_as_they_were_said() -> None:
    answer = ask(KERNEL, "tea", {"water": (2, "pint")}, "leaf")
    assert [(v.value, v.unit, v.origin) for v in answer.values if v.name == "water"] == [(2, "pint", "given")]


def test_percent_by_mass_is_said_where_percent_was_given() -> None:
    plain = ask(KERNEL, "brine", {"strength": (10, "percent"), "salt": (1, "gram")}, "water")
    exact = ask(KERNEL, "brine", {"strength": (10, "percent_ww"), "salt": (1, "gram")}, "water")
    assert "percent is by mass of the finished solution (w/w)" in plain.assumptions and not exact.assumptions


@pytest.mark.parametrize(
    ("calculator", "given", "wanted", "working"),
    [
        ("tea", {"water": (1.5, "liter")}, "leaf", ("leaf = dose × water = 8 g/l × 1.5 l = 12 g",)),
        ("tea", {"leaf": (12, "gram")}, "water", ("water = leaf / dose = 12 g / 8 g/l = 1.5 l",)),
        (
            "brine",
            {"salt": (10, "gram"), "water": (90, "gram")},
            "strength",
            ("brine = salt + water = 10 g + 90 g = 100 g", "strength = salt / brine = 10 g / 100 g = 10 %"),
        ),
        ("climb", {"height": (31.25, "percent")}, "place", ("place = 28.849 %, from height = slope(place)",)),
        (
            "boxes",
            {"pens": (50, "count")},
            "crates",
            ("boxes = pens / each = 50 / 12 = 4.1667", "crates = ceil(boxes / 4) = 2"),
        ),
    ],
    ids=lambda x: x if isinstance(x, str) else "",
)
def test_the_working(
    calculator: str, given: dict[str, tuple[float, str]], wanted: str, working: tuple[str, ...]
) -> None:
    assert ask(KERNEL, calculator, given, wanted).working == working


def test_the_working_shows_only_what_the_answer_rests_on() -> None:
    answer = ask(KERNEL, "brine", {"salt": (10, "gram"), "strength": (10, "percent_ww")}, "water")
    assert answer.working[-1].startswith("water = ") and len(answer.working) <= 2


def test_the_method_is_filled_in() -> None:
    steep = Calculator(
        "steep", "t", *TEA.parts, equations=TEA.equations, method=["Pour {water} on {leaf}.", "Wait for {time}."]
    )
    answer = ask(kernel_of(steep), "steep", {"water": (1.5, "liter")}, "leaf")
    assert answer.steps == ("Pour 1.5 l on 12 g.",)


def test_a_kernel_without_plugins_answers_nothing() -> None:
    with pytest.raises(RequestError, match=r"^There is no calculator 'a\.b'\.$"):
        Kernel(discover=False).model("a.b")


def test_a_chats_own_sizes() -> None:
    from types import SimpleNamespace

    from stillroom import hookimpl

    rows = [{"name": "spoon", "definition": "2 * gram", "adjustable": "yes", "note": "a spoon of leaf is 2 g"}]
    kernel = kernel_of(TEA)
    kernel.add("spoons", SimpleNamespace(stillroom_units=hookimpl(lambda: rows)))
    plain = ask(kernel, "tea", {"water": (1, "liter")}, "leaf", units={"leaf": "spoon"})
    own = ask(kernel, "tea", {"water": (1, "liter")}, "leaf", units={"leaf": "spoon"}, sizes={"spoon": 4.0})
    assert (plain.answer[0].value, own.answer[0].value) == (pytest.approx(4), pytest.approx(2))
    assert number(plain) == number(own) and "a spoon of leaf is 2 g" in plain.assumptions


def test_a_variable_that_no_equation_mentions() -> None:
    lonely = Calculator("lonely", "t", var("a", "gram"), var("b", "gram", default=3))
    assert number(ask(kernel_of(lonely), "lonely", {}, "b")) == 3
    assert ask(kernel_of(lonely), "lonely", {}, "a").status == "asks"
