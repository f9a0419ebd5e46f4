"""Hydrocolloids and gelatine: in every direction, published conversions, ranges, allergens."""

import pytest

from .directions import ask, every_direction, kernel, number


@pytest.mark.parametrize(
    ("calculator", "given", "choices"),
    [
        ("hydrocolloid", {"liquid": (1.2, "liter"), "dose": (8, "gram / liter")}, {"powder": "agar"}),
        (
            "hydrocolloid_by_weight",
            {"liquid": (2.75, "kilogram"), "dose": (0.2, "percent")},
            {"powder": "xanthan"},
        ),
        (
            "stock_gel",
            {"strength": (3, "percent_ww"), "liquid": (900, "milliliter"), "dose": (2, "gram / liter")},
            {},
        ),
        (
            "foam_base",
            {
                "liquid": (700, "milliliter"),
                "foamer_dose": (12, "gram / liter"),
                "stabiliser_dose": (2, "gram / liter"),
            },
            {"foamer": "gelatine", "stabiliser": "xanthan"},
        ),
        (
            "bloom",
            {"recipe_mass": (10, "gram"), "recipe_bloom": (200, "bloom"), "bloom": (160, "bloom")},
            {"rule": "square-root"},
        ),
        (
            "gelatine_leaves",
            {"leaf": (2, "gram"), "liquid": (1, "liter"), "dose": (12, "gram / liter")},
            {},
        ),
    ],
)
def test_every_direction(calculator, given, choices):
    every_direction(calculator, given, **choices)


def test_a_percent_of_a_litre_is_ten_grams():
    """Common practice, no source: 1 % of a poured liquid is 10 g per litre."""
    given = {"liquid": (1.2, "liter"), "dose": (0.8, "percent_wv")}
    assert number("hydrocolloid", given, "powder_mass", powder="agar") == pytest.approx(9.6)
    weighed = {"liquid": (2.75, "kilogram"), "dose": (0.2, "percent")}
    assert number(
        "hydrocolloid_by_weight", weighed, "powder_mass", powder="gellan-low-acyl"
    ) == pytest.approx(5.5)


def test_no_dose_is_asked_for():
    answer = ask("hydrocolloid", {"liquid": (2, "liter")}, "powder_mass", powder="gum-arabic")
    assert answer.status == "asks"
    assert ("dose",) in answer.missing


@pytest.mark.parametrize(
    ("powder", "usual", "above"),
    [
        ("agar", 1, 2.5),
        ("xanthan", 0.2, 1),
        ("guar", 0.5, 1.5),
        ("locust-bean", 0.3, 0.8),
        ("pectin-hm", 1, 2),
    ],
)
def test_outside_the_usual_range_is_a_caution(powder, usual, above):
    """A vendor's guide, % w/w: agar to 2, xanthan to 0.5, guar to 1, locust bean to 0.5, pectin to 1.5."""
    inside = ask("hydrocolloid", {"liquid": (1, "liter"), "dose": (usual, "percent_wv")}, powder=powder)
    outside = ask("hydrocolloid", {"liquid": (1, "liter"), "dose": (above, "percent_wv")}, powder=powder)
    assert not any("usual" in text for text in inside.cautions)
    assert any("more than the usual" in text for text in outside.cautions)
    assert outside.answer[0].value == pytest.approx(above * 10)


@pytest.mark.parametrize(("powder", "word"), [("lecithin", "Soya"), ("egg-white-powder", "Egg")])
def test_allergens_are_named(powder, word):
    answer = ask("hydrocolloid", {"liquid": (1, "liter"), "dose": (5, "gram / liter")}, powder=powder)
    assert any("allergen" in text and word in text for text in answer.cautions)


def test_handling_is_in_the_steps():
    steps = " ".join(
        ask("hydrocolloid", {"liquid": (1, "liter"), "dose": (8, "gram / liter")}, powder="agar").steps
    )
    assert "boil" in steps and "90" in steps and "35 °C" in steps


