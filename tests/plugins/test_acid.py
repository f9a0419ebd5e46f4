"""Juices and acids: every direction, published figures, refusals."""

from __future__ import annotations

import pytest

from .directions import ask, every_direction, kernel, number

G, ML, WV = "gram", "milliliter", "percent_wv"

EVERY = [
    ("juice_acid", {"volume": (300, ML), "acidity": (6, WV)}, {}),
    ("acid_adjust", {"volume": (300, ML), "present": (0.8, WV), "target": (6, WV)}, {}),
    ("acid_dilute", {"volume": (300, ML), "acidity_before": (6, WV), "acidity_after": (3, WV)}, {}),
    ("acid_split", {"total": (36, G), "ratio": (2, "dimensionless")}, {}),
    ("same_acid", {"volume": (300, ML)}, {"juice": "lime", "other": "orange"}),
    ("juice_into_juice", {"volume": (300, ML), "target": (2, WV)}, {"juice": "orange", "other": "lime"}),
    ("acid_for_juice", {"volume": (300, ML), "acidity": (6, WV), "strength": (15, WV)}, {}),
    (
        "acid_parts",
        {
            "total": (2000, G),
            "citric_part": (5, "dimensionless"),
            "malic_part": (3, "dimensionless"),
            "tartaric_part": (2, "dimensionless"),
        },
        {},
    ),
    ("acid_solution", {"volume": (300, ML), "strength": (6, WV)}, {}),
    ("acid_equivalent", {"mass": (300, G)}, {"acid": "citric", "instead": "malic"}),
    ("titration", {"sample": (10, ML), "alkali": (9.4, ML), "normality": (1, "dimensionless")}, {}),
    ("acid_ph", {"strength": (1, WV)}, {"acid": "citric"}),
]


FROM_TABLE = {"same_acid": ("acidity", "other_acidity"), "juice_into_juice": ("present", "other_acidity")}


@pytest.mark.parametrize(("calculator", "given", "choices"), EVERY)
def test_every_variable_is_found_from_the_others(calculator, given, choices):
    of_the_table = FROM_TABLE.get(calculator, ())
    every_direction(calculator, given, of_the_table, **choices)


def adjust(given, wanted="acid", **choices):
    return ask("acid_adjust", given, wanted, **choices)


def test_to_lime_strength_the_total_comes_with_its_split():
    """Common practice, no source: lime 6 % of which 4 citric and 2 malic, orange 0.8 %."""
    answer = adjust({"volume": (1, "liter")}, juice="orange", like="lime")
    values = {v.name: v.value for v in answer.values}
    assert answer.answer[0].value == pytest.approx(52)
    assert values["citric"] == pytest.approx(52 * 4 / 6)
    assert values["malic"] == pytest.approx(52 * 2 / 6)


@pytest.mark.parametrize(
    ("powder", "citric", "malic"), [("citric", 52, 0), ("malic", 0, 52), ("tartaric", 0, 0)]
)
def test_a_named_acid_is_used_alone(powder, citric, malic):
    answer = adjust({"volume": (1, "liter")}, juice="orange", like="lime", powder=powder)
    values = {v.name: v.value for v in answer.values}
    assert answer.answer[0].value == pytest.approx(52)
    assert values["citric"] == pytest.approx(citric)
    assert values["malic"] == pytest.approx(malic)


def test_to_a_percentage_citric_is_taken_and_said():
    answer = adjust({"volume": (750, ML), "target": (6, WV)}, juice="pineapple")
    assert answer.answer[0].value == pytest.approx(39)
    assert any("citric" in a for a in answer.assumptions)


def test_an_own_figure_wins_over_the_table():
    assert adjust({"volume": (900, ML), "present": (1.1, WV), "target": (3, WV)}, juice="orange").answer[
        0
    ].value == pytest.approx(17.1)


def test_adding_acid_never_lowers_an_acidity():
    answer = adjust({"volume": (1, "liter")}, juice="lemon", like="orange")
    assert answer.status == "declined"
    assert "cannot lower" in answer.reason


def test_water_never_raises_an_acidity():
    given = {"volume": (1, "liter"), "acidity_before": (3, WV), "acidity_after": (4, WV)}
    assert ask("acid_dilute", given, "water").status == "declined"


def test_a_blend_weighs_each_juice_by_its_acid():
    """Common practice, no source: lime 6 g, pineapple 0.8 g in 100 ml."""
    from stillroom.messages import Amount, Line

    k = kernel()
    spec = tuple(
        Line(f"{n} juice", Amount(v, ML, v), {}, f"{n}-juice") for n, v in (("lime", 300), ("pineapple", 700))
    )
    answer = k.answer(k.request("bar.juice_blend", {}, ["acidity"], spec=spec))
    assert answer.answer[0].value == pytest.approx(2.36)


# geraldmcdonald.com, fruit juice acids: grams that neutralise as much as one gram of anhydrous citric acid
@pytest.mark.parametrize(
    ("acid", "grams"), [("citric-monohydrate", 1.094), ("malic", 1.047), ("tartaric", 1.172)]
)
def test_equivalents_agree_with_the_juice_trades_factors(acid, grams):
    assert number(
        "acid_equivalent", {"mass": (1, G)}, "instead_mass", acid="citric", instead=acid
    ) == pytest.approx(grams, abs=6e-4)


def test_the_monohydrate_weighs_more_by_its_water():
    """Molar masses (IUPAC): 192.124 and 210.139 g/mol."""
    assert number(
        "acid_equivalent", {"mass": (320, G)}, "instead_mass", acid="citric", instead="citric-monohydrate"
    ) == pytest.approx(320 * 210.139 / 192.124)


def test_a_titration_by_the_official_factor():
    """AOAC: percent = ml × normality × milliequivalent factor (0.06404 for citric) × 100 / sample."""
    given = {"sample": (10, ML), "alkali": (9.4, ML), "normality": (1, "dimensionless")}
    assert number("titration", given, "acidity") == pytest.approx(9.4 * 0.06404 * 100 / 10, rel=1e-4)
    tenth = {"sample": (10, ML), "alkali": (94, ML)}
    assert number("titration", tenth, "acidity") == pytest.approx(6.02, rel=1e-3)


# Ideal dissociation, solved independently for the first two pKa (Martell and Smith): 10 g/l citric, malic, tartaric
@pytest.mark.parametrize(
    ("acid", "molar", "first", "second"),
    [("citric", 192.124, 3.13, 4.76), ("malic", 134.087, 3.40, 5.20), ("tartaric", 150.087, 2.98, 4.34)],
)
def test_ph_satisfies_the_charge_balance(acid, molar, first, second):
    hydrogen = 10 ** -number("acid_ph", {"strength": (1, WV)}, "ph", acid=acid)
    k1, k2 = 10**-first, 10**-second
    whole = hydrogen**2 + k1 * hydrogen + k1 * k2
    charge = 10 / molar * (k1 * hydrogen + 2 * k1 * k2) / whole
    assert hydrogen == pytest.approx(charge, rel=1e-3)


def test_a_strong_acid_solution_is_cautioned():
    answer = ask("acid_solution", {"volume": (1, "liter"), "strength": (50, WV)}, "acid")
    assert any("solubility" in c for c in answer.cautions)
