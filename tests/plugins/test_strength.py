"""Strength: every direction, excise and OIML figures, refusals."""

from __future__ import annotations

import pytest

from .directions import ask, every_direction, kernel, number

G, ML, ABV, C = "gram", "milliliter", "abv", "degree_Celsius"

EVERY = [
    ("spirit_in_drink", {"spirit": (30, ML), "spirit_abv": (60, ABV), "volume": (100, ML)}),
    ("proof_down", {"spirit": (500, ML), "abv_from": (60, ABV), "abv_to": (40, ABV)}),
    ("proof_down", {"spirit": (500, ML), "abv_from": (63, ABV), "water": (500, ML)}),
    ("fortify", {"first": (1000, ML), "first_abv": (12, ABV), "second_abv": (60, ABV), "abv": (18, ABV)}),
    ("proof_down_by_weight", {"spirit": (5000, G), "abv_from": (96, ABV), "abv_to": (40, ABV)}),
    ("strength_scales", {"abv": (45, ABV), "temperature": (12, C)}),
    ("hydrometer", {"reading": (42, ABV), "temperature": (28, C)}),
    ("spirit_freezing", {"abv": (33, ABV), "freezer": (-20, C)}),
    ("liqueur", {"spirit": (500, ML), "spirit_abv": (60, ABV), "sugar": (200, G), "water": (375, ML)}),
]


@pytest.mark.parametrize(("calculator", "given"), EVERY)
def test_every_variable_is_found_from_the_others(calculator, given):
    every_direction(calculator, given)


# Water to 100 volumes of spirit, American excise table at 60 °F (engineersedge.com, alcohol dilution), printed
# to three digits; the OIML figures here are for 20 °C and lie within 0.5 %
REDUCING = [
    (95, 40, 144.0),
    (95, 50, 95.9),
    (90, 50, 84.8),
    (80, 40, 104.0),
    (70, 40, 77.6),
    (60, 40, 51.4),
    (50, 40, 25.6),
    (45, 40, 12.7),
]


@pytest.mark.parametrize(("strong", "weak", "water"), REDUCING)
def test_proofing_agrees_with_the_excise_table(strong, weak, water):
    given = {"spirit": (100, ML), "abv_from": (strong, ABV), "abv_to": (weak, ABV)}
    assert number("proof_down", given, "water") == pytest.approx(water, rel=6e-3)


# OIML R 22, alcoholometric tables: % vol, density at 20 °C in kg/m³, % mass
OIML = [
    (10, 984.710, 8.015),
    (20, 973.557, 16.214),
    (40, 948.045, 33.300),
    (50, 930.142, 42.426),
    (70, 885.562, 62.386),
    (96, 807.420, 93.838),
]


@pytest.mark.parametrize(("abv", "density", "by_weight"), OIML)
def test_scales_agree_with_the_alcoholometric_tables(abv, density, by_weight):
    assert number("strength_scales", {"abv": (abv, ABV)}, "density") == pytest.approx(
        density / 1000, abs=2e-6
    )
    assert number("strength_scales", {"abv": (abv, ABV)}, "by_weight") == pytest.approx(by_weight, abs=6e-4)


def test_fifty_and_fifty_shrinks():
    """OIML R 22 by hand: 50 ml of ethanol and 50 ml of water make 96.46 ml of 51.83 % ABV."""
    given = {"spirit": (50, ML), "abv_from": (100, ABV), "water": (50, ML)}
    assert number("proof_down", given, "final_volume") == pytest.approx(96.46, abs=0.01)
    assert number("proof_down", given, "abv_to") == pytest.approx(51.83, abs=0.01)


def test_weighed_reduction_by_the_excise_example():
    """27 CFR 30.66, from memory: 100 proof spirit is 53.73 parts of water to 50 of ethanol by volume at 60 °F."""
    water = number(
        "proof_down_by_weight", {"spirit": (39.62, G), "abv_from": (100, ABV), "abv_to": (50, ABV)}, "water"
    )
    assert water == pytest.approx(53.73, rel=3e-3)


def test_density_at_another_temperature():
    """OIML R 22: 40 % vol weighs 954.52, 960.63 and 941.19 kg/m³ at 10, 0 and 30 °C."""
    for t, density in ((10, 954.52), (0, 960.63), (30, 941.19)):
        assert number(
            "strength_scales", {"abv": (40, ABV), "temperature": (t, C)}, "density"
        ) == pytest.approx(density / 1000, abs=1e-5)


