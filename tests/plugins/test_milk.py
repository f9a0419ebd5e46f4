"""Milk clarification: in every direction, the trade's ratio, pH, allergen."""

import pytest

from .directions import ask, every_direction, number


@pytest.mark.parametrize(
    ("calculator", "given", "skip"),
    [
        (
            "milk_punch",
            {"drink": (2, "liter"), "ratio": (4, "dimensionless"), "loss": (15, "percent")},
            ("rest",),
        ),
        (
            "milk_strength",
            {"drink": (2, "liter"), "milk": (0.5, "liter"), "abv": (25, "abv")},
            (),
        ),
        ("curdling", {"ph": (3.4, "dimensionless")}, ()),
    ],
)
def test_every_direction(calculator, given, skip):
    every_direction(calculator, given, skip)


def test_four_to_one_unless_told():
    """Common practice, no source."""
    answer = ask("milk_punch", {"drink": (2.5, "liter")})
    assert answer.answer[0].value == pytest.approx(625)
    assert any("4 drink to 1 milk" in text for text in answer.assumptions)
    assert number(
        "milk_punch", {"drink": (6, "liter"), "ratio": (3, "dimensionless")}, "milk"
    ) == pytest.approx(2000)


def test_a_loss_of_the_whole_charge():
    """8.5 l clear at 15 % lost of the total need 10 l in all, 2 l of them milk at 4:1 (arithmetic)."""
    given = {"clear": (8.5, "liter"), "loss": (15, "percent"), "ratio": (4, "dimensionless")}
    assert number("milk_punch", given, "milk", "liter") == pytest.approx(2)
    guessed = ask("milk_punch", {"clear": (8.5, "liter")}, "milk")
    assert any("common practice" in text and "curd" in text for text in guessed.assumptions)


@pytest.mark.parametrize("kind", ["whole", "skimmed", "goat", "raw", "lactose-free", "plant"])
@pytest.mark.parametrize(
    ("calculator", "given"),
    [
        ("milk_punch", {"drink": (1, "liter")}),
        ("milk_strength", {"abv": (25, "abv")}),
        ("curdling", {"ph": (3.4, "dimensionless")}),
    ],
)
def test_the_allergen_is_always_named(calculator, given, kind):
    answer = ask(calculator, given, kind=kind)
    assert answer.status == "answered"
    assert any("allergen" in text for text in answer.cautions)


def test_raw_milk_carries_its_own_caution():
    raw, whole = (ask("milk_punch", {"drink": (1, "liter")}, kind=kind) for kind in ("raw", "whole"))
    assert any("unpasteurised" in text for text in raw.cautions)
    assert not any("unpasteurised" in text for text in whole.cautions)


def test_casein_falls_out_at_its_isoelectric_point():
    """Casein: isoelectric at pH 4.6; milk itself is pH 6.6 (dairy chemistry handbooks)."""
    assert number("curdling", {}, "ph") == pytest.approx(4.6)
    milk = ask("curdling", {"ph": (6.6, "dimensionless")})
    assert milk.answer[0].value == pytest.approx(-2.0)
    assert any("will not curdle" in text and "4.6" in text for text in milk.cautions)
    assert not any(
        "will not curdle" in text for text in ask("curdling", {"ph": (3, "dimensionless")}).cautions
    )


def test_strength_after_is_diluted_by_the_milk():
    """25 % in 4 parts of 5 is 20 % (mass balance of ethanol, volumes adding)."""
    assert number(
        "milk_strength", {"abv": (25, "abv"), "ratio": (4, "dimensionless")}, "clear_abv"
    ) == pytest.approx(20)


def test_the_drink_goes_into_the_milk_and_the_first_runnings_go_back():
    steps = ask("milk_punch", {"drink": (1, "liter")}).steps
    pour = next(i for i, text in enumerate(steps) if "into the milk" in text)
    strain = next(i for i, text in enumerate(steps) if "runnings back" in text)
    assert pour < strain


def test_an_unusual_ratio_is_a_caution():
    answer = ask("milk_punch", {"drink": (1, "liter"), "ratio": (20, "dimensionless")})
    assert any("usual" in text for text in answer.cautions)
