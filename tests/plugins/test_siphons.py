"""Cream siphons: in every direction, the rule of chargers, refusals, the physics of the gas."""

import pytest

from .directions import ask, every_direction, number

SIZE = {"size": (1, "liter")}


@pytest.mark.parametrize(
    ("calculator", "given", "skip"),
    [
        (
            "siphon_fill",
            {"size": (0.5, "liter"), "liquid": (480, "milliliter"), "portion": (32, "milliliter")},
            (),
        ),
        (
            "siphon_pressure",
            {
                "liquid": (500, "milliliter"),
                "headspace": (250, "milliliter"),
                "gas": (8, "gram"),
                "temperature": (6, "degree_Celsius"),
                "charger": (8, "gram"),
            },
            ("size",),
        ),
    ],
)
def test_every_direction(calculator, given, skip):
    every_direction(calculator, given, skip)


def test_chargers_in_every_direction_but_the_size():
    """The rule gives one number for a range of sizes, so a size cannot be told from it."""
    full = {
        **SIZE,
        "fills": (30, "count"),
        "chargers": (60, "count"),
        "box": (20, "count"),
        "boxes": (3, "count"),
        "charger": (8, "gram"),
        "gas": (480, "gram"),
    }
    for name in ("fills", "chargers", "boxes", "box", "charger", "gas"):
        rest = {n: v for n, v in full.items() if n != name}
        assert number("siphon_chargers", rest, name) == pytest.approx(full[name][0])
    assert number("siphon_chargers", {**SIZE, "chargers": (24, "count")}, "fills") == 12


@pytest.mark.parametrize(("size", "chargers"), [(0.25, 1), (0.5, 1), (0.75, 2), (1, 2)])
def test_the_rule_of_chargers(size, chargers):
    """Common practice, no source: one 8 g charger for 0.5 l and less, two for 1 l."""
    assert number("siphon_chargers", {"size": (size, "liter")}, "chargers") == chargers


def test_pint_and_quart_siphons_go_by_their_rated_size():
    """Common practice, no source: 0.5 l and 1 l."""
    assert number("siphon_fill", {}, "full", "milliliter", siphon_size="pint") == pytest.approx(500)
    assert number("siphon_chargers", {}, "chargers", siphon_size="quart") == 2


def test_whole_boxes_fills_and_portions():
    assert number("siphon_chargers", {**SIZE, "fills": (30, "count"), "box": (24, "count")}, "boxes") == 3
    batch = {"size": (0.5, "liter"), "base": (60, "fluid_ounce")}
    assert number("siphon_service", batch, "fills") == 4
    assert number("siphon_service", batch, "chargers") == 4
    dinner = {**SIZE, "portions": (130, "count"), "portions_per_fill": (20, "count")}
    assert number("siphon_service", dinner, "chargers") == 14
    assert number("siphon_fill", {"size": (0.5, "liter"), "portion": (35, "milliliter")}, "portions") == 14


def test_the_size_is_asked_for():
    answer = ask("siphon_chargers", {}, "chargers")
    assert answer.status == "asks"
    assert any("size" in name for names in answer.missing for name in names)


@pytest.mark.parametrize(
    ("calculator", "given", "limit"),
    [
        ("siphon_check", {"size": (0.5, "liter"), "inside": (5, "count")}, "up to 0.5 l"),
        ("siphon_check", {"size": (1, "liter"), "inside": (3, "count")}, "two up to 1 l"),
        ("siphon_fill", {**SIZE, "liquid": (1.3, "liter"), "portion": (30, "milliliter")}, "1 l"),
        ("siphon_service", {"size": (0.5, "liter"), "fill": (0.8, "liter"), "base": (2, "liter")}, "0.5 l"),
        ("siphon_chargers", {"size": (2, "liter"), "fills": (3, "count")}, "1 l"),
        ("siphon_pressure", {**SIZE, "chargers": (4, "count")}, "two up to 1 l"),
        (
            "siphon_pressure",
            {"size": (0.5, "liter"), "liquid": (600, "milliliter"), "chargers": (1, "count")},
            "0.5 l",
        ),
    ],
)
def test_overfilling_and_overcharging_are_declined_with_the_limit(calculator, given, limit):
    answer = ask(calculator, given)
    assert answer.status == "declined"
    assert limit in answer.reason


@pytest.mark.parametrize(
    ("calculator", "given"),
    [
        ("siphon_chargers", SIZE),
        ("siphon_service", {**SIZE, "base": (2, "liter")}),
        ("siphon_fill", SIZE),
        ("siphon_check", SIZE),
        ("siphon_pressure", {**SIZE, "chargers": (2, "count")}),
    ],
)
def test_the_gas_cautions_are_always_there(calculator, given):
    said = " ".join(ask(calculator, given).cautions)
    for word in ("pressure", "Food-grade", "maker", "chill", "gas is left"):
        assert word in said


def test_a_charger_holds_eight_grams():
    """Compact cylinders of EN 16509 sold as 8 g of N2O: 0.1818 mol, 4.35 l of gas at 20 °C."""
    grams = number("siphon_chargers", {**SIZE, "fills": (9, "count")}, "gas")
    assert grams == pytest.approx(144)
    assert grams / 18 / 44.0128 * 0.082057 * 293.15 == pytest.approx(4.37, rel=0.01)


@pytest.mark.parametrize(
    ("gas", "liquid", "headspace", "before", "after"),
    [(8, 0.5, 0.25, 16.5, 5.0), (16, 1.0, 0.45, 18.4, 5.2), (16, 0.5, 0.25, 33, 10)],
)
def test_pressure_of_a_closed_vessel(gas, liquid, headspace, before, after):
    """By hand, in atm at 4 °C: ideal gas and Henry's law, K0 0.0504 mol/(l atm) (Weiss and Price 1980)."""
    given = {
        "gas": (gas, "gram"),
        "liquid": (liquid, "liter"),
        "headspace": (headspace, "liter"),
        "temperature": (4, "degree_Celsius"),
    }
    assert number("siphon_pressure", given, "before_shaking", "atmosphere") == pytest.approx(before, rel=0.01)
    assert number("siphon_pressure", given, "pressure", "atmosphere") == pytest.approx(after, rel=0.02)


def test_pressure_with_another_solubility():
    """Sander 2023: 2.4e-4 mol/(m3 Pa) at 25 °C, 2600 K: within 8 % of what is used here, chilled or not."""
    from math import exp

    for t in (4, 15, 25):
        henry = 2.4e-4 * exp(2600 * (1 / (t + 273.15) - 1 / 298.15)) * 101325 / 1000
        room = 0.25 / (0.082057 * (t + 273.15)) + henry * 0.5
        given = {
            "gas": (8, "gram"),
            "liquid": (0.5, "liter"),
            "headspace": (0.25, "liter"),
            "temperature": (t, "degree_Celsius"),
        }
        found = number("siphon_pressure", given, "pressure", "atmosphere")
        assert found == pytest.approx(8 / 44.0128 / room, rel=0.08)


def test_the_headspace_is_said_to_be_an_assumption():
    answer = ask("siphon_pressure", {**SIZE, "chargers": (2, "count")})
    assert any("assumption" in text for text in answer.assumptions)
    assert any("Weiss" in text for text in answer.sources)
