"""Whole conversations of a shift: corrections, other units, so many of them, back again, swearing, thanks.

The messages are our own.  Each number is worked out beside its message from what was said; conventions of the trade
(a charger for half a litre, four of drink to one of milk, equal weights of peel and sugar, lime at 6, orange and
pineapple at 0.8 and grapefruit at 2 g of acid in 100 ml, a lime of 30 ml, a dose being what was said) are
common practice, no source.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from turns import ETHANOL, FLOZ, IMPERIAL_PINT, OZ, PINT, SALINE_20, Asks, Declined, Noted, Told, Turn, holds

STIRRED = -1.21 * 0.3**2 + 1.246 * 0.3 + 0.145  # dilution of 30 % ABV by the fit (common practice, no source)
SHAKEN = -1.567 * 0.3**2 + 1.742 * 0.3 + 0.203
WATER_UP = ("abv", "strength", "volume", "ethanol")

SHIFTS: dict[str, list[Turn]] = {
    "saline": [
        Told("need 500g of 10% saline, how much salt", 50, "gram"),
        Told("no wait 20", 100, "gram"),
        Told("and water", 400, "gram"),
        Told("in oz", 400 / OZ, "ounce"),
        Told("for 3 of them", 1200 / OZ, "ounce"),
        Told("fuck it make it 2 kilos", 1600, "gram"),
        # a drop is the twentieth of a millilitre (USP <1101>); 0.05 g is a fifth of 0.25 g
        Told("how many drops of that for 0.05 g salt", 0.05 / 0.2 / SALINE_20 * 20, "drop", 0.01),
        Noted("our dropper does 25 drops a ml"),
        Noted("ta"),
        Told("only got 50 g of salt", 50 / 0.2 / SALINE_20 * 25, "drop", 0.01),
    ],
    "milk punch": [
        Told("3 litres of punch to clarify, how much milk", 750, "milliliter"),
        Told("hmm 5 to 1", 600, "milliliter"),
        Told("how big a tub do I need", 3600, "milliliter"),
        Told("actually it's 4 litres of punch", 4800, "milliliter"),
        Told("in pints", 4800 / PINT, "pint"),
        Told("imperial pints", 4800 / IMPERIAL_PINT, "imperial_pint"),
        Told("and half that", 2400 / IMPERIAL_PINT, "imperial_pint"),
        Told("shit, I've only got 600 ml milk. how much punch can I do", 3000, "milliliter"),
        Noted("thanks mate"),
        Told("how long", 1, "hour"),  # common practice, no source
    ],
    "syrup": [
        Told("simple syrup 2 kg, how much sugar", 1000, "gram"),
        Told("make it rich", 2000 * 2 / 3, "gram"),
        Told("how much water", 2000 / 3, "gram"),
        Told("double it, so how much sugar then", 4000 * 2 / 3, "gram"),
        Told("no, 1.5 kg of it", 1000, "gram"),
        Told("what brix is that", 200 / 3, "percent"),
        Told("suppose it's 1:1", 50, "percent"),
        Noted("cheers"),
    ],
    "siphon": [
        Told("how much does the quart siphon hold", 1, "liter"),
        Told("how many chargers", 2, "count"),
        Told("3 of them?", 6, "count"),
        Declined("can i put 3 chargers in one", "above the rule"),
    ],
    "siphon and foam": [
        Asks("chargers for my siphon?", ("pint", "quart")),
        Told("size: pint", 1, "count"),
        Told("max. liquid, ml = ?", 500, "milliliter"),
        Told("gelatine @ 8 g/l for that volume", 4, "gram"),
        Told("swap to agar", 4, "gram"),
        Told("and for 750", 6, "gram"),
    ],
    "a siphon by its size": [
        Told("how many chargers for a 1 l siphon", 2, "count"),
        Told("max fill?", 1, "liter"),
        Declined("can i put 4 in it", "4 chargers"),
    ],
    "peel sugar": [
        Told("400 g lemon peel, sugar for oleo", 400, "gram"),
        Told("1.5 to 1 sugar", 600, "gram"),
        Told("all in?", 1000, "gram"),
        Told("only 300 g of peel", 750, "gram"),
        Told("how long", 48, "hour"),
    ],
    "acid": [
        Told("1 litre of orange juice to lime acidity, how much acid", (6 - 0.8) * 10, "gram"),
        Told("just citric", 52, "gram"),
        Told("make it 2.5 litres", 130, "gram"),
        Told("no wait, grapefruit", (6 - 2) * 25, "gram"),
        Told("target 5 instead", (5 - 2) * 25, "gram"),
        Told("in oz", 75 / OZ, "ounce"),
        Told("ugh back to grams", 75, "gram"),
        Told("And orange, if you please, instead of grapefruit?", (5 - 0.8) * 25, "gram"),
    ],
    # what there is in the end, by the ethanol alone: no contraction counts in it
    "strength": [
        Told("700ml of 60% rum down to 40, final volume", 700 * 60 / 40, "milliliter"),
        Told("45 actually", 700 * 60 / 45, "milliliter"),
        Told("and for a litre", 1000 * 60 / 45, "milliliter"),
        Told("what if the rum is 63%", 1000 * 63 / 45, "milliliter"),
        Told("what do I end up with in litres", 1.4, "liter"),
        Told("in fl oz", 1400 / FLOZ, "fluid_ounce"),
        Noted("thx"),
    ],
    "dilution": [
        Told("90 ml at 30 abv stirred, water", 90 * STIRRED, "milliliter"),
        Told("shaken?", 90 * SHAKEN, "milliliter"),
        Told("what's the final abv", 30 / (1 + SHAKEN), "percent"),
        Told("for 12 of them", 30 / (1 + SHAKEN), "percent"),
        Told("what if I stir it instead?", 30 / (1 + STIRRED), "percent"),
        Told("and how much is that in all", 12 * 90 * (1 + STIRRED), "milliliter"),
    ],
    "batch": [
        Told("negroni x 20: 30 gin 30 campari 30 vermouth", 600, "milliliter"),
        Told("double it", 1200, "milliliter"),
        Told("make it 45 gin", 1800, "milliliter"),
        Told("how much vermouth", 1200, "milliliter"),
        Told("total in litres", 40 * 105 / 1000, "liter"),
        Told("no wait 60 people", 60 * 105 / 1000, "liter"),
        Told("per drink", 105, "milliliter"),
        Noted("lovely"),
    ],
    "infusion": [
        Told("20 g/l of coffee in 3 litres of rum, how many grams", 60, "gram"),
        Told("make that 25", 75, "gram"),
        Told("in oz", 75 / OZ, "ounce"),
        Told("for half of that", 37.5 / OZ, "ounce"),
        Told("back to 2 litres", 50 / OZ, "ounce"),
        Told("how strong is it, g/l I mean", 25, "gram / liter"),
        Told("only got 30 g of coffee, how much rum", 30 / 25, "liter"),
        Told("no sorry 40 g", 40 / 25, "liter"),
    ],
    "fruit": [
        Told("how many limes for 500 ml juice", 17, "count"),  # 500 / 30, rounded up
        Told("ours give 27 ml", 19, "count"),  # 500 / 27
        Told("for 2 litres", 75, "count"),  # 2000 / 27
        Noted("round up", "75 is a whole number already"),
        Told("8% saline 700 g, salt?", 56, "gram"),
    ],
    "cost": [
        Told("a 1 l bottle of gin costs 18.50 what does a 5 cl pour cost", 18.5 / 20, "currency"),
        Told("4 cl", 0.74, "currency"),
        Told("price at 18%", 0.74 / 0.18, "currency"),
        Told("with 20% tax", 0.74 / 0.18 * 1.2, "currency"),
    ],
    "what ingredients cost": [
        Told("ingredients 2.64, price 12.00 before tax. Pour cost?", 22, "percent"),
        Told("and if I wanted 20 %, which price?", 13.2, "currency"),
        Told("suppose the ingredients go up to 2.90", 14.5, "currency"),
    ],
    "units of alcohol": [
        Told("uk units in a 175 ml glass of 13% wine", 175 * 0.13 / 10, "count"),
        Asks("and a bottle", WATER_UP),
        Asks("us ones", WATER_UP),
        Told("75 cl", 750 * 0.13 * ETHANOL / 14, "count"),
        Told("uk ones", 750 * 0.13 / 10, "count"),
        Told("two of them", 1500 * 0.13 / 10, "count"),
        Told("12%", 1500 * 0.12 / 10, "count"),
        Told("grams of alcohol?", 1500 * 0.12 * ETHANOL, "gram"),
        Declined("can I drive after that", "do not drive"),
    ],
    "keeping": [
        Told("how long does lime juice keep", 1, "day"),
        Told("and orange?", 2, "day"),
        Told("we use 2 litres a day and it keeps 3 days, how much to make", 6, "liter"),
        Told("4 days", 8, "liter"),
        Told("at 3 a day", 12, "liter"),
    ],
    "measures of our own": [
        Told("2.5 fl oz in ml, and hurry up", 2.5 * FLOZ, "milliliter"),
        Noted("Our jiggers are 30 ml to the ounce. Use that from now on."),
        Told("2.5 fl oz again then", 75, "milliliter"),
        Told("ugh. back to US ounces. 2.5 fl oz?", 2.5 * FLOZ, "milliliter"),
        Noted("Good day. Before I ask, may I say that our dropper gives 25 drops a ml."),
        Told("how many drops in 1.5 ml", 37.5, "drop"),
        Told("10 % w/v citric acid, 50 ml. acid?", 5, "gram"),
        Told("ok drops again, 2 ml", 50, "drop"),
        Told("We pour imperial ounces in this place. How many of those is 100 ml?", 100 / 28.4130625,
             "imperial_fluid_ounce"),
    ],
    "a dropper that was counted": [
        Told("how many drops is 2.5 ml of tincture", 50, "drop"),
        Told("counted it, mine does 36 drops a ml", 90, "drop"),
        Told("and for 4 ml?", 144, "drop"),
        Told("Our dropper bottle is another one: thirty drops make one millilitre. How many then?", 120, "drop"),
    ],
    "ounces taken back": [
        Told("we measure with the thirty mil bar ounce here so whats two and a half ounces in mil", 75, "milliliter"),
        Told("and four", 120, "milliliter"),
        Told("go back to us ounces and give me the four again", 4 * FLOZ, "milliliter"),
    ],
    "what there is none of": [
        Told("acid for 400 ml of pineapple juice to lime acidity with citric", (6 - 0.8) * 4, "gram"),
        Told("we have grapefruit, no pineapple. So?", (6 - 2) * 4, "gram"),
        Told("milk for 1.5 l of punch please", 375, "milliliter"),
        Told("how many 90 ml drinks in 2.8 litres", 31, "count"),  # 2800 / 90, rounded down
    ],
    "a setting on its own line": [
        Told("Ounce: imperial\n8 fl oz in ml: ?", 8 * 28.4130625, "milliliter"),
        Told("Ounce: 30 ml bar ounce\n4.5 oz in ml: ?", 135, "milliliter"),
    ],
}
"""The sizes of an imperial ounce and pint: UK Weights and Measures Act 1985.  Keeping times are the table's."""


@pytest.mark.parametrize("name", SHIFTS)
def test_a_shift(talk: Conversation, name: str) -> None:
    holds(talk, SHIFTS[name])


def test_a_ratio_of_two_things_is_none_of_two_others(talk: Conversation) -> None:
    """Sugar to peel says nothing of sugar to water: asked of what comes of it, no water is made up."""
    holds(talk, [
        Told("400 g lemon peel, sugar for oleo at 1.5 to 1", 600, "gram"),
        Asks("how much syrup do I get from that", ("simple", "rich", "brix")),
    ])


def test_an_amount_gives_way_to_an_amount(talk: Conversation) -> None:
    """Less salt makes less of the same saline, and no weaker one; what gave way is what is told then."""
    holds(talk, [
        Told("500 g of 20 % saline, how much salt", 100, "gram"),
        Told("only got 50 g of salt", 250, "gram"),
        Told("and the water", 200, "gram"),
    ])
