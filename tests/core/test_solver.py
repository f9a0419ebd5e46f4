"""Solving: contradictions, several roots, bounds and limits; nothing leaves that the equations do not bear out."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stillroom import Calculator, Function, limit, var
from stillroom.errors import Contradiction, OutOfBounds, SeveralRoots

from .samples import BOXES, BRINE, CLIMB, HILL, INK, ROOM, TEA, ask, kernel_of, number

LIMITED = Calculator(
    "limited",
    "A jar that holds so much",
    var("poured", "milliliter"),
    var("jar", "milliliter", default=500),
    var("rest", "milliliter", bounds=(None, None)),
    equations=["jar = poured + rest"],
    limits=[
        limit("poured <= jar", "refuse", "{poured} does not go into {jar}."),
        limit("rest >= least", "caution", "Leave room: only {rest} is left."),
    ],
    cautions=["Glass breaks."],
    constants={"least": (50, "milliliter")},
)
RULED = Calculator(
    "ruled",
    "A limit that stands on a table",
    var("load", "gram"),
    var("spare", "gram", bounds=(None, None)),
    var("span", "centimeter"),
    equations=["spare = load * 2"],
    functions=[Function("holds", lambda x: 100 - x if x <= 50 else _no(), ("centimeter",), "gram", (0, 50))],
    limits=[limit("load <= holds(span)", "refuse", "Too heavy for {span}.")],
)

WARM = Calculator(
    "warm",
    "A density that hardly changes with the temperature",
    var("solid", "gram"),
    var("share", "percent", bounds=(1, 99)),
    var("mass", "gram"),
    var("volume", "milliliter"),
    var("temperature", "degree_Celsius", default=20, bounds=(0, 80)),
    equations=["solid = share * mass", "mass = thick(temperature, share) * volume"],
    functions=[Function("thick", lambda t, s: 1 + s / 200 - (t - 20) / 2000, ("degree_Celsius", "percent"),
                        "gram / milliliter", (0, 80))],
)


def _no() -> float:
    raise ValueError("The table ends at 50 cm")


KERNEL = kernel_of(TEA, BRINE, ROOM, HILL, CLIMB, BOXES, LIMITED, RULED, INK, WARM)


def test_a_contradiction_shows_both_numbers() -> None:
    answer = ask(KERNEL, "tea", {"leaf": (10, "gram"), "water": (1, "liter"), "dose": (8, "gram / liter")}, "water")
    assert (answer.status, answer.reason) == (
        "declined",
        "That does not add up: leaf is given as 10 g, but the rest makes it 8 g.",
    )


def test_its_parts_are_attributes() -> None:
    with pytest.raises(Contradiction) as e:
        KERNEL.solver("tea.tea").solve({"leaf": 10, "water": 1000, "dose": 0.008}, {}, ("water",))
    assert (e.value.name, e.value.given, e.value.implied, e.value.assumed) == ("leaf", "10 g", "8 g", ())


def test_what_fits_no_temperature_at_all_does_not_add_up() -> None:
    """100 g are a tenth of 1 kg, which fills 952 ml at 20 °C and at no temperature 2 l; but 970 ml at some other."""
    amounts = {"solid": (100, "gram"), "share": (10, "percent")}
    answer = ask(KERNEL, "warm", {**amounts, "volume": (2, "liter")}, "mass")
    assert answer.status == "declined" and "does not add up" in answer.reason
    assert number(ask(KERNEL, "warm", {**amounts, "volume": (970, "milliliter")}, "mass")) == pytest.approx(1000)


def test_what_agrees_may_be_given_twice() -> None:
    three = {"leaf": (8, "gram"), "water": (1, "liter"), "dose": (8, "gram / liter")}
    assert number(ask(KERNEL, "tea", three, "water")) == pytest.approx(1000)


@pytest.mark.parametrize(
    ("calculator", "given", "wanted", "reason"),
    [
        ("tea", {"water": (-1, "liter")}, "leaf", "The water would be -1 l, which cannot be: it starts at 0 l."),
        (
            "brine",
            {"strength": (-1, "percent_ww"), "salt": (1, "gram")},
            "water",
            "The strength would be -1 %, which cannot be: it starts at 0 %.",
        ),
        (
            "brine",
            {"brine": (1, "gram"), "water": (2, "gram")},
            "salt",
            "The salt would be -1 g, which cannot be: it starts at 0 g.",
        ),
        (
            "tea",
            {"leaf": (1, "gram"), "water": (0, "liter")},
            "dose",
            "These values would divide by nothing: one of them cannot be zero.",
        ),
        ("tea", {"leaf": (1e300, "gram")}, "water", "The leaf is too large to work with."),
        ("tea", {"leaf": (float("nan"), "gram")}, "water", "The leaf is too large to work with."),
        ("tea", {"leaf": (float("inf"), "gram")}, "water", "The leaf is too large to work with."),
        (
            "hill",
            {"height": (101, "percent")},
            "place",
            "The height would be 101 %, which cannot be: it ends at 100 %.",
        ),
    ],
    ids=lambda x: x if isinstance(x, str) else "",
)
def test_what_cannot_be_is_declined_with_its_reason(
    calculator: str, given: dict[str, tuple[float, str]], wanted: str, reason: str
) -> None:
    answer = ask(KERNEL, calculator, given, wanted)
    assert (answer.status, answer.reason, answer.answer) == ("declined", reason, ())


def test_several_roots_are_all_named() -> None:
    answer = ask(KERNEL, "hill", {"height": (75, "percent")}, "place")
    assert (answer.status, answer.reason) == ("declined", "More than one place fits: 25 % or 75 %. Which one is meant?")
    with pytest.raises(SeveralRoots) as e:
        KERNEL.solver("hill.hill").solve({"height": 0.75}, {}, ("place",))
    assert (e.value.name, e.value.roots) == ("place", ("25 %", "75 %"))


def test_the_usual_range_chooses_and_it_is_said() -> None:
    answer = ask(
        KERNEL, "room", {"edge": (33, "centimeter"), "surface": (90, "milliliter"), "depth": (1, "centimeter")}, "long"
    )
    assert number(answer) == pytest.approx(30)
    assert any(
        t.startswith("the usual range of ") and t.endswith(" chose between two solutions") for t in answer.assumptions
    )


def test_where_it_cannot_choose_both_are_named() -> None:
    answer = ask(KERNEL, "room", {"edge": (8, "centimeter"), "surface": (15, "milliliter")}, "long")
    assert answer.status == "declined" and "3 cm" in answer.reason and "5 cm" in answer.reason


def test_no_real_root_is_no_answer() -> None:
    answer = ask(KERNEL, "room", {"edge": (2, "centimeter"), "surface": (15, "milliliter")}, "long")
    assert (answer.status, answer.reason) == ("declined", "No possible value fits these numbers.")


def test_limits_are_checked_on_what_is_given() -> None:
    answer = ask(KERNEL, "limited", {"poured": (600, "milliliter"), "jar": (500, "milliliter")}, "rest")
    assert (answer.status, answer.reason) == ("declined", "600 ml does not go into 500 ml.")


def test_limits_are_checked_on_results_and_no_default_gets_round_them() -> None:
    assert ask(KERNEL, "limited", {"poured": (600, "milliliter")}, "rest").reason == "600 ml does not go into 500 ml."
    brine = ask(KERNEL, "brine", {"salt": (30, "gram"), "water": (70, "gram")}, "strength")
    assert (brine.status, brine.reason) == ("declined", "No more than 26 % of salt dissolves; this would be 30 %.")


def test_a_caution_goes_with_the_answer() -> None:
    answer = ask(KERNEL, "limited", {"poured": (480, "milliliter")}, "rest")
    assert number(answer) == pytest.approx(20)
    assert answer.cautions == ("Leave room: only 20 ml is left.", "Glass breaks.")


def test_a_limit_that_cannot_be_worked_out_refuses() -> None:
    heavy = ask(KERNEL, "ruled", {"load": (90, "gram"), "span": (20, "centimeter")}, "spare")
    assert (heavy.status, heavy.reason) == ("declined", "Too heavy for 20 cm.")
    beyond = ask(KERNEL, "ruled", {"load": (90, "gram"), "span": (60, "centimeter")}, "spare")
    assert beyond.status == "declined" and "The table ends at 50 cm" in beyond.reason


def test_a_row_that_refuses() -> None:
    answer = ask(KERNEL, "ink", {"volume": (1, "milliliter")}, "mass", choices={"kind": "lead"})
    assert (answer.status, answer.reason) == ("declined", "Lead is a poison.")


def test_outside_the_usual_range_is_a_caution() -> None:
    answer = ask(KERNEL, "tea", {"leaf": (40, "gram"), "water": (1, "liter")}, "dose")
    assert answer.cautions == ("dose 40 g/l is outside the usual 4 g/l to 15 g/l.",)


def test_whole_things_round_after_the_solution_and_later_steps_take_them() -> None:
    answer = ask(KERNEL, "boxes", {"pens": (50, "count")}, "boxes", "crates")
    assert [(v.name, v.value) for v in answer.answer] == [("boxes", 5), ("crates", 2)]
    assert {v.name: v.value for v in answer.values}["boxes"] == pytest.approx(50 / 12)


def test_a_whole_result_that_is_whole_stays() -> None:
    assert ask(KERNEL, "boxes", {"pens": (36, "count")}, "boxes").answer[0].value == 3


@settings(deadline=None)
@given(st.floats(0.1, 90), st.floats(0.5, 200))
def test_a_search_finds_what_went_in(place: float, people: float) -> None:
    forward = ask(KERNEL, "climb", {"place": (place, "percent"), "people": (people, "count")}, "steps")
    back = ask(KERNEL, "climb", {"steps": (number(forward), "count"), "people": (people, "count")}, "place")
    assert number(back) * 100 == pytest.approx(place, rel=1e-9)


@settings(deadline=None)
@given(st.floats(0, 100))
def test_every_root_that_is_named_is_one(place: float) -> None:
    """Up the hill and down: wherever the height came from is among the places that are named."""
    height = KERNEL.model("hill.hill").base_function("arc")(place / 100)
    try:
        found = [KERNEL.solver("hill.hill").solve({"height": height}, {}, ("place",)).values["place"] * 100]
    except SeveralRoots as e:
        found = [float(r.split()[0]) for r in e.roots]
    except OutOfBounds:
        assert height > 1 - 1e-9  # on the very top the two roots become one that only touches
        return
    assert any(x == pytest.approx(place, rel=1e-4, abs=1e-4) for x in found)
