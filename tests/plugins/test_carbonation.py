"""Carbonation: every direction, independent solubilities, refusals and cautions."""

from __future__ import annotations

import pytest

from .directions import ask, every_direction, kernel, number

G, ML, VOL, C, BAR = "gram", "milliliter", "co2_volume", "degree_Celsius", "bar"

EVERY = [
    ("carbonation", {"temperature": (4, C), "volumes": (3, VOL)}, ()),
    ("carbonation", {"temperature": (4, C), "pressure": (1.5, BAR)}, ()),
    ("keg_gas", {"liquid": (19000, ML), "volumes": (3, VOL), "lost": (10, "percent")}, ()),
    (
        "co2_chargers",
        {"liquid": (2000, ML), "volumes": (3, VOL), "lost": (10, "percent"), "charger": (8, G)},
        (),
    ),
    ("carbonated_mix", {"soda": (100, ML), "soda_volumes": (4, VOL), "flat": (50, ML)}, ()),
    ("soda_siphon", {"size": (1, "liter")}, ("liquid",)),
]


@pytest.mark.parametrize(("calculator", "given", "skip"), EVERY)
def test_every_variable_is_found_from_the_others(calculator, given, skip):
    every_direction(calculator, given, skip=skip)


# Bunsen coefficients of CO2 in water, volumes at 1 atm, from an old handbook table (chestofbooks.com), good to 4 %
@pytest.mark.parametrize(("t", "volumes"), [(4, 1.513), (10, 1.185), (20, 0.901)])
def test_solubility_agrees_with_the_bunsen_coefficients(t, volumes):
    assert number("carbonation", {"temperature": (t, C), "pressure": (0, BAR)}, "volumes") == pytest.approx(
        volumes, rel=0.04
    )


def test_solubility_agrees_with_the_steam_association():
    """IAPWS G7-04 through the iapws package; it lies 1 to 4 % lower in the cold."""
    iapws = pytest.importorskip("iapws")
    t = 15.0
    henry = iapws._iapws._Henry(t + 273.15, "CO2")
    mole_fraction = 0.101325 / henry
    grams = mole_fraction / (1 - mole_fraction) / 18.015268 * 44.0095 * 999.1
    assert number("carbonation", {"temperature": (t, C), "pressure": (0, BAR)}, "content") == pytest.approx(
        grams, rel=0.03
    )


def test_a_volume_is_1_977_grams_a_litre():
    """Density of CO2 at 0 °C and 1 atm."""
    assert number("carbonation", {"volumes": (3.5, VOL)}, "content") == pytest.approx(3.5 * 1.977)
    assert number("carbonation", {"content": (7.5, "gram / liter")}, "volumes") == pytest.approx(7.5 / 1.977)


def test_a_keg_takes_its_litres_times_its_volumes():
    assert number("keg_gas", {"liquid": (19, "liter"), "volumes": (3.4, VOL)}, "gas") == pytest.approx(
        19 * 3.4 * 1.977
    )
    lossy = {"liquid": (82.5, "liter"), "volumes": (4, VOL), "lost": (12, "percent")}
    assert number("keg_gas", lossy, "gas", "kilogram") == pytest.approx(0.741375)


def test_chargers_are_rounded_up():
    assert number("co2_chargers", {"liquid": (2, "liter"), "volumes": (4, VOL)}, "chargers") == 2
    assert number("co2_chargers", {"liquid": (2, "liter"), "volumes": (4.1, VOL)}, "chargers") == 3


@pytest.mark.parametrize(("size", "chargers"), [(0.5, 1), (1, 1), (2, 2)])
def test_a_soda_siphon_takes_one_charger_a_litre(size, chargers):
    """Common practice, no source."""
    assert number("soda_siphon", {"size": (size, "liter")}, "chargers") == chargers


def test_a_blend_dilutes_its_gas():
    assert number(
        "carbonated_mix", {"soda": (100, ML), "soda_volumes": (4.2, VOL), "flat": (40, ML)}, "volumes"
    ) == pytest.approx(3)
    assert number(
        "carbonated_mix", {"soda_volumes": (4, VOL), "flat": (50, ML), "volumes": (3, VOL)}, "soda"
    ) == pytest.approx(150)


def test_flat_lines_of_a_spec_carry_no_gas():
    from stillroom.messages import Amount, Line

    k = kernel()
    lines = (
        Line("soda", Amount(90, ML, 90), {"fizz": Amount(4, VOL, 4)}, "soda-water"),
        Line("vermouth", Amount(45, ML, 45), {}, "vermouth"),
        Line("juice", Amount(15, ML, 15), {}, "lemon-juice"),
    )
    answer = k.answer(k.request("bar.carbonated_spec", {}, ["volumes"], spec=lines))
    assert answer.answer[0].value == pytest.approx(90 * 4 / 150)


@pytest.mark.parametrize(
    ("calculator", "given", "wanted", "choices", "says"),
    [
        (
            "carbonated_mix",
            {"soda_volumes": (3, VOL), "volumes": (4, VOL), "volume": (8, "fluid_ounce")},
            "soda",
            {},
            "no more gas",
        ),
        (
            "carbonation",
            {"volumes": (4, VOL), "temperature": (3, C)},
            "pressure",
            {"vessel": "jar"},
            "pressure",
        ),
        ("soda_siphon", {"size": (1, "liter"), "chargers": (2, "count")}, "chargers", {}, "One CO2 charger"),
        ("soda_siphon", {"size": (1, "liter"), "liquid": (1.2, "liter")}, "chargers", {}, "rated volume"),
    ],
)
def test_the_dangerous_and_the_impossible_are_refused(calculator, given, wanted, choices, says):
    answer = ask(calculator, given, wanted, **choices)
    assert answer.status == "declined"
    assert says in answer.reason


def test_a_pressure_always_comes_with_its_cautions():
    answer = ask("carbonation", {"volumes": (3, VOL), "temperature": (4, C)}, "pressure")
    told = " ".join(answer.cautions)
    assert "pressure" in told
    assert "sugar" in told and "alcohol" in told
    glass = ask("carbonation", {"volumes": (3, VOL), "temperature": (4, C)}, "pressure", vessel="glass")
    assert any("burst" in c and "pressure" in c for c in glass.cautions)


def test_much_pressure_is_cautioned():
    mild = ask("carbonation", {"volumes": (3, VOL), "temperature": (4, C)}, "pressure")
    fierce = ask("carbonation", {"volumes": (6, VOL), "temperature": (20, C)}, "pressure")
    assert not any("maximum" in c for c in mild.cautions)
    assert any("maximum" in c for c in fierce.cautions)


def test_a_pressure_without_a_temperature_is_asked_for():
    answer = ask("carbonation", {"volumes": (3, VOL)}, "pressure")
    assert answer.missing == (("temperature",),)
