"""Yields of fruit: every direction, published shares, whole fruit, refusals."""

from __future__ import annotations

import pytest

from .directions import ask, every_direction, kernel, number

L, ML, G, KG, N = "liter", "milliliter", "gram", "kilogram", "count"


def test_every_direction() -> None:
    every_direction("juice_by_fruit", {"fruit": (54, N), "each": (95, ML)})
    every_direction("juice_with_waste", {"fruit": (200, N), "each": (25, ML), "waste": (10, "percent")})
    every_direction("peel_by_fruit", {"fruit": (72, N), "each": (9, G)})
    every_direction("peel_from_juice", {"juice": (3, L), "juice_each": (80, ML), "peel_each": (18, G)})
    every_direction("juice_per_kilo", {"weight": (4.2, KG), "juice": (1.55, L)})
    every_direction("juice_share", {"weight": (20, KG), "share": (45, "percent")})
    every_direction("fruit_for_juice_by_weight", {"fruit": (8, N), "each": (1.4, KG), "share": (45, "percent")})
    every_direction("trimming", {"bought": (14.4, KG), "lost": (45, "percent")})
    every_direction("trimming_by_fruit", {"fruit": (8, N), "each": (1.8, KG), "lost": (45, "percent")})
    every_direction("juice_by_case", {"cases": (4, N), "in_case": (48, N), "each": (25, ML)})
    every_direction("herb_bunches", {"serves": (70, N), "each": (8, N), "bunch": (70, N)})
    every_direction("egg_white", {"eggs": (20, N), "each": (30, ML), "dose": (20, ML)})


def test_fruit_to_buy_is_whole_and_the_exact_number_stays_known() -> None:
    answer = ask("juice_by_fruit", {"juice": (2.5, L), "each": (28, ML)}, "fruit")
    assert answer.answer[0].value == 90
    assert next(v.value for v in answer.values if v.name == "fruit") == pytest.approx(2500 / 28)


def test_a_figure_of_ones_own_wins_over_the_table() -> None:
    typical = ask("juice_by_fruit", {"juice": (3, L)}, "fruit", kind="lime")
    own = ask("juice_by_fruit", {"juice": (3, L), "each": (25, ML)}, "fruit", kind="lime")
    assert own.answer[0].value == 120 and not own.assumptions
    assert typical.answer[0].value != 120 and "usual range 22 to 50 ml" in typical.assumptions[0]


@pytest.mark.parametrize(
    ("fruit", "grams"),
    # USDA FoodData Central, raw juices, household measure "one fruit yields" (from memory of SR Legacy)
    [("lime", 44), ("lemon", 48), ("orange", 86), ("grapefruit", 196)],
)
def test_the_juice_of_one_fruit_is_within_the_tables_range(fruit: str, grams: float) -> None:
    row = kernel().model("bar.juice_by_fruit").choices["kind"].rows[fruit].values
    assert float(row["juice_low"]) <= grams / 1.03 <= float(row["juice_high"])
    assert number("juice_by_fruit", {"fruit": (1, N)}, "juice", kind=fruit) == pytest.approx(grams / 1.03, rel=0.35)


def test_impossible_losses_are_refused() -> None:
    for calculator, lost in (("trimming", "lost"), ("juice_with_waste", "waste")):
        given = {lost: (120, "percent"), ("clean" if lost == "lost" else "juice"): (2, KG if lost == "lost" else L)}
        if lost == "waste":
            given["each"] = (20, ML)
        answer = ask(calculator, given, "bought" if lost == "lost" else "fruit")
        assert answer.status == "declined" and "120 %" in answer.reason


def test_two_figures_that_disagree_are_a_contradiction() -> None:
    answer = ask("juice_by_fruit", {"each": (40, ML), "fruit": (20, N), "juice": (1.2, L)}, "each")
    assert answer.status == "declined" and "add up" in answer.reason


def test_an_unnamed_fruit_is_asked_for() -> None:
    answer = ask("juice_by_fruit", {"juice": (2, L)}, "fruit")
    assert answer.status == "asks" and answer.missing == (("kind",),) and "lime" in answer.choices


def test_raw_egg_is_warned_of() -> None:
    cautions = " ".join(ask("egg_white", {"serves": (40, N), "dose": (20, ML)}, "eggs").cautions)
    assert "salmonella" in cautions and "allergen" in cautions
