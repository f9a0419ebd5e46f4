"""Hurried, dictated and written-out ways to ask, and the numbers that they come to (each sentence is our own).

Sums are worked by hand beside each group.  Conventions of the trade (a charger for half a litre, 20 drops to the
millilitre, lime at 6 g of acid in 100 ml) are common practice, no source.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from turns import gives

LETTERS = [
    ("saline 10% 500 g tot, slt?", 50, "gram"),
    ("wtr for 2 kg of 15% saline", 1700, "gram"),
    ("agr 1.5 l at .6%", 9, "gram"),
]
"""Vowels left out: 10 % of 500 g; 85 % of 2 kg; 6 g/l in 1.5 l."""
NUMBERS = [
    ("what's one ninety five Fahrenheit in Celsius", 90.556, "degree_Celsius"),
    ("two fifty mils in litres", 0.25, "liter"),
    ("what should I charge for a drink that costs two pounds forty to make at a twenty percent pour cost", 12, ""),
]
"""(195 - 32) / 1.8; 2.40 / 0.2."""
RATES = [
    ("Agar we take 5 g for the liter. I have 40 cl of juice. How many grams of agar?", 2, "gram"),
    ("For each liter of water goes 8 g of CO2. I have 400 g. How much liter?", 50, "liter"),
    ("One kilo of oranges gives me 400 ml juice. I need 3 litres, how many kilos I buy?", 7.5, "kilogram"),
    ("for sumac gin we take 3 g sumac for each 50 ml gin, and there are 2 l of gin. Sumac how many grams?", 120,
     "gram"),
    ("1 l of vodka costs me 18.50, what's a 5 cl pour", 0.925, "currency"),
    ("a 0.7 costs 28, what does a 50 ml pour cost me", 2, "currency"),
    ("if one lime has twenty five millilitres in it how many limes go into two litres of juice", 80, "count"),
    ("If I get 15 g of peel off an orange, how many oranges do I have to peel for 450 g?", 30, "count"),
    ("20ml egg white x 30 sours how much egg white", 600, "milliliter"),
]
"""5 g/l in 0.4 l; 400 / 8; 3 / 0.4; 3 g x 2000 / 50; 18.50 / 20; 28 / 14; 2000 / 25; 450 / 15; 30 x 20 ml."""
LISTS = [
    ("Batch x 20\n- vodka 40 ml\n- lemon juice 20 ml\n- cucumber syrup 10 ml", 800, "milliliter"),
    ("45 tequila 20 lime 15 agave x20", 900, "milliliter"),
    ("60ml gin 40% 30 vermouth 16% 30 bitter 25% abv?", 30.25, "percent"),
    ("60 gin, 30 lime, 20 syrup for 40: total", 4400, "milliliter"),
    ("SPEC\nrum 50\nlime 25\nsyrup 25\nneed 4.0 L total → rum ?", 2000, "milliliter"),
]
"""20 x 40 ml; 20 x 45 ml; (24 + 4.8 + 7.5) / 120; 40 x 110; half of 4 l."""
MEANT = [
    ("whats 20% saline in g/l", 229.56, "gram / liter"),
    ("How much orange peel will 2 kg of sugar do, at two parts sugar to one of peel?", 1000, "gram"),
    ("3 cases of 12 limes at 30 ml each, how much juice", 1080, "milliliter"),
    ("freezer display says 5 °F, what's that in celsius", -15, "degree_Celsius"),
    ("I stirred a 3 oz cocktail and got 3.9 oz in the glass. What dilution is that?", 30, "percent"),
    ("a total of 90 g of acid is split between citric and malic in the ratio 3:2. How much citric?", 54, "gram"),
    ("proof 151 as abv", 75.5, "percent"),
    ("I have 900 g of rich syrup and want it 1:1, how much water?", 300, "gram"),
    ("my dropper gives 25 drops to the ml and I need 3 ml of saline, how many drops do I count", 75, "drop"),
]
"""20 % of 1.1478 g/ml (Poradnik fizykochemiczny, WNT 1974, salt at 20 °C); 2 kg / 2; 36 x 30 ml; -27 / 1.8; 0.9 / 3;
three of five parts; half of 151; 600 g of sugar
wants as much water, and 300 g is there; 3 x 25."""


@pytest.mark.parametrize(("said", "value", "unit"), [*LETTERS, *NUMBERS, *RATES, *LISTS, *MEANT])
def test_a_hurried_question_has_its_number(talk: Conversation, said: str, value: float, unit: str) -> None:
    gives(talk, said, value, unit)


@pytest.mark.parametrize(
    "said",
    [
        "100 ml at 27 % ABV before it goes on ice, 80 guests. How much water will one of them pick up?",
        "guar gum in hibiscus cordial, 1500 ml: how many grams?",
        "can I put three chargers in one half litre siphon?",
        "simple syrup for 40 daiquiris 20ml each",
        "what does a lemon weigh",
        "how many drops of saline per drink if it's 1% of 90ml",
        "saline 20, 5 drops in a 90ml drink, % salt?",
        "A friend keeps a goat and sells raw milk. It is to clarify 36 ounces of tea punch the usual way. How many "
        "ounces would I need of it?",
    ],
)
def test_what_it_cannot_place_gets_no_number(talk: Conversation, said: str) -> None:
    """What a crate holds, a strength, a gum, leave that is asked for, how many there are, a weight: passed over, the
    number would be another one; and an amount is no answer to itself."""
    reply, _ = talk.answer(said)
    assert reply.status in ("asks", "declined"), reply.text


def test_a_conversation_goes_on_in_few_words(talk: Conversation) -> None:
    """A fifth of a solution is salt, so its water is four times the salt, whatever the volume."""
    state, found = None, []
    for said in ("saline 20% 250ml salt?", "make it a litre", "sorry, 800", "sweet, so how much water", "ta legend"):
        reply, state = talk.answer(said, state)
        found.append(reply.to_json())
    salt, litre, mended, water, thanks = found
    assert [x["answer"][0]["name"] for x in (salt, litre, mended, water)] == [*["solute_mass"] * 3, "water"]
    assert litre["answer"][0]["value"] == pytest.approx(4 * salt["answer"][0]["value"])
    assert mended["answer"][0]["value"] == pytest.approx(0.8 * litre["answer"][0]["value"])
    assert water["answer"][0]["value"] == pytest.approx(4 * mended["answer"][0]["value"])
    assert thanks["status"] == "noted"


@pytest.mark.parametrize(
    ("first", "then"),
    [
        ("xanthan .3% 600g", "wobblegum 1%"),
        ("honey syrup 3:1 500ml", "batch 2L negroni equal parts"),
        ("half a cup of sugar in grams", "tbsp salt g"),
    ],
)
def test_what_is_said_of_something_else_is_not_taken_for_the_same(talk: Conversation, first: str, then: str) -> None:
    """A dose of what nobody knows is not one of xanthan, a drink no syrup, a spoon of salt not the sugar."""
    before, state = talk.answer(first)
    reply, _ = talk.answer(then, state)
    assert before.status == "answered" and reply.status in ("asks", "declined"), reply.text


def test_a_bare_number_replaces_what_it_is_like(talk: Conversation) -> None:
    """A tenth of saline made a fifth: twice the salt by mass, and not twenty litres."""
    gives(talk, "make it 20", 200, before="salt for 1 kg of 10% saline")


def test_serves_before_a_spec_are_serves_of_all_of_it(talk: Conversation) -> None:
    gives(talk, "30 serves of vodka 50 ml, coffee liq 25 ml: litres?", 30 * 75 / 1000)
    gives(talk, "how strong is 30 serves vodka 50 coffee liqueur 25 espresso 25", (50 * 40 + 25 * 20) / 100)
    crates = "Two crates of oranges, 80 to the crate, and the peeler takes 11 g off every orange. How much peel in all?"
    gives(talk, crates, 2 * 80 * 11)
