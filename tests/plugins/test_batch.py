"""Batches: a spec scaled every way, dilution and loss, the glass, pours and bottles."""

from __future__ import annotations

import pytest
from stillroom import Amount, Answer, Line

from .directions import every_direction, kernel, number

ML, L, N, P = "milliliter", "liter", "count", "percent"


def line(
    thing: str, value: float | None, unit: str = ML, substance: str | None = None, **more: tuple[float, str]
) -> Line:
    units = kernel().units

    def amount(v: float, u: str) -> Amount:
        return Amount(v, u, units[u].to_base(v))

    return Line(
        thing, None if value is None else amount(value, unit), {n: amount(*a) for n, a in more.items()}, substance
    )


SOUR = (
    line("gin", 50, substance="gin"),
    line("lemon juice", 25, substance="lemon-juice"),
    line("syrup", 25, substance="simple-syrup"),
)


def scale(calculator: str, given: dict[str, tuple[float, str]], *wanted: str, spec: tuple[Line, ...] = SOUR) -> Answer:
    k = kernel()
    return k.answer(k.request(f"bar.{calculator}", given, wanted, spec=spec))


def values(answer: Answer) -> dict[str, float]:
    assert answer.status == "answered", answer.reason
    return {v.name: v.value for v in answer.answer}


def test_lines_in_the_specs_order_then_the_total() -> None:
    answer = scale("batch", {"serves": (40, N)})
    assert [(v.name, v.value) for v in answer.answer] == [
        ("gin", 2000),
        ("lemon juice", 1000),
        ("syrup", 1000),
        ("total", 4000),
    ]


def test_a_line_that_is_named_comes_first() -> None:
    answer = scale("batch", {"serves": (40, N)}, "syrup")
    assert [v.name for v in answer.answer] == ["syrup", "gin", "lemon juice", "total"]


def test_from_a_spec_for_several_to_others() -> None:
    assert values(scale("batch", {"feeds": (12, N), "serves": (30, N)}))["gin"] == pytest.approx(125)
    assert values(scale("batch", {"feeds": (24, N), "serves": (1, N)}))["gin"] == pytest.approx(50 / 24)


def test_to_a_volume_and_by_a_factor() -> None:
    assert values(scale("batch", {"total": (3, L)}))["gin"] == pytest.approx(1500)
    assert values(scale("batch", {"factor": (0.4, "dimensionless")}))["total"] == pytest.approx(40)
    assert values(scale("batch", {"total": (3.05, L)}, "serves"))["serves"] == 30


def test_amounts_keep_their_own_units() -> None:
    spec = (
        line("mezcal", 1, "fluid_ounce"),
        line("grenadine", 1, "barspoon"),
        line("egg white", 1, N),
        line("sugar", 10, "gram"),
    )
    answer = scale("batch", {"serves": (60, N)}, spec=spec)
    assert [(v.value, v.unit) for v in answer.answer[:4]] == [
        (pytest.approx(60), "fluid_ounce"),
        (pytest.approx(60), "barspoon"),
        (60, "count"),
        (pytest.approx(600), "gram"),
    ]
    assert sum("not counted" in text for text in answer.assumptions) == 2


def test_what_is_short_sets_the_batch() -> None:
    spec = (line("rum", 60, supply=(1.8, L)), line("lime juice", 30, supply=(750, ML)))
    answer = scale("batch", {}, "serves", spec=spec)
    assert values(answer) == {"serves": 25} and "lime juice runs out first" in answer.assumptions
    assert values(scale("batch", {}, spec=(spec[0], line("lime juice", 30))))["lime juice"] == pytest.approx(900)


def test_dilution_is_water_per_volume_before_it() -> None:
    found = scale("batch_with_dilution", {"serves": (40, N), "dilution": (20, P)}, "water", "total")
    assert values(found) == {"water": pytest.approx(800), "total": pytest.approx(4800)}
    into = scale("batch_with_dilution", {"total": (6, L), "dilution": (20, P)})
    assert values(into)["gin"] == pytest.approx(2500)


def test_a_loss_divides() -> None:
    assert values(scale("batch_with_loss", {"serves": (96, N), "lost": (4, P)}))["gin"] == pytest.approx(5000)
    assert scale("batch_with_loss", {"serves": (96, N), "lost": (100, P)}).status == "declined"


def test_bottles_of_a_batch() -> None:
    assert values(scale("batch_into_bottles", {"bottles": (24, N), "bottle": (100, ML)}))["gin"] == pytest.approx(1200)


def test_the_glass() -> None:
    """By hand: 20 ml of ethanol in 100 ml; the syrup's density and sugar are ICUMSA's, 1.2296 g/ml at 50 %."""
    found = values(scale("drink", {"dilution": (30, P)}, "strength", "sugar", "acid", "total"))
    assert found["total"] == pytest.approx(130) and found["strength"] == pytest.approx(100 * 20 / 130)
    assert found["sugar"] == pytest.approx(100 * (25 * 1.2296 * 0.5 + 25 * 1.0313 * 0.0252) / 130, rel=1e-3)
    assert found["acid"] == pytest.approx(100 * 1.5 / 130)


