"""Solutions: in every direction, against published densities and solubilities, and what is declined."""

import pytest

from .directions import ask, every_direction, number

PERCENT, WV = "percent_ww", "percent_wv"


@pytest.mark.parametrize(
    ("calculator", "given", "skip", "choices"),
    [
        ("solution", {"mass": (500, "gram"), "strength": (20, PERCENT)}, (), {"solute": "salt"}),
        ("solution", {"volume": (300, "milliliter"), "strength": (12, PERCENT)}, (), {"solute": "citric"}),
        ("solution", {"volume": (2, "liter"), "content": (400, "gram / liter")}, (), {"solute": "sugar"}),
        ("solution_by_ratio", {"water": (400, "gram"), "ratio": (0.25, "dimensionless")}, (), {}),
        ("made_up", {"volume": (500, "milliliter"), "strength": (10, WV)}, (), {"solute": "tartaric"}),
        (
            "stock",
            {"stock": (400, "gram"), "strength": (24, PERCENT), "target": (10, PERCENT)},
            (),
            {"solute": "salt"},
        ),
        (
            "thin",
            {"mass": (1000, "gram"), "strength": (25, PERCENT), "target": (20, PERCENT)},
            (),
            {"solute": "salt"},
        ),
        (
            "strengthen",
            {"weak": (1400, "gram"), "weak_strength": (10, PERCENT), "strength": (14, PERCENT)},
            (),
            {"solute": "salt"},
        ),
        (
            "stock_by_volume",
            {"stock": (50, "milliliter"), "content": (200, "gram / liter"), "target": (20, "gram / liter")},
            (),
            {},
        ),
    ],
)
def test_every_direction(calculator, given, skip, choices):
    every_direction(calculator, given, skip, **choices)


@pytest.mark.parametrize(
    ("percent", "grams_a_litre"), [(2, 20.25), (10, 107.07), (20, 229.56), (26, 311.272)]
)
def test_salt_in_a_litre(percent, grams_a_litre):
    """Poradnik fizykochemiczny (WNT 1974), NaCl at 20 °C, g/l as a laboratory in Toruń prints it."""
    found = number("solution", {"strength": (percent, PERCENT)}, "content", "gram / liter", solute="salt")
    assert found == pytest.approx(grams_a_litre, rel=5e-4)


@pytest.mark.parametrize("percent", [5, 10, 15, 20])
def test_brine_against_a_library(percent):
    """CoolProp 8, incompressible NaCl solution (MNA), at 20 °C and 1 atm."""
    coolprop = pytest.importorskip("CoolProp.CoolProp")
    theirs = coolprop.PropsSI("D", "T", 293.15, "P", 101325, f"INCOMP::MNA[{percent / 100}]") / 1000
    ours = number("solution", {"strength": (percent, PERCENT)}, "density", solute="salt")
    assert ours == pytest.approx(theirs, rel=1e-3)


@pytest.mark.parametrize(("brix", "grams_a_litre"), [(20, 216.2), (40, 470.6), (50, 614.8), (60, 771.9)])
def test_sugar_in_a_litre(brix, grams_a_litre):
    """CRC Handbook, concentrative properties of sucrose solutions at 20 °C, g/l."""
    found = number("solution", {"strength": (brix, "brix")}, "content", solute="sugar")
    assert found == pytest.approx(grams_a_litre, rel=5e-4)


@pytest.mark.parametrize(("percent", "density"), [(5, 1.0189), (10, 1.0402), (20, 1.0858)])
def test_citric_acid_density(percent, density):
    """Engineering ToolBox, densities of aqueous solutions of organic acids at 20 °C."""
    assert number("solution", {"strength": (percent, PERCENT)}, "density", solute="citric") == pytest.approx(
        density
    )


def test_monohydrate_holds_less_acid_than_anhydrous():
    """Molar masses 192.124 and 210.139 g/mol (molmass library): 10 % of the monohydrate is 9.14 % acid."""
    monohydrate = number("solution", {"strength": (10, PERCENT)}, "density", solute="citric-monohydrate")
    same = number("solution", {"strength": (10 * 192.124 / 210.139, PERCENT)}, "density", solute="citric")
    assert monohydrate == pytest.approx(same, rel=1e-9)