@pytest.mark.parametrize("powder", list(kernel().model("bar.hydrocolloid").choices["powder"].rows))
def test_every_powder_says_how_to_handle_it_and_has_a_range(powder):
    answer = ask("hydrocolloid", {"liquid": (1, "liter"), "dose": (2000, "gram / liter")}, powder=powder)
    assert len(answer.steps) >= 3
    assert any("usual" in text for text in answer.cautions)


@pytest.mark.parametrize(
    ("powder", "low", "high"),
    [
        ("agar", 85, 100),
        ("gellan-low-acyl", 75, 95),
        ("gellan-high-acyl", 70, 80),
        ("xanthan", 0, 30),
        ("hpmc", 0, 20),
    ],
)
def test_hydration_temperature(powder, low, high):
    """Gellan: low acyl 75 °C, high acyl 70 to 80 °C (cinogel.com); the rest common practice, no source."""
    found = number("hydration", {}, "hydrates_from", "degree_Celsius", powder=powder)
    assert low <= found <= high


def test_bloom_by_the_square_root():
    """A vendor's table (o-keto.com): 60 bloom against 240 bloom, factor 2."""
    given = {"recipe_mass": (10, "gram"), "recipe_bloom": (60, "bloom"), "bloom": (240, "bloom")}
    assert number("bloom", given, "mass", rule="square-root") == pytest.approx(5)


def test_bloom_in_a_straight_line():
    """A vendor's worked example (capecrystalbrands.com): 10 g of 240 bloom are 12 g of 200."""
    given = {"recipe_mass": (10, "gram"), "recipe_bloom": (240, "bloom"), "bloom": (200, "bloom")}
    assert number("bloom", given, "mass", rule="linear") == pytest.approx(12)


def test_the_rule_of_bloom_is_stated():
    answer = ask(
        "bloom", {"recipe_mass": (10, "gram"), "recipe_bloom": (200, "bloom"), "bloom": (160, "bloom")}
    )
    assert answer.answer[0].value == pytest.approx(10 * (200 / 160) ** 0.5)
    assert any("square root" in text for text in answer.assumptions)


def test_leaves_are_whole_and_a_leaf_has_no_weight_of_its_own():
    given = {"leaf": (1.7, "gram"), "gelatine": (12, "gram")}
    assert number("gelatine_leaves", given, "leaves") == 8
    assert ask("gelatine_leaves", {"gelatine": (12, "gram")}, "leaves").status == "asks"


def test_stock_gel():
    """A 2 % stock of 900 g is 18 g of gum and 882 g of water (mass balance)."""
    given = {"strength": (2, "percent_ww"), "stock": (900, "gram")}
    assert number("stock_gel", given, "powder_mass") == pytest.approx(18)
    assert number("stock_gel", given, "water") == pytest.approx(882)


def test_a_foam_base_has_a_foamer_and_a_stabiliser():
    """Every powder is one or the other, so that two of them cannot be mistaken for each other."""
    choices = kernel().model("bar.foam_base").choices
    foamers, stabilisers = set(choices["foamer"].rows), set(choices["stabiliser"].rows)
    assert not foamers & stabilisers
    assert foamers | stabilisers == set(kernel().model("bar.hydrocolloid").choices["powder"].rows)
    assert "gelatine" in foamers and "xanthan" in stabilisers
    answer = ask(
        "foam_base",
        {"liquid": (0.85, "liter"), "foamer_dose": (4, "percent_wv"), "stabiliser_dose": (0.2, "percent_wv")},
        foamer="egg-white-powder",
        stabiliser="xanthan",
    )
    assert answer.answer[0].value == pytest.approx(34)
    assert any("egg" in text.lower() and "allergen" in text for text in answer.cautions)


def test_a_foam_base_with_a_slip_of_the_point_is_declined():
    given = {
        "liquid": (2.2, "liter"),
        "foamer_dose": (11.8, "percent_wv"),
        "stabiliser_dose": (0.2, "percent_wv"),
    }
    answer = ask("foam_base", given, foamer="agar", stabiliser="xanthan")
    assert answer.status == "declined"
    assert "2 %" in answer.reason
