"""Peel sugar: in every direction, the trade's ratio and time, household weights."""

import pytest

from .directions import ask, every_direction, number


@pytest.mark.parametrize(
    ("calculator", "given", "skip"),
    [
        (
            "peel_sugar",
            {
                "peel": (300, "gram"),
                "ratio": (1.5, "dimensionless"),
                "peel_each": (15, "gram"),
            },
            (),
        ),
        (
            "peel_sugar_by_cup",
            {
                "sugar_by_cup": (2, "cup"),
                "ratio": (1.5, "dimensionless"),
                "cup_weight": (0.8, "gram / milliliter"),
            },
            (),
        ),
        ("peel_time", {"time": (48, "hour"), "elapsed": (28, "hour")}, ()),
        ("peel_syrup", {"peel": (200, "gram"), "sugar": (150, "gram"), "yield_share": (55, "percent")}, ()),
    ],
)
def test_every_direction(calculator, given, skip):
    every_direction(calculator, given, skip)


def test_equal_weights_unless_told():
    """Common practice, no source."""
    answer = ask("peel_sugar", {"peel": (180, "gram")})
    assert answer.answer[0].value == pytest.approx(180)
    assert any("1 sugar to 1 peel" in text for text in answer.assumptions)
    assert number(
        "peel_sugar", {"sugar": (400, "gram"), "ratio": (2, "dimensionless")}, "peel"
    ) == pytest.approx(200)


def test_a_percent_of_the_peel():
    assert number("peel_sugar", {"peel": (640, "gram"), "share": (75, "percent")}, "sugar") == pytest.approx(
        480
    )


def test_fruit_is_bought_whole():
    given = {"sugar": (1.2, "kilogram"), "ratio": (1.5, "dimensionless"), "peel_each": (17, "gram")}
    assert number("peel_sugar", given, "fruits") == 48
    table = ask("peel_sugar", {"sugar": (95, "gram")}, "fruits", fruit="lemon")
    assert table.answer[0].value == 10
    assert any("lemon" in text for text in table.assumptions)


def test_sugar_by_the_cup():
    """USDA household weight: a US cup of granulated sugar weighs 200 g."""
    answer = ask("peel_sugar_by_cup", {"sugar_by_cup": (2, "cup")}, "peel")
    assert answer.answer[0].value == pytest.approx(400, rel=1e-6)
    assert any("200 g" in text for text in answer.assumptions)


def test_two_days_and_what_is_left_of_them():
    """Common practice, no source: 48 h."""
    assert number("peel_time", {}, "time", "hour") == pytest.approx(48)
    assert number("peel_time", {"elapsed": (28, "hour")}, "remaining", "hour") == pytest.approx(20)
    over = ask("peel_time", {"elapsed": (60, "hour")}, "remaining")
    assert over.answer[0].value == pytest.approx(-12)
    assert any("had its time" in text for text in over.cautions)


def test_a_wrong_ratio_is_declined_with_the_right_one():
    given = {"peel": (400, "gram"), "sugar": (200, "gram"), "ratio": (1, "dimensionless")}
    answer = ask("peel_sugar", given, "combined")
    assert answer.status == "declined"
    assert "0.5" in answer.reason


def test_keeping_is_always_said():
    for calculator, given in (("peel_sugar", {"peel": (1, "gram")}), ("peel_time", {})):
        assert any("cold" in text and "week" in text for text in ask(calculator, given).cautions)
