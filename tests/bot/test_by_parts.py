"""Drinks by their parts, vessels filled from a supply, strengths after ``at``, a measure at the end: one table each.

The sentences are our own; the sums are worked beside each table, volumes add, serves are whole ones.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from turns import Asks, Declined, Told, Turn, holds

PARTS: list[Turn] = [
    Told("4 parts gin 1 part vermouth, 2 litres in all: how much gin?", 1.6, "liter"),
    Told("3:1 rum to sherry, I need 800 ml. how much rum", 600, "milliliter"),
    Told("whisky, vermouth and amaro 2:1:1, need 1.2 litres", 600, "milliliter"),
    Told("a litre of tequila and vermouth at 4 to 1", 0.8, "liter"),
    Told("2:1:1 vodka lime syrup for 30 drinks of 120 ml", 1800, "milliliter"),
    Told("1 part brandy, 1 part port, 1 part bitter; 25 serves of 60 ml", 500, "milliliter"),
    Told("45 rum 15 lime 20 drinks of 60 ml", 900, "milliliter"),
]
"""2 x 4/5; 800 x 3/4; 1200 / 2; 4/5 of a litre; 30 x 120 / 2; 25 x 60 / 3; 20 x 45."""
NO_DRINK: list[Turn] = [
    Told("sugar to water 2:1, need 900 g: how much sugar?", 600, "gram"),
    Told("milk punch 1:4 milk to drink, 2 litres of drink, how much milk", 500, "milliliter"),
    Told("by weight 1 part strawberries to 4 parts spirit, the fruit weighs 300 g, spirit in grams?", 1200, "gram"),
    Asks("1 part gin, 1 part vermouth for 40 drinks", ("part",)),
    Told("8 l of punch to milk-clarify at 4:1. How much milk?", 2, "liter"),
    Declined("is a second charger in my half litre siphon all right?", "two up to a litre"),
]
"""Ratios of other jobs stay what they are; parts of no size make no drinks."""
FILLED: list[Turn] = [
    Told("how many cans of 200 ml from a 20 l keg", 100, "count"),
    Told("how many 250 ml cans from 10 litres", 40, "count"),
    Told("how many cups of 180 ml out of a 9 litre urn", 50, "count"),
    Told("how many shots in a 1 l bottle 40ml", 25, "count"),
    Told("how many 300 ml cans for 50 people at 120 ml each", 20, "count"),
]
"""20 / 0.2; 10 / 0.25; 9 / 0.18; 1000 / 40; 50 x 120 / 300."""
AT: list[Turn] = [
    Told("uk units in 500 ml at 4", 2, "count"),
    Told("5 cl at 40 how many uk units", 2, "count"),
    Told("uk units in a double, 40 ml of 37.5", 1.5, "count"),
]
"""A UK unit is 10 ml of ethanol (UK Chief Medical Officers; OpenLearn 8.1.1): 20 / 10; 20 / 10; 15 / 10."""
WANTED: list[Turn] = [
    Told("agave 3:1 by weight, want 800 g", 600, "gram"),
]
"""What is wanted is the whole: 3/4 of 800."""
ENDING: list[Turn] = [
    Told("2.4 volumes of co2 at 5 degrees pressure", 0.691, "bar", 0.02),
    Told("2.4 volumes of co2 at 5 °C pressure", 0.691, "bar", 0.02),
    Told("45 ml rum 40% 30 ml lime 15 ml syrup abv", 20, "percent"),
    Told("making 400 g of 5% citric acid solution, grams?", 20, "gram"),
    Told("40 g salt 160 g water strength", 20, "percent"),
    Told("100 ml drink 22% shaken final abv", 14.55, "percent", 0.02),
]
"""A measure at the end is the question.  Water at 5 °C holds 1.426 volumes an atmosphere (Weiss 1974, Marine Chemistry
2, 203, coefficients from memory), so 2.4 take 1.01325 x (2.4 / 1.426 - 1) bar; 45 x 40 / 90; 400 x 5 %; 40 / 200;
shaking adds 0.51 of what goes in at 22 % (-1.567 a^2 + 1.742 a + 0.203: common practice, no source), 22 / 1.51."""
MIXED: list[Turn] = [
    Told("mix 400 ml of 40% with 200 ml of 10%", 30, "percent", 0.01),
    Told("blended 300 ml of 50% and 100 ml of 10%, what strength?", 40, "percent", 0.01),
]
"""What is done with two amounts names no whole: (400 x 40 + 200 x 10) / 600; (300 x 50 + 100 x 10) / 400."""
PIECES: list[Turn] = [
    Asks("lemon peel 250, oleo sugar?", ("peel",)),
    Asks("vanilla 3 beans 700 ml how much per litre", ("vanilla", "mass", "sure")),
]
"""So many pieces are no dose."""


ALONE = [*PARTS, *NO_DRINK, *FILLED, *AT, *WANTED, *ENDING, *MIXED, *PIECES]


@pytest.mark.parametrize("turn", ALONE, ids=lambda t: t.text)
def test_said_alone(talk: Conversation, turn: Turn) -> None:
    holds(talk, [turn])
