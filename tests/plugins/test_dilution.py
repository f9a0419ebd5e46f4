"""Dilution: every direction, the curves' own figures, heat, refusals."""

from __future__ import annotations

import pytest

from .directions import ask, every_direction, kernel, number

G, ML, ABV, C, PC = "gram", "milliliter", "abv", "degree_Celsius", "percent"

EVERY = [
    ("dilution", {"volume": (100, ML), "abv": (28, ABV)}, {"method": "stirred"}),
    ("dilution", {"volume": (100, ML), "abv": (28, ABV)}, {"method": "shaken"}),
    (
        "prediluted_batch",
        {"serve": (90, ML), "serves": (40, "count"), "abv": (28, ABV)},
        {"method": "stirred"},
    ),
    ("measured_dilution", {"volume": (90, ML), "dilution": (40, PC), "abv": (28, ABV)}, {}),
    (
        "ice_melt",
        {"volume": (90, ML), "abv": (28, ABV), "warm": (20, C), "cold": (-3, C), "ice_temperature": (-5, C)},
        {},
    ),
]


@pytest.mark.parametrize(("calculator", "given", "choices"), EVERY)
def test_every_variable_is_found_from_the_others(calculator, given, choices):
    every_direction(calculator, given, **choices)


# The curves by hand; common practice, no source
@pytest.mark.parametrize(
    ("method", "abv", "dilution"),
    [("stirred", 30, 40.99), ("stirred", 22, 36.0556), ("shaken", 30, 58.457), ("shaken", 19, 47.74113)],
)
def test_the_curves(method, abv, dilution):
    assert number("dilution", {"abv": (abv, ABV)}, "dilution", method=method) == pytest.approx(
        dilution, rel=1e-5
    )


def test_without_a_method_it_is_asked_for():
    answer = ask("dilution", {"volume": (90, ML), "abv": (30, ABV)}, "water")
    assert answer.status == "asks"
    assert answer.choices == ("stirred", "shaken")


@pytest.mark.parametrize(("abv", "cautioned"), [(10, True), (15, False), (35, False), (40, True)])
def test_outside_the_curves_range_there_is_a_caution(abv, cautioned):
    answer = ask("dilution", {"volume": (90, ML), "abv": (abv, ABV)}, "water", method="stirred")
    assert answer.status == "answered"
    assert any("15 to 35 %" in c for c in answer.cautions) is cautioned


def test_ethanol_is_kept():
    given = {"volume": (105, ML), "abv": (25.7, ABV)}
    after = number("dilution", given, "final_volume", method="shaken")
    weak = number("dilution", given, "final_abv", method="shaken")
    assert after * weak == pytest.approx(105 * 25.7)


@pytest.mark.parametrize(
    ("given", "wanted", "value"),
    [
        ({"volume": (120, ML), "final_volume": (172, ML)}, "dilution", 100 * 52 / 120),
        ({"dilution": (38, PC)}, "share", 100 * 0.38 / 1.38),
        ({"final_volume": (1000, ML), "dilution": (25, PC)}, "water", 200.0),
        ({"final_volume": (1000, ML), "share": (25, PC)}, "water", 250.0),
        ({"abv": (29, ABV), "final_abv": (21, ABV), "volume": (100, ML)}, "water", 100 * (29 / 21 - 1)),
    ],
)
def test_water_by_measure(given, wanted, value):
    """Volume and ethanol balances by hand."""
    assert number("measured_dilution", given, wanted) == pytest.approx(value)


def test_water_cannot_strengthen_a_drink():
    answer = ask(
        "measured_dilution", {"volume": (100, ML), "abv": (30, ABV), "final_abv": (35, ABV)}, "water"
    )
    assert answer.status == "declined"
    assert "cannot raise" in answer.reason


def test_a_batch_of_a_spec_takes_the_strength_from_its_lines():
    from stillroom.messages import Amount, Line

    k = kernel()
    lines = tuple(
        Line(n, Amount(v, ML, v), {"abv": Amount(s, ABV, s / 100)}, n)
        for n, v, s in (("bourbon", 50, 45), ("vermouth", 25, 16), ("amaro", 25, 28))
    )
    answer = k.answer(
        k.request(
            "bar.diluted_spec",
            {"serves": (25, "count")},
            ["water"],
            spec=lines,
            choices={"method": "stirred"},
        )
    )
    curve = -1.21 * 0.335**2 + 1.246 * 0.335 + 0.145
    assert answer.answer[0].value == pytest.approx(2500 * curve)


def test_ice_melts_by_its_latent_heat():
    """IAPWS: 333.4 J/g to melt ice at 0 °C, 4.184 J/(g K) for water: 100 g from 20 °C to 0 °C melt 25.1 g."""
    given = {"volume": (100 / 0.9982012, ML), "abv": (0, ABV), "warm": (20, C), "cold": (0, C)}
    assert number("ice_melt", given, "melted") == pytest.approx(100 * 4.184 * 20 / 333.42, rel=1e-4)


def test_colder_ice_melts_less():
    given = {"volume": (100, ML), "abv": (30, ABV), "warm": (20, C), "cold": (-3, C)}
    wet = number("ice_melt", given, "melted")
    cold = number("ice_melt", {**given, "ice_temperature": (-18, C)}, "melted")
    assert cold / wet == pytest.approx(
        (333.42 - 4.184 * 3) / (333.42 + 18 * (2.097 - 0.0037 * 18) - 4.184 * 3), rel=1e-6
    )


def test_ice_does_not_warm():
    assert (
        ask(
            "ice_melt", {"volume": (100, ML), "abv": (30, ABV), "warm": (5, C), "cold": (10, C)}, "melted"
        ).status
        == "declined"
    )
