"""Drops and dashes: in every direction, the trade's own sums, and the salt in a glass."""

import pytest

from .directions import ask, every_direction, kernel, number


@pytest.mark.parametrize(
    ("calculator", "given"),
    [
        ("dropper_bottle", {"bottle": (50, "milliliter"), "dose": (4, "drop")}),
        ("drops_for_batch", {"batch": (4.5, "liter"), "serve": (90, "milliliter"), "dose": (2, "drop")}),
        ("seasoning", {"dose": (6, "drop"), "strength": (20, "percent_ww"), "drink": (120, "milliliter")}),
        ("dropper", {"drops": (50, "count"), "volume": (1.6, "milliliter")}),
    ],
)
def test_every_direction(calculator, given):
    every_direction(calculator, given)


def test_a_drop_of_water():
    """USP <1101>, medicine dropper: 20 drops of water to the millilitre."""
    assert number("convert_volume", {"amount": (1, "milliliter")}, "result", "drop") == pytest.approx(20)


def test_calibrated_dropper():
    """Eschbaum 1895 (sizes.com): 50 drops of water from a 6.56 mm tip weigh 5.00 g, so 0.1 ml each."""
    given = {"drops": (50, "count"), "volume": (5.0 / 0.9982, "milliliter")}
    assert number("dropper", given, "drop_size", "milliliter") == pytest.approx(0.1, rel=3e-3)
    assert number("dropper", given, "drops_per_ml") == pytest.approx(10, rel=3e-3)


def test_drops_that_carry_a_salt_dose():
    """0.15 g of salt in a 10 % solution of 1.0707 g/ml (Poradnik fizykochemiczny): 1.401 ml, 28.0 drops."""
    given = {"solute_mass": (0.15, "gram"), "strength": (10, "percent_ww")}
    assert number("solution", given, "volume", "drop", solute="salt") == pytest.approx(
        0.15 / 0.10 / 1.0707 / 0.05
    )


def test_a_chat_may_resize_its_drop():
    """A 20 % brine weighs 1.1478 g/ml at 20 °C (Poradnik fizykochemiczny)."""
    k = kernel()
    request = k.request(
        "bar.solution",
        {"solute_mass": (0.1, "gram"), "strength": (20, "percent_ww")},
        ["volume"],
        choices={"solute": "salt"},
        units={"volume": "drop"},
        sizes={"drop": 1 / 27},
    )
    assert k.answer(request).answer[0].value == pytest.approx(0.1 / 0.2 / 1.1478 * 27, rel=1e-4)


def test_the_glass_is_less_salty_than_the_dropper():
    """Salt of 0.3 ml of 20 % saline (1.1478 g/ml, Poradnik fizykochemiczny) over 120.3 ml of drink, w/v."""
    given = {"dose": (6, "drop"), "strength": (20, "percent_ww"), "drink": (120, "milliliter")}
    assert number("seasoning", given, "seasoned") == pytest.approx(100 * 0.3 * 1.1478 * 0.2 / 120.3, rel=1e-4)
    refused = ask("seasoning", {**given, "strength": (35, "percent_ww")})
    assert refused.status == "declined"


def test_drinks_are_whole():
    answer = ask("dropper_bottle", {"bottle": (100, "milliliter"), "dose": (6, "drop")}, "drinks")
    assert answer.answer[0].value == 333
    assert next(v.value for v in answer.values if v.name == "drinks") == pytest.approx(333.333, rel=1e-4)


def test_less_than_a_drop_for_each_is_declined():
    answer = ask("dropper_bottle", {"bottle": (2, "drop"), "drinks": (70, "count")}, "dose")
    assert answer.status == "declined"
    assert "drop" in answer.reason