def test_saturated_brine():
    """aquasol, solubility of NaCl at 20 °C: 26.39 % w/w; the Salt Institute prints 26.395 % at 15.6 °C."""
    assert (
        ask("solution", {"mass": (1, "kilogram"), "strength": (26.3, PERCENT)}, solute="salt").status
        == "answered"
    )
    refused = ask("solution", {"mass": (1, "kilogram"), "strength": (26.6, PERCENT)}, solute="salt")
    assert refused.status == "declined"
    assert "26.4 %" in refused.reason


@pytest.mark.parametrize(("solute", "limit"), [("citric", "59"), ("ascorbic", "25"), ("malic", "55.5")])
def test_more_than_dissolves_is_declined_with_the_limit(solute, limit):
    answer = ask("solution", {"mass": (100, "gram"), "strength": (75, PERCENT)}, solute=solute)
    assert answer.status == "declined"
    assert limit in answer.reason


def test_thick_syrup_is_a_caution():
    """Sucrose saturates at 66.7 % w/w at 20 °C (Bubnik and Kadlec 1995)."""
    answer = ask(
        "solution", {"mass": (1000, "gram"), "strength": (70, "brix")}, "solute_mass", solute="sugar"
    )
    assert answer.answer[0].value == pytest.approx(700)
    assert any("67" in text and "crystal" in text for text in answer.cautions)
    assert not ask("solution", {"mass": (1000, "gram"), "strength": (66, "brix")}, solute="sugar").cautions


def test_a_density_beyond_its_table_is_not_guessed():
    answer = ask(
        "solution", {"volume": (1, "liter"), "strength": (40, PERCENT)}, "solute_mass", solute="citric"
    )
    assert answer.status == "declined"
    assert "30 %" in answer.reason


def test_percent_of_a_volume_without_a_density_is_by_volume():
    """Tartaric acid has no density table here: 10 % of 500 ml is 50 g, and it says so."""
    answer = ask("made_up", {"volume": (500, "milliliter"), "strength": (10, WV)}, solute="tartaric")
    assert answer.answer[0].value == pytest.approx(50)
    assert any("w/v" in text for text in answer.assumptions)
    by_weight = ask("solution", {"volume": (500, "milliliter"), "strength": (10, PERCENT)}, solute="tartaric")
    assert by_weight.status == "asks"


def test_water_cannot_strengthen_nor_powder_weaken():
    up = ask(
        "thin", {"mass": (500, "gram"), "strength": (10, PERCENT), "target": (20, PERCENT)}, solute="salt"
    )
    down = ask(
        "strengthen",
        {"weak": (500, "gram"), "weak_strength": (20, PERCENT), "strength": (10, PERCENT)},
        solute="salt",
    )
    assert up.status == down.status == "declined"
    assert "10 %" in up.reason and "20 %" in up.reason
    assert "water" in down.reason


def test_diluting_conserves_the_solute():
    """500 g at 10 % hold 50 g of salt, which 208.33 g of a 24 % stock bring (mass balance)."""
    given = {"mass": (500, "gram"), "target": (10, PERCENT), "strength": (24, PERCENT)}
    assert number("stock", given, "stock") == pytest.approx(50 / 0.24)
    assert number("stock", given, "water") == pytest.approx(500 - 50 / 0.24)


def test_a_wrong_premise_says_what_the_values_make():
    answer = ask(
        "solution", {"solute_mass": (20, "gram"), "water": (80, "gram"), "strength": (30, PERCENT)}, "mass"
    )
    assert answer.status == "declined"
    assert "20 %" in answer.reason


def test_a_ratio_counts_salt_over_water():
    given = {"ratio": (0.25, "dimensionless"), "mass": (500, "gram")}
    assert number("solution_by_ratio", given, "solute_mass") == pytest.approx(100)
    assert (
        ask("solution_by_ratio", {**given, "ratio": (0.5, "dimensionless")}, solute="salt").status
        == "declined"
    )
