"""Syrups: every direction, published figures, refusals."""

from __future__ import annotations

import pytest

from .directions import ask, every_direction, kernel, number

G, ML, BX, RATIO, C = "gram", "milliliter", "brix", "dimensionless", "degree_Celsius"

EVERY = [
    ("syrup", {"sugar": (500, G), "water": (400, G)}, {}),
    ("syrup", {"volume": (1000, ML), "brix": (60, BX), "temperature": (35, C)}, {}),
    ("syrup_poured_water", {"sugar": (500, G), "water": (400, ML)}, {}),
    ("thin_syrup", {"mass": (500, G), "brix_before": (66, BX), "brix_after": (50, BX)}, {}),
    ("thin_syrup", {"volume": (500, ML), "ratio_before": (2, RATIO), "water_added": (100, G)}, {}),
    ("strengthen_syrup", {"mass": (500, G), "brix_before": (40, BX), "brix_after": (50, BX)}, {}),
    (
        "blend_syrups",
        {"first_mass": (500, G), "first_brix": (40, BX), "second_mass": (200, G), "second_brix": (66, BX)},
        {},
    ),
    ("swap_syrup", {"called_volume": (25, ML), "called_brix": (50, BX), "instead_brix": (66, BX)}, {}),
    ("sweetener_syrup", {"sweetener_mass": (600, G), "sweetener_brix": (82, BX), "brix": (55, BX)}, {}),
    ("gum_syrup", {"mass": (1000, G), "ratio": (2, RATIO), "dose": (5, "percent_ww")}, {}),
    ("syrup_by_the_cup", {"sugar_volume": (400, ML), "water_volume": (200, ML)}, {}),
    ("refractometer_acid", {"reading": (40, BX), "acid": (5, "percent_ww")}, {}),
    ("refractometer_warmth", {"reading": (50, BX), "temperature": (26.3, C)}, {}),
    ("sugar_solubility", {"temperature": (35, C), "water": (100, G)}, {}),
]


@pytest.mark.parametrize(("calculator", "given", "choices"), EVERY)
def test_every_variable_is_found_from_the_others(calculator, given, choices):
    every_direction(calculator, given, **choices)


# NBS Circular 440, table 114: apparent specific gravity 20/20 of sucrose solutions in air
GRAVITY = [
    (10, 1.04003),
    (20, 1.08297),
    (30, 1.12913),
    (40, 1.17874),
    (50, 1.23202),
    (60, 1.28909),
    (65, 1.31905),
]


@pytest.mark.parametrize(("brix", "in_air"), GRAVITY)
def test_density_agrees_with_the_national_bureau_of_standards(brix, in_air):
    in_vacuo = (in_air * (998.2 - 1.2) + 1.2) / 1000
    assert number("syrup", {"brix": (brix, BX)}, "density") == pytest.approx(in_vacuo, rel=2e-4)


# CRC Handbook, concentrative properties of sucrose: grams of sucrose in a litre at 20 °C
@pytest.mark.parametrize(("brix", "grams"), [(20, 216.2), (40, 470.6), (50, 614.8), (60, 771.9)])
def test_sugar_in_a_litre_agrees_with_the_handbook(brix, grams):
    assert number("syrup", {"brix": (brix, BX)}, "content") == pytest.approx(grams, rel=4e-4)


@pytest.mark.parametrize(("style", "brix"), [("simple", 50.0), ("rich", 200 / 3)])
def test_simple_is_one_to_one_and_rich_two_to_one_by_mass(style, brix):
    """Common practice, no source."""
    answer = ask("syrup", {"mass": (900, G)}, "sugar", style=style)
    assert answer.answer[0].value == pytest.approx(9 * brix)
    assert number("syrup", {"mass": (900, G)}, "brix", style=style) == pytest.approx(brix)


def test_a_syrup_without_ratio_or_brix_asks_for_it():
    answer = ask("syrup", {"volume": (1, "liter")}, "sugar")
    assert answer.status == "asks"
    assert answer.choices == ("simple", "rich")


