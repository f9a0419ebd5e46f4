"""Strengths without their sign, of one state or the other, and what is asked beside them (each sentence is our own).

Sums are worked by hand beside each group.  What water takes a spirit down is reckoned with the densities of OIML R 22:
with d(a) the density at strength a, so much spirit V at a to strength b takes V (a d(b) / b - d(a)) / d(0).
"""

from __future__ import annotations

import pytest
from stillroom_bar.physics.ethanol import density_by_abv
from stillroom_bot.conversation import Conversation
from turns import ETHANOL, gives

Row = tuple[str, float, str]


def down(spirit: float, high: float, low: float) -> float:
    """Water to take so much spirit down."""
    d = [density_by_abv(x / 100) for x in (high, low, 0)]
    return spirit * (high / low * d[1] - d[0]) / d[2]


BROUGHT_DOWN: list[Row] = [
    ("proof down 3 l 55 to 45", down(3000, 55, 45), "milliliter"),
    ("reduce 700 ml 61 down to 43, water?", down(700, 61, 43), "milliliter"),
    ("water to cut 350 ml 64 to 46?", down(350, 64, 46), "milliliter"),
    ("letting down 5 litres 68 to 50: water in litres", down(5, 68, 50), "liter"),
    ("take 1 l 96 down 2 40, h2o?", down(1000, 96, 40), "milliliter"),
    ("proof down 1 l from 58 to 44", down(1000, 58, 44), "milliliter"),
    ("500 ml gin 57% down 2 41, water?", down(500, 57, 41), "milliliter"),
    ("thin 1 kg of syrup from 65 down to 50 brix, how much water?", 300, "gram"),
]
"""By the formula above; sugar stays: 650 g in 1300 g of syrup."""
NOT_BROUGHT_DOWN = [
    "cut 2 l of stock 3 to 1 with water",
    "cut the shift from 60 to 42 minutes for 2 l of punch",
    "reduce 2 l of stock from 90 to 60 minutes",
]
"""A ratio, minutes: no strengths, and no number."""
OF_A_DRINK: list[Row] = [
    ("us standard drinks, 12 oz 5", 12 * 29.5735 * 0.05 * ETHANOL / 14, "count"),
    ("uk units 568ml 4.1", 2.3288, "count"),
    ("a 500 ml bottle at 5.4, how many british units", 2.7, "count"),
    ("australian standard drinks in 150ml wine 13.5", 15 * 1.35 * ETHANOL / 10, "count"),
    ("how much ethanol in 700 ml gin 43, in grams", 301 * ETHANOL, "gram"),
    ("uk units in 250 ml of 12 percent wine", 3, "count"),
]
"""Millilitres of ethanol: a hundredth of 568 x 4.1, of 500 x 5.4, of 250 x 12; their weight over a standard drink."""
THE_OTHER_STATE: list[Row] = [
    ("stirred, 120 ml leaves the mixing glass at 24 %, 90 ml had gone in: what strength was that?", 32, "percent"),
    ("It leaves the shaker at 20 %, 133 ml of it; 95 ml of cocktail had gone in. At what strength?", 28, "percent"),
    ("80 ml went in at 30 %, 120 ml came out. At what strength?", 20, "percent"),
]
"""Ethanol stays: 120 x 24 / 90; 133 x 20 / 95; 80 x 30 / 120."""
NEEDED: list[Row] = [
    ("I need 2 litres of rum at 45 %, the cask is rum of 60 %. How much rum and how much water?", 1500, "milliliter"),
    ("want 700 ml of gin at 40 %, we've gin of 56 %: how much gin?", 500, "milliliter"),
    ("I have 2 litres of rum at 60 % and need it at 45 %. How much water?", down(2000, 60, 45), "milliliter"),
]
"""Ethanol stays: 2000 x 45 / 60; 700 x 40 / 56.  Near by, what is there and not what is needed."""
OF_EACH: list[Row] = [
    ("3 l at 15 % / 20 serves → g alcohol/serve?", 22.5 * ETHANOL, "gram"),
    ("a 2 l batch at 20 % gives 16 serves; grams of alcohol per serve?", 25 * ETHANOL, "gram"),
    ("2 l at 20%, 16 serves -> grams of ethanol in all?", 400 * ETHANOL, "gram"),
    ("a 1 l bottle at 40 % ABV over 20 portions, uk units per portion?", 2, "count"),
]
"""450 ml of ethanol / 20; 400 / 16; 400 ml; 400 / 20 / 10."""
TOLD_APART: list[Row] = [
    ("i have 50 ml of flat base and soda at five volumes, how much soda for three volumes in the glass", 75,
     "milliliter"),
    ("90 ml of flat mix and tonic at 4 volumes: how much tonic for 2.5 volumes in the glass, no loss?", 150,
     "milliliter"),
]
"""Gas stays: 5 s = 3 (s + 50); 4 s = 2.5 (s + 90)."""
IN_AND_OUT: list[Row] = [
    ("100 ml in, 138 out. dilution %?", 38, "percent"),
    ("in 4 oz, out 5.5 oz. dilution?", 37.5, "percent"),
    ("shaker: 80 ml in & 116 ml out, what percent dilution", 45, "percent"),
    ("in 120ml out 168ml dilution %?", 40, "percent"),
    ("110 ml went in, strained 154 ml. dilution %?", 40, "percent"),
]
"""What came out over what went in, less one."""


ALL = [*BROUGHT_DOWN, *OF_A_DRINK, *THE_OTHER_STATE, *NEEDED, *OF_EACH, *TOLD_APART, *IN_AND_OUT]


@pytest.mark.parametrize(("said", "value", "unit"), ALL)
def test_a_strength_is_read_where_it_stands(talk: Conversation, said: str, value: float, unit: str) -> None:
    gives(talk, said, value, unit)


@pytest.mark.parametrize("said", NOT_BROUGHT_DOWN)
def test_two_numbers_that_are_no_strengths_are_not_taken_for_them(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.status in ("asks", "declined"), reply.text


@pytest.mark.parametrize(
    "said",
    [
        "I need 1 l of vodka at 42 %, and have vodka of 60 %. How much vodka and how much water?",
        "need 1 l at 42% out of 60% vodka: ml vodka, ml water",
    ],
)
def test_both_things_that_are_asked_for_are_told(talk: Conversation, said: str) -> None:
    """Ethanol stays: 1 l at 42 % has that of 700 ml at 60 %."""
    reply, _ = talk.answer(said)
    told = {a["name"]: a["value"] for a in reply.to_json()["answer"]}
    assert list(told) == ["spirit", "water"]
    assert told == {"spirit": pytest.approx(700), "water": pytest.approx(down(700, 60, 42), rel=1e-3)}
