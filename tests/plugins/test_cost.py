"""Cost: every direction, worked sums, a spec's cost, losses and refusals."""

from __future__ import annotations

import pytest
from stillroom import Amount, Line

from .directions import ask, every_direction, kernel, number

ML, C, P, N = "milliliter", "currency", "percent", "count"


def test_every_direction() -> None:
    every_direction("cost_of_pour", {"bottle": (700, ML), "bottle_price": (24.5, C), "pour": (50, ML)})
    every_direction("pour_cost", {"cost": (2.35, C), "price": (11.75, C)}, skip=("margin",))
    every_direction("pour_cost", {"cost": (2.35, C), "margin": (80, P)}, skip=("pour_cost",))
    every_direction("tax", {"price": (7.5, C), "tax": (19, P)})
    every_direction("pour_cost_with_tax", {"menu_price": (13.2, C), "tax": (20, P), "cost": (2.42, C)})
    every_direction(
        "bottle_for_target",
        {"price": (9, C), "pour_cost": (18, P), "pour": (40, ML), "bottle": (700, ML)},
        skip=("margin",),
    )
    every_direction("cost_of_garnish", {"case_price": (30, C), "pieces": (100, N), "per_piece": (8, N)})
    every_direction("batch_cost", {"serves": (36, N), "cost": (1.5, C)})
    every_direction("cost_after_loss", {"cost": (2.4, C), "lost": (4, P)})
    every_direction("takings", {"serves": (40, N), "price": (11, C), "cost": (2.5, C)})
    every_direction("price_per_litre", {"price": (21, C), "volume": (700, ML)})
    every_direction("exchange", {"price": (15, C), "one": (1, C), "worth": (1.18, C)})


def test_worked_sums() -> None:
    """By hand, from the definitions of pour cost and of a tax on top of a net price (common practice, no source)."""
    assert number("cost_of_pour", {"bottle": (1, "liter"), "bottle_price": (26, C), "pour": (35, ML)}, "cost") == (
        pytest.approx(0.91)
    )
    assert number("pour_cost", {"cost": (1.65, C), "pour_cost": (15, P)}, "price") == pytest.approx(11)
    given = {"menu_price": (14.4, C), "tax": (20, P), "pour_cost": (19, P)}
    assert number("pour_cost_with_tax", given, "cost") == pytest.approx(2.28)
    assert number("cost_after_loss", {"cost": (2.4, C), "lost": (4, P)}, "real_cost") == pytest.approx(2.5)


def test_a_price_is_said_to_be_before_tax() -> None:
    assert any("before tax" in text for text in ask("pour_cost", {"cost": (2, C), "price": (10, C)}).assumptions)


def test_no_target_is_made_up() -> None:
    answer = ask("pour_cost", {"cost": (3.1, C)}, "price")
    assert answer.status == "asks" and ("pour_cost",) in answer.missing


def test_a_loss_is_pointed_out_and_an_impossible_one_refused() -> None:
    assert "loss" in " ".join(ask("pour_cost", {"cost": (12, C), "price": (10, C)}, "profit").cautions)
    assert ask("pour_cost", {"cost": (2, C), "pour_cost": (-5, P)}, "price").status == "declined"
    assert ask("cost_after_loss", {"cost": (2, C), "lost": (100, P)}, "real_cost").status == "declined"


def line(thing: str, amount: tuple[float, str], **attributes: tuple[float, str]) -> Line:
    units = kernel().units
    made = {n: Amount(v, u, units[u].to_base(v)) for n, (v, u) in {"amount": amount, **attributes}.items()}
    return Line(thing, made.pop("amount"), made)


def test_the_lines_of_a_spec_add_up_to_its_cost() -> None:
    k = kernel()
    spec = (
        line("gin", (50, ML), price=(21, C), size=(700, ML)),
        line("sugar", (10, "gram"), price=(2, C), size=(1, "kilogram")),
    )
    answer = k.answer(k.request("bar.cost_of_spec", {"price": (9, C)}, ["cost", "pour_cost"], spec=spec))
    assert [v.value for v in answer.answer] == pytest.approx([1.5 + 0.02, 100 * 1.52 / 9])
    short = k.answer(k.request("bar.cost_of_spec", {}, ["cost"], spec=(spec[0], line("sugar", (10, "gram")))))
    assert short.status == "asks" and short.missing == (("price of sugar", "size of sugar"),)