@pytest.mark.parametrize(("ratio", "cautioned"), [(1.0, False), (2.0, False), (2.5, True)])
def test_a_syrup_past_saturation_is_answered_with_a_caution(ratio, cautioned):
    answer = ask("syrup", {"ratio": (ratio, RATIO), "mass": (1000, G)}, "sugar")
    assert answer.status == "answered"
    assert any("crystallise" in c for c in answer.cautions) is cautioned


def test_two_cups_of_sugar_to_one_of_water():
    """USDA household weight: a cup of granulated sugar is 200 g; a US cup of water at 20 °C 236.16 g."""
    given = {"sugar_volume": (2, "cup"), "water_volume": (1, "cup")}
    assert number("syrup_by_the_cup", given, "brix") == pytest.approx(100 * 400 / (400 + 236.16), abs=0.01)


def test_water_thins_and_sugar_strengthens_and_neither_does_the_other():
    up = {"mass": (500, G), "brix_before": (60, BX), "brix_after": (66, BX)}
    thinned = ask("thin_syrup", up, "water_added")
    assert thinned.status == "declined"
    assert "60 °Bx to 66 °Bx" in thinned.reason
    down = {"mass": (500, G), "brix_before": (60, BX), "brix_after": (50, BX)}
    assert ask("strengthen_syrup", down, "sugar_added").status == "declined"
    assert number("thin_syrup", down, "water_added") == pytest.approx(100)


def test_a_blend_lies_between_its_syrups():
    given = {"first_mass": (500, G), "first_brix": (40, BX), "second_brix": (60, BX), "brix": (65, BX)}
    answer = ask("blend_syrups", given, "second_mass")
    assert answer.status == "declined"
    assert "no stronger" in answer.reason


def test_lines_of_syrup_sugar_and_water_add_up_by_mass():
    from stillroom.messages import Amount, Line

    k = kernel()
    lines = (
        Line("white sugar", Amount(1500, G, 1500), {}, "white-sugar"),
        Line("water", Amount(400, G, 400), {}, "water"),
        Line("syrup", Amount(1000, G, 1000), {"brix": Amount(50, BX, 0.5)}, "syrup"),
    )
    answer = k.answer(k.request("bar.syrup_mix", {}, ["brix"], spec=lines))
    assert answer.answer[0].value == pytest.approx(100 * 2000 / 2900)
    assert any("crystallise" in c for c in answer.cautions)


def test_honey_brings_its_own_water():
    """Mass balance; USDA FoodData Central prints 82.12 g of sugars in 100 g of honey."""
    answer = ask(
        "sweetener_syrup", {"sweetener_mass": (600, G), "brix": (55, BX)}, "water", sweetener="honey"
    )
    assert answer.answer[0].value == pytest.approx(600 * 82 / 55 - 600)
    assert any("honey" in a for a in answer.assumptions)
    own = {"sweetener_mass": (600, G), "sweetener_brix": (80, BX), "brix": (55, BX)}
    assert number("sweetener_syrup", own, "water", sweetener="honey") == pytest.approx(600 * 80 / 55 - 600)


def test_the_acid_correction_of_the_american_regulation():
    """21 CFR 146.132: 0.012 + 0.193 x - 0.0004 x² °Bx for x % of anhydrous citric acid."""
    assert number(
        "refractometer_acid", {"reading": (40, BX), "acid": (5, "percent_ww")}, "brix"
    ) == pytest.approx(40.967)


def test_the_warmth_correction_of_the_international_table():
    """Refractometer corrections for 20 °C: 0.40 °Bx to add at 25 °C and 60 °Bx, 0.54 to take off at 10 °C and 5."""
    assert number(
        "refractometer_warmth", {"reading": (60, BX), "temperature": (25, C)}, "brix"
    ) == pytest.approx(60.4)
    assert number(
        "refractometer_warmth", {"reading": (5, BX), "temperature": (10, C)}, "brix"
    ) == pytest.approx(4.46)


# Older handbook figures for the solubility of sucrose, % w/w (CRC Handbook 67.09 at 20 °C; the fit lies 0.4 lower)
def test_water_at_20_degrees_holds_two_thirds_of_sugar():
    assert number("sugar_solubility", {"temperature": (20, C)}, "strongest") == pytest.approx(67.09, abs=0.5)