def test_an_unknown_strength_is_found_from_the_glass() -> None:
    spec = (line("hooch", 50), line("vermouth", 25, abv=(16, "abv")))
    answer = scale("drink", {"strength": (30, "abv")}, spec=spec)
    assert values(answer) == {"abv of hooch": pytest.approx(100 * (0.3 * 75 - 0.16 * 25) / 50)}


def test_a_splash_is_asked_for_and_so_is_the_size() -> None:
    spec = (*SOUR, line("soda", None))
    assert scale("batch", {"serves": (30, N)}, "gin", spec=spec).missing == (("amount of soda",),)
    assert ("serves",) in scale("batch", {}).missing


def test_fewer_than_nobody_is_declined() -> None:
    assert scale("batch", {"serves": (-5, N)}).status == "declined"


def test_allergens_and_warnings_of_the_lines() -> None:
    spec = (line("egg white", 30, substance="egg-white"), line("orgeat", 20, substance="orgeat"))
    told = " ".join(scale("batch", {"serves": (10, N)}, spec=spec).cautions)
    assert "Egg is an allergen" in told and "Tree nuts" in told and "salmonella" in told
    assert not scale("batch", {"serves": (10, N)}, spec=(line("syrup", 20, substance="simple-syrup"),)).cautions


def test_every_direction_without_a_spec() -> None:
    every_direction("pours", {"supply": (20, L), "each": (125, ML)})
    every_direction("pours_with_loss", {"supply": (20, L), "each": (120, ML), "lost": (4, P)})
    every_direction("portions_by_weight", {"supply": (900, "gram"), "each": (12, "gram")})
    every_direction("bottles_to_buy", {"serves": (56, N), "each": (50, ML), "bottle": (700, ML)})
    every_direction("cases_to_buy", {"serves": (48, N), "each": (1, N), "in_case": (12, N)})
    every_direction("scale_volume", {"recipe": (300, ML), "recipe_serves": (12, N), "needed_serves": (30, N)})
    every_direction("scale_weight", {"recipe": (200, "gram"), "recipe_serves": (8, N), "needed_serves": (20, N)})
    every_direction("batches", {"made": (3, N), "gave": (60, N), "serves": (140, N)})


def test_serves_round_down_and_bottles_up() -> None:
    assert number("pours", {"supply": (19.9, L), "each": (125, ML)}, "serves") == 159
    assert number("pours_with_loss", {"supply": (20, L), "lost": (4, P), "each": (125, ML)}, "serves") == 153
    assert number("pours", {"supply": (19, L), "each": (125, ML)}, "serves") == 152
    assert (
        number(
            "bottles_to_buy", {"serves": (85, N), "each": (4.5, "centiliter"), "bottle": (70, "centiliter")}, "bottles"
        )
        == 6
    )
    assert number("batches", {"made": (3, N), "gave": (60, N), "serves": (145, N)}, "batches") == 8


def test_acid_in_powder_counts_by_its_mass() -> None:
    spec = (
        line("water", 100, substance="water"),
        line("lemon juice", 25, substance="lemon-juice"),
        line("citric acid", 5, "gram", "citric-acid"),
        line("vinegar", 20, substance="vinegar"),
    )
    found = values(scale("drink", {}, "acid_mass", "acid", spec=spec))
    assert found == {"acid_mass": pytest.approx(1.5 + 5 + 1), "acid": pytest.approx(100 * 7.5 / 145)}
    blend = scale("juice_blend", {}, "acid", "acidity", spec=spec)
    assert values(blend) == {"acid": pytest.approx(7.5), "acidity": pytest.approx(100 * 7.5 / 145)}
    assert "citric acid: powder 100 %" in blend.assumptions


def test_the_sugar_of_a_liquid_without_a_density_is_counted() -> None:
    """20 ml of a liqueur with 33.27 % sugar (the table's, USDA) weighed as water: 6.65 g, where it was none."""
    spec = (line("gin", 40, substance="gin"), line("orange liqueur", 20, substance="liqueur"))
    answer = scale("drink", {}, "sugar_mass", spec=spec)
    assert values(answer)["sugar_mass"] == pytest.approx(20 * 0.3327)
    assert "orange liqueur: weighed as water, its density is not known" in answer.assumptions


def test_the_weight_of_a_sweet_thing_that_nobody_knows_is_asked_for() -> None:
    none = {"abv": (0.0, "abv"), "acid": (0.0, "percent_wv")}
    spec = (line("gin", 40, substance="gin"), line("house shrub", 20, sugar=(30, "percent_ww"), **none))
    answer = scale("drink", {}, "sugar_mass", spec=spec)
    assert answer.status == "asks" and ("weight of house shrub",) in answer.missing
