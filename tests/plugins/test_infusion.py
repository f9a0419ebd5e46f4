"""Infusions: every direction, doses of the table, what is warned of and what is refused."""

from __future__ import annotations

import pytest

from .directions import ask, every_direction, kernel, number

L, ML, G, DOSE = "liter", "milliliter", "gram", "gram / liter"


def test_every_direction() -> None:
    every_direction("infusion", {"spirit": (1.7, L), "dose": (50, DOSE)}, skip=("strength",))
    every_direction("fat_wash", {"spirit": (700, ML), "dose": (150, DOSE)})
    every_direction("brew", {"water": (3, L), "dose": (80, DOSE)})
    every_direction("infusion_yield", {"spirit": (1, L), "solid": (60, G), "absorption": (2, "milliliter / gram")})
    every_direction(
        "infusion_by_parts", {"solid": (400, G), "ratio": (0.2, "dimensionless")}, skip=("volume",), by="weight"
    )
    every_direction(
        "infusion_by_parts", {"solid": (400, G), "ratio": (0.2, "dimensionless")}, skip=("spirit",), by="volume"
    )
    fruit = {"spirit": (700, ML), "strength": (40, "abv"), "fruit": (300, G), "share": (90, "percent")}
    every_direction("strength_after_fruit", fruit)


def test_parts_without_by_weight_or_by_volume_are_asked_about() -> None:
    given = {"volume": (500, ML), "ratio": (0.2, "dimensionless")}
    answer = ask("infusion_by_parts", given, "solid")
    assert answer.status == "asks" and answer.missing == (("by",),)
    assert number("infusion_by_parts", given, "solid", by="volume") == pytest.approx(100)
    # OIML R 22: spirit at 40 % ABV weighs 0.948 g/ml at 20 °C
    assert number("infusion_by_parts", given, "solid", by="weight") == pytest.approx(0.2 * 500 * 0.948)


def test_ethanol_is_kept_when_fruit_gives_its_water() -> None:
    """280 ml of ethanol in 700 ml and 270 ml of water."""
    given = {"spirit": (700, ML), "strength": (40, "abv"), "fruit": (300, G), "share": (90, "percent")}
    assert number("strength_after_fruit", given, "final") == pytest.approx(100 * 280 / 970)


def test_a_dose_of_ones_own_wins_over_the_table() -> None:
    assert number("infusion", {"spirit": (2, L), "dose": (10, DOSE)}, "mass", solid="cacao-nib") == pytest.approx(20)
    answer = ask("infusion", {"spirit": (2, L)}, "mass", solid="cacao-nib")
    assert "usual range" in answer.assumptions[0] and "12 to 72 h" in answer.steps[1]


def test_times_come_as_a_range() -> None:
    k = kernel()
    answer = k.answer(k.request("bar.steeping", {}, ["shortest", "longest"], choices={"solid": "cacao-nib"}))
    assert [v.value for v in answer.answer] == [12, 72]


@pytest.mark.parametrize(
    ("solid", "word"),
    [
        ("cinchona", "83 ppm"),
        ("tonka", "Coumarin"),
        ("charcoal", "medicines"),
        ("nutmeg", "toxic"),
        ("almond", "allergen"),
        ("wormwood", "thujone"),
    ],
)
def test_cautions_go_with_the_number(solid: str, word: str) -> None:
    for calculator, given in (
        ("infusion", {"spirit": (1, L), "dose": (2, DOSE)}),
        ("brew", {"water": (1, L), "dose": (2, DOSE)}),
    ):
        answer = ask(calculator, given, **{"solid": solid})
        assert answer.status == "answered" and word in " ".join(answer.cautions)


def test_what_has_no_safe_dose_gets_none_from_the_table() -> None:
    for solid in ("cinchona", "tonka", "charcoal"):
        answer = ask("infusion", {"spirit": (1, L)}, "mass", solid=solid)
        assert answer.status == "asks" and answer.cautions


@pytest.mark.parametrize("solid", ["tobacco", "apricot-kernel", "quinine", "methanol", "foxglove"])
def test_poisons_are_refused(solid: str) -> None:
    answer = ask("infusion", {"spirit": (1, L), "dose": (5, DOSE)}, solid=solid)
    assert answer.status == "declined" and not answer.answer


def test_a_dose_below_nothing_is_declined() -> None:
    assert ask("infusion", {"spirit": (2, L), "dose": (-30, DOSE)}, "mass").status == "declined"
