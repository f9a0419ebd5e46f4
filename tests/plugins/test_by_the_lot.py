"""Wholes to buy, fill or open, and what is left: worked by hand, and against the physics of strength and gas."""

from __future__ import annotations

import pytest
from stillroom_bar.physics import co2, ethanol

from .directions import ask, number

ML, L, N, G, P, ABV = "milliliter", "liter", "count", "gram", "percent", "abv"


def test_bottles_after_proofing_down_keep_the_ethanol() -> None:
    """24 l at 58.2 % hold 13.968 l of ethanol: at 46 % that is 30.365 l, 60 half litres.

    The water by mass, with the densities of OIML R 22, whose table has 998.2012 kg/m3 for water.
    """
    given = {"spirit": (24, L), "abv_from": (58.2, ABV), "abv_to": (46, ABV), "bottle": (0.5, L)}
    answer = ask("proof_down_bottled", given, "bottles")
    assert answer.answer[0].value == 60
    final = 24 * 58.2 / 46
    mass = final * ethanol.density_by_abv(0.46, 20) - 24 * ethanol.density_by_abv(0.582, 20)
    assert number("proof_down_bottled", given, "water", L) == pytest.approx(mass / 0.9982012, rel=1e-6)


def test_gas_in_a_keg_at_a_pressure_is_henrys() -> None:
    """Volumes at 4 °C by Weiss 1974 (from memory, checked elsewhere), times the absolute pressure, times 1.977 g/l
    (a handbook's density of the gas at 0 °C and 1 atm, from memory)."""
    given = {"liquid": (50, L), "temperature": (4, "degree_Celsius"), "pressure": (2.5, "bar")}
    volumes = co2.volumes_per_atm(4) * (2.5 + 1.01325) / 1.01325
    assert number("keg_at_pressure", given, "gas", G) == pytest.approx(50 * 1.977 * volumes, rel=1e-3)


def test_fruit_for_juice_that_is_strained() -> None:
    """3.5 l at 90 % out of 70 ml a fruit: 55.6, so 56."""
    given = {"juice": (3.5, L), "lost": (10, P), "each": (70, ML)}
    assert ask("fruit_for_strained_juice", given, "fruit", kind="orange").answer[0].value == 56


def test_fruit_for_drinks() -> None:
    """40 x 30 ml is 1.2 l, at 65 ml a fruit 18.5: 19 to buy; and 36 x 40 ml pours 48 of 30 ml."""
    buy = {"serves": (40, N), "pour": (30, ML), "each": (65, ML)}
    assert ask("fruit_for_service", buy, "fruit", kind="orange").answer[0].value == 19
    have = {"fruit": (36, N), "pour": (30, ML), "each": (40, ML)}
    assert ask("fruit_for_service", have, "serves", kind="lemon").answer[0].value == 48


def test_the_last_bottle_and_what_is_left() -> None:
    opened = {"serves": (48, N), "each": (35, ML), "bottle": (70, "centiliter")}
    assert number("last_bottle", opened, "stays", ML) == pytest.approx(3 * 700 - 48 * 35)
    stock = {"bottles": (12, N), "bottle": (70, "centiliter"), "serves": (212, N), "each": (35, ML)}
    assert number("left_after_service", stock, "left", L) == pytest.approx(0.98)
    over = ask("left_after_service", {"start": (1, L), "serves": (40, N), "each": (50, ML)}, "left")
    assert over.status == "declined"


def test_milk_by_the_carton_and_for_serves() -> None:
    cartons = ask("milk_cartons", {"drink": (13, L), "carton": (1, L)}, "cartons")
    assert cartons.answer[0].value == 4 and any("allergen" in c for c in cartons.cautions)
    served = {"serves": (80, N), "serve": (90, ML), "loss": (10, P), "ratio": (4, "dimensionless")}
    assert number("milk_for_service", served, "milk", L) == pytest.approx(7.2 / 0.9 / 5)


def test_nonsense_is_not_answered() -> None:
    thin = ask("syrup_poured_water", {"volume": (2250, ML), "water": (2250, ML)}, "sugar")
    assert thin.status != "answered"
    drink = {"volume": (50, ML), "strength": (40, P), "units": (5, N)}
    assert ask("alcohol_units", drink, "unit_mass", country="uk").status != "answered"
    assert ask("peel_by_fruit", {"peel": (14, G), "fruit": (240, N)}, "each", kind="lemon").status != "answered"


def test_fruit_is_said_to_vary() -> None:
    answer = ask("juice_by_fruit", {"juice": (1, L)}, "fruit", kind="lime")
    assert any("varies" in c for c in answer.cautions)
