"""Keeping: every direction, the table against the food code, whole batches, what is over."""

from __future__ import annotations

import pytest

from .directions import ask, every_direction, kernel, number

L, D, H = "liter", "day", "hour"
RATE = "liter / day"


def test_every_direction() -> None:
    every_direction("days_left", {"life": (14, D), "age": (5, D)})
    every_direction("batch_that_keeps", {"rate": (1.4, RATE), "life": (6, D)})
    every_direction("serves_that_keep", {"rate": (40, "count / day"), "life": (6, D)})
    every_direction("waste", {"batch": (22, L), "rate": (3.2, RATE), "life": (5, D)}, skip=("waste",))
    every_direction("when_to_start", {"until": (60, H), "takes": (48, H)})


def test_units_of_time_mix() -> None:
    assert number("days_left", {"life": (72, H), "age": (1.5, D)}, "left", H) == pytest.approx(36)
    assert number("days_left", {"life": (3, "week"), "age": (16, D)}, "left") == pytest.approx(5)


def test_waste_is_never_below_nothing() -> None:
    assert number("waste", {"batch": (32, L), "rate": (4.4, RATE), "life": (7, D)}, "waste", L) == pytest.approx(1.2)
    answer = ask("waste", {"batch": (12, L), "rate": (3.2, RATE), "life": (5, D)}, "waste")
    assert answer.answer[0].value == 0 and any("nothing is thrown away" in text for text in answer.cautions)


def test_what_is_over_its_time_is_refused() -> None:
    answer = ask("days_left", {"life": (4, D), "age": (5, D)}, "left")
    assert answer.status == "declined" and "throw it away" in answer.reason
    assert ask("days_left", {"life": (-4, D), "age": (2, D)}, "left").status == "declined"
    late = ask("when_to_start", {"until": (12, H), "takes": (48, H)}, "start")
    assert late.status == "declined" and "too late" in late.reason


def test_a_kind_supplies_its_time_with_its_range_and_the_caution() -> None:
    answer = ask("days_left", {}, "life", kind="orgeat")
    assert answer.status == "answered" and "usual range 5 to 14 days" in answer.assumptions[0]
    assert any("food code" in text for text in answer.cautions) and any("allergen" in text for text in answer.cautions)
    assert number("days_left", {"life": (10, D), "age": (4, D)}, "left", kind="orgeat") == pytest.approx(6)


def test_what_it_is_is_asked_for() -> None:
    assert ask("days_left", {}, "life").missing == (("kind",),)
    assert ask("days_left", {"life": (10, D)}, "left").missing == (("age",),)


@pytest.mark.parametrize(
    "kind", ["egg-white", "egg-nog", "foam-base", "milk", "cream", "cut-fruit", "nut-milk", "tomato-water"]
)
def test_perishable_food_stays_within_the_food_code(kind: str) -> None:
    """FDA Food Code 3-501.17: ready-to-eat food that is perishable keeps 7 days at 5 °C at most."""
    row = kernel().model("bar.days_left").choices["kind"].rows[kind]
    assert float(row.values["typical"]) <= float(row.values["high"]) <= 7
