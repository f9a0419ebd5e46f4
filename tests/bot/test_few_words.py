"""Questions of few words, as they are typed with one hand: what is left out, and what must not be put in its place.

The sentences are our own.  Sums are worked by hand beside each group; the trade's measures (a barspoon of 5 ml, lime at
6 g of acid in 100 ml, grapefruit at 2) are common practice, no source; ounce and pint are those of NIST Handbook 44.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from turns import FLOZ, PINT, gives

Row = tuple[str, float, str]

ONE_OF_IT: list[Row] = [
    ("gallon in litres", 3.785411784, "liter"),
    ("convert tbsp to ml", 14.787, "milliliter"),
    ("quart to cl please", 2 * PINT / 10, "centiliter"),
    ("how many cl in an ounce", FLOZ / 10, "centiliter"),
    ("how many grams in an ounce", 28.349523125, "gram"),
    ("how many ml in one oz", FLOZ, "milliliter"),
    ("tablespoon of sugar in g", 200 / 16, "gram"),
    ("how many grams is a tablespoon of sugar", 200 / 16, "gram"),
    ("barspoon of salt in grams", 6 / 4.929 * 5, "gram"),
    ("psi in kpa", 6.8948, "kilopascal"),
]
"""A unit without a number is one of it.  A cup of sugar weighs 200 g (USDA) and holds 16 tablespoons; a teaspoon of
salt, 4.929 ml, weighs 6 g."""
A_FRUIT_IN_OUNCES: list[Row] = [
    ("1 1/2 oz lemon in ml", 1.5 * FLOZ, "milliliter"),
    ("3/4 oz grapefruit to ml", 0.75 * FLOZ, "milliliter"),
    ("2 oz of orange in cl", FLOZ / 5, "centiliter"),
    ("3 oz lime in grams", 3 * 28.349523125, "gram"),
    ("40 limes in litres", 1.2, "liter"),
]
"""Asked in millilitres, an ounce of a fruit in the singular is of its juice.  Near by, a weight; and limes by the
piece, at 30 ml (common practice, no source)."""
POWDER_OF_A_VOLUME: list[Row] = [
    ("there are 200 ml of brine at 15 percent in the bottle, what does the salt in it weigh", 33.26, "gram"),
    ("A jar is full with 400 ml of 10 % saline. Which weight of salt is inside?", 42.83, "gram"),
    ("what does 400 ml of 10 % saline weigh", 428.3, "gram"),
    ("weight of 400 ml of ten percent saline?", 428.3, "gram"),
    ("what volume does 1 kg of 10 percent saline take up", 933.97, "milliliter"),
]
"""Salt at 15 %: 1.1086 g/ml, at 10 %: 1.0707 g/ml (the same table as the other tests' fifth).  Near by, the whole."""
DIGITS_FOR_WORDS: list[Row] = [
    ("300 g lime peel, hw much sugar 4 oleo", 300, "gram"),
    ("how much agar 4 gel, 500 ml at 1%", 5, "gram"),
    ("1 l grapefruit 2 lime strength citric only", 40, "gram"),
    ("citric for 500 ml grapefruit 2 lemon juice acidity", 20, "gram"),
    ("1 l rum 60% 2 40% water?", 513.9, "milliliter"),
    ("press 4 limes, how much juice", 120, "milliliter"),
    ("how many grams of sugar 4 cups", 800, "gram"),
]
"""As much sugar as peel; 10 g/l; 6 - 2 g in each 100 ml.  Water to 60 %: OIML R 22.  Near by, digits that count."""
SPLIT: list[Row] = [
    ("Milk punch, our tub holds 4 litres to the rim. Divide it into drink and milk, please.", 3200, "milliliter"),
    ("split 2.5 l into punch and milk, usual ratio", 2000, "milliliter"),
    ("divide 600 g of 20 % saline into salt and water", 120, "gram"),
    ("split 3 l of martini between 60 guests", 50, "milliliter"),
]
"""Four fifths of it; near by, among people."""
IN_THE_ORDER_OF_NAMES: list[Row] = [
    ("blend of malic and citric 3:2 for 50 g, malic?", 30, "gram"),
    ("citric and malic 3:1, 60 g", 45, "gram"),
    ("60 g 3:1 malic and citric, how much citric", 15, "gram"),
    ("2 kg of 3:1 sugar and water, how much water", 500, "gram"),
    ("900 g of 2:1 rich syrup and want it at 50 brix, water?", 300, "gram"),
]
"""Near by, where a verb follows the ``and``: 600 g of sugar are half of 1200."""

FOR_MORE_PEOPLE: list[Row] = [
    ("punch for 20 guests takes 2 l tea, how much tea for 35", 3500, "milliliter"),
    ("The bowl for eighteen people needs 1.5 l of tea. Tea for 60?", 5000, "milliliter"),
    ("a recipe for 6 people wants 90 g of sugar, sugar for 40?", 600, "gram"),
]
"""2 x 35/20; 1.5 x 60/18; 90 x 40/6: what it takes for them is what is scaled, and not what is needed."""
WANTED_SO_STRONG: list[Row] = [
    ("syrup is 40 brix, 900 g, want 50, sugar to add?", 180, "gram"),
    ("Cordial at 30 Bx, 1.5 kg. I wish 40. How much sugar must in?", 250, "gram"),
    ("syrup at 50 brix, 800 g, want 900 g after, how much sugar", 100, "gram"),
    ("from 60 brix to 50, 2 kg: water?", 400, "gram"),
]
"""Sugar to a number alone, which is a brix: 900 x 10/50; 1500 x 10/60.  Near by, a weight."""
SOLD_AT: list[Row] = [
    ("drink costs 2.40 sell at 12 pour cost", 20, "percent"),
    ("costs 1.95 to make, sold for 13, margin", 85, "percent"),
    ("it costs 3, we sell at 15, profit?", 12, "currency"),
    ("cost 2.40 pour cost 20 %, price?", 12, "currency"),
]
LEAVES: list[Row] = [
    ("mint leaves 25 drinks 12 leaves each", 300, "count"),
    ("6 basil leaves a drink and 50 drinks, 60 leaves in a bunch", 5, "count"),
]
EVENLY: list[Row] = [
    ("half and half vodka at 40 % and coffee liqueur at 20 %, abv undiluted", 30, "percent"),
    ("Equal thirds: 45 % gin, 27 % bitter, 18 % vermouth. Strength before ice?", 30, "percent"),
    ("whats the abv of rum at 50% and falernum at 10% 50/50", 30, "percent"),
    ("tequila at forty and mezcal at forty six half and half how strong before ice", 43, "percent"),
    ("rum 40% and sherry 20%, equal parts, proof?", 60, "proof"),
    ("50/50 gin and vermouth, 3 litres, how much each", 1.5, "liter"),
    ("50/50 syrup, 900 g, sugar?", 450, "gram"),
    ("mix 300 ml of 40% rum and 100 ml of 60% rum, abv", 45, "percent"),
]
"""Means of two or three; near by, of a syrup, and where amounts are told: (120 + 60)/400."""
JUICE_OF_EACH: list[Row] = [
    ("24 lemons at 1 1/4 oz each, how many pints of juice", 24 * 1.25 * FLOZ / PINT, "pint"),
    ("50 limes giving 3/4 oz, litres of juice?", 50 * 0.75 * FLOZ / 1000, "liter"),
    ("30 lemons at 4 oz each, how many kg", 30 * 4 * 0.028349523125, "kilogram"),
]
COUNTED_DROPS: list[Row] = [
    ("my dropper takes 60 drops for 2 ml, how many drops are 0.5 ml", 15, "drop"),
    ("The pipette of ours, I counted, needs 36 drops for to fill 2 ml. How many drops is 1.5 ml?", 27, "drop"),
    ("a dropper bottle of 50 ml, 4 drops a drink, how many drinks", 250, "count"),
]
"""30 and 18 to the millilitre.  Near by, 20 of no counted dropper."""
READ_WARM: list[Row] = [
    ("abv reads 42 at 28 c real strength", 38.70, "percent"),
    ("alcoholmeter 42% at 28 C, real abv?", 38.70, "percent"),
    ("reads 50 brix at 26 C real brix", 50.48, "percent"),
    ("42 % abv as proof", 84, "proof"),
]
"""The examples of the two corrections: OIML R 22's densities, and the refractometers' table for 20 °C."""


@pytest.mark.parametrize(
    ("said", "value", "unit"),
    [*FOR_MORE_PEOPLE, *WANTED_SO_STRONG, *SOLD_AT, *LEAVES, *READ_WARM, *EVENLY, *JUICE_OF_EACH, *COUNTED_DROPS],
)
def test_numbers_go_where_a_colleague_would_put_them(talk: Conversation, said: str, value: float, unit: str) -> None:
    gives(talk, said, value, unit)


@pytest.mark.parametrize(
    ("said", "value", "unit"),
    [*ONE_OF_IT, *A_FRUIT_IN_OUNCES, *POWDER_OF_A_VOLUME, *DIGITS_FOR_WORDS, *SPLIT, *IN_THE_ORDER_OF_NAMES],
)
def test_what_few_words_come_to(talk: Conversation, said: str, value: float, unit: str) -> None:
    gives(talk, said, value, unit)


@pytest.mark.parametrize(
    "said",
    [
        "fahrenheit to celsius",
        "jigger to ml",
        "Five leafs of gelatine, how many grams are that",
        "a leaf of gelatine in grams",
        "how much citric 4 limes",
        "bring 400 ml pineapple 2 lime level",
    ],
)
def test_what_few_words_do_not_tell(talk: Conversation, said: str) -> None:
    """A temperature has no one of it; a jigger and a leaf have no size; a digit before a plural counts; what is brought
    to a level is no cup of fruit."""
    reply, _ = talk.answer(said)
    assert reply.status in ("asks", "declined"), reply.text


def test_a_unit_alone_sets_no_size(talk: Conversation) -> None:
    """Of a dash in millilitres nobody said how many it is."""
    gives(talk, "dash of bitters to ml?", 0.8, "milliliter")
