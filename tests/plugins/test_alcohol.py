"""Units of alcohol: every direction, published equivalents, defaults and refusals."""

from __future__ import annotations

import pytest
from stillroom import Amount, Line

from .directions import ask, every_direction, kernel, number

ML, N = "milliliter", "count"


def test_every_direction() -> None:
    for country in ("us", "uk", "au"):
        every_direction(
            "alcohol_units", {"volume": (700, ML), "strength": (40, "abv")}, skip=("unit_mass",), country=country
        )
    given = {"volume": (3, "liter"), "strength": (20, "abv"), "serves": (25, N)}
    every_direction("units_per_serve", given, skip=("unit_mass",), country="uk")


@pytest.mark.parametrize(
    ("country", "volume", "unit", "abv", "units", "off"),
    [
        # NHS, "Alcohol units": a 25 ml single of 40 % is 1 unit; 175 ml of 12 % is 2.1; a pint of 3.6 % is 2
        # (from memory of that page)
        ("uk", 25, ML, 40, 1.0, 0.001),
        ("uk", 175, ML, 12, 2.1, 0.001),
        ("uk", 1, "imperial_pint", 3.6, 2.0, 0.03),
        # NIAAA, "What is a standard drink?": 12 fl oz of 5 % beer, 5 fl oz of 12 % wine and 1.5 fl oz of
        # 80 proof spirit each hold about one (from memory of that page)
        ("us", 12, "fluid_ounce", 5, 1.0, 0.01),
        ("us", 5, "fluid_ounce", 12, 1.0, 0.01),
        ("us", 1.5, "fluid_ounce", 40, 1.0, 0.01),
        # Australian Government, "Standard drinks guide": 375 ml of 4.8 % is 1.4; 100 ml of 13 % wine is 1.0
        # (from memory of that page)
        ("au", 375, ML, 4.8, 1.4, 0.02),
        ("au", 100, ML, 13, 1.0, 0.03),
    ],
)
def test_published_equivalents(country: str, volume: float, unit: str, abv: float, units: float, off: float) -> None:
    given = {"volume": (volume, unit), "strength": (abv, "abv")}
    assert number("alcohol_units", given, "units", country=country) == pytest.approx(units, rel=off)


def test_a_uk_unit_is_ten_millilitres_exactly() -> None:
    given = {"units": (1, N), "strength": (100, "abv")}
    assert number("alcohol_units", given, "volume", country="uk") == pytest.approx(10, rel=1e-12)


def test_the_country_is_stated_when_none_is_named() -> None:
    answer = ask("alcohol_units", {"volume": (60, ML), "strength": (40, "abv")}, "units")
    assert any("US standard drinks" in text for text in answer.assumptions)


def test_a_size_of_ones_own_wins() -> None:
    given = {"volume": (45, ML), "strength": (40, "abv"), "unit_mass": (12, "gram")}
    assert number("alcohol_units", given, "units") == pytest.approx(45 * 0.4 * 0.78924 / 12)


def test_every_count_says_that_it_tells_nothing_about_driving() -> None:
    for calculator, more in (("alcohol_units", {}), ("units_per_serve", {"serves": (2, N)})):
        answer = ask(calculator, {"volume": (60, ML), "strength": (40, "abv"), **more})
        assert any("drive" in text for text in answer.cautions)


def test_no_strength_above_a_hundred() -> None:
    answer = ask("alcohol_units", {"volume": (50, ML), "strength": (120, "abv")}, "units")
    assert answer.status == "declined" and "100 %" in answer.reason


def test_the_units_of_a_spec() -> None:
    """40 ml at 20 % and 90 ml at 11 % hold 17.9 ml of ethanol, so 1.79 units of 10 ml."""
    k = kernel()
    spec = tuple(
        Line(thing, Amount(v, ML, v), {"abv": Amount(a, "abv", a / 100)})
        for thing, v, a in (("aperitif", 40, 20), ("sparkling wine", 90, 11))
    )
    answer = k.answer(k.request("bar.units_of_spec", {}, ["units"], spec=spec, choices={"country": "uk"}))
    assert answer.answer[0].value == pytest.approx(1.79)