def test_proof_is_twice_the_strength():
    """27 CFR 5.1."""
    assert number("strength_scales", {"abv": (63, ABV)}, "proof", "proof") == pytest.approx(126)
    assert number("strength_scales", {"proof": (80, "proof")}, "abv") == pytest.approx(40)


def test_a_hydrometer_in_warm_spirit_reads_high():
    """OIML R 22: 40 % ABV weighs 0.94119 g/ml at 30 °C, the density of a stronger spirit at 20 °C."""
    reading = number("hydrometer", {"abv": (40, ABV), "temperature": (30, C)}, "reading")
    assert reading > 43
    assert number("strength_scales", {"abv": (reading, ABV)}, "density") == pytest.approx(0.94119, abs=1e-5)


# CoolProp, freezing temperature of INCOMP::MEA at the mass fractions of these strengths
@pytest.mark.parametrize(("abv", "freezes"), [(20, -8.23), (30, -15.09), (40, -23.30), (50, -31.65)])
def test_freezing_agrees_with_the_table(abv, freezes):
    assert number("spirit_freezing", {"abv": (abv, ABV)}, "freezing_point") == pytest.approx(freezes, abs=1.0)


@pytest.mark.parametrize(("abv", "cautioned"), [(25, True), (40, False)])
def test_a_drink_that_freezes_in_the_freezer_is_cautioned(abv, cautioned):
    answer = ask("spirit_freezing", {"abv": (abv, ABV)}, "margin")
    assert any("begin to freeze" in c for c in answer.cautions) is cautioned


def test_a_mix_weighs_each_line_by_its_strength():
    from stillroom.messages import Amount, Line

    k = kernel()
    strong = {"abv": Amount(45, "abv", 0.45)}
    spec = (
        Line("gin", Amount(60, ML, 60), strong, "gin"),
        Line("lemon juice", Amount(25, ML, 25), {}, "lemon-juice"),
        Line("syrup", Amount(20, ML, 20), {}, "simple-syrup"),
    )
    answer = k.answer(k.request("bar.mix_strength", {}, ["abv"], spec=spec))
    assert answer.answer[0].value == pytest.approx(100 * 27 / 105)


@pytest.mark.parametrize(
    ("calculator", "given", "wanted", "says"),
    [
        (
            "proof_down",
            {"spirit": (1000, ML), "abv_from": (38, ABV), "abv_to": (50, ABV)},
            "water",
            "only lowers",
        ),
        (
            "proof_down",
            {"spirit": (1000, ML), "abv_from": (38, ABV), "final_volume": (900, ML)},
            "abv_to",
            "only lowers",
        ),
        (
            "spirit_in_drink",
            {"volume": (100, ML), "spirit_abv": (40, ABV), "abv": (50, ABV)},
            "spirit",
            "cannot be stronger",
        ),
        (
            "fortify",
            {"first": (1000, ML), "first_abv": (12, ABV), "second_abv": (40, ABV), "abv": (45, ABV)},
            "second",
            "no stronger",
        ),
        ("strength_scales", {"proof": (240, "proof")}, "abv", "200 proof"),
        (
            "liqueur",
            {"spirit": (500, ML), "spirit_abv": (40, ABV), "abv": (50, ABV), "sugar": (100, G)},
            "water",
            "cannot be stronger",
        ),
    ],
)
def test_what_cannot_be_is_refused_with_its_reason(calculator, given, wanted, says):
    answer = ask(calculator, given, wanted)
    assert answer.status == "declined"
    assert says in answer.reason


def test_a_missing_starting_strength_is_asked_for():
    answer = ask("proof_down", {"spirit": (700, ML), "abv_to": (40, ABV)}, "water")
    assert answer.status == "asks"
    assert ("abv_from",) in answer.missing


def test_strong_spirit_is_cautioned_for_fire():
    answer = ask("proof_down", {"spirit": (1000, ML), "abv_from": (96, ABV), "abv_to": (40, ABV)}, "water")
    assert any("flame" in c for c in answer.cautions)


def test_sugar_takes_the_room_that_the_density_of_syrup_says():
    """ICUMSA SPS-4: 100 g of 50 °Bx syrup fill 81.33 ml, of which 50 g of water fill 50.09."""
    answer = number(
        "liqueur",
        {"spirit": (0.0, ML), "spirit_abv": (40, ABV), "sugar": (50, G), "water": (50.09, ML)},
        "volume",
    )
    assert answer == pytest.approx(100 / 1.22965, abs=0.1)
