"""Kinds of question that strangers asked in other words, and the numbers that they come to (each sentence is our own).

Sums are worked by hand beside each group.  Conventions of the trade (a dash of 0.8 ml, 20 drops to the millilitre, 8 g
of gas a charger) are common practice, no source.  The last table are near misses: the same words, another question.
"""

from __future__ import annotations

import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation

DOSES = [
    ("the spec calls for 2 dashes of orange bitters per cocktail and I only have a pipette. 60 guests tonight. how "
     "many drops per cocktail is that", 32, "drop"),
    ("Each drink takes 4 dashes of bitters, we serve 120 people. In drops per drink, how much is this please?", 64,
     "drop"),
    ("party of 40, recipe says two dashes angelica bitters each glass how many drops each glass", 32, "drop"),
    ("For tomorrow's wedding of 150 guests the card says 1 dash of saline in each drink; how many drops would that be "
     "per drink?", 16, "drop"),
    ("We expect 70 guests. The recipe gives 1 barspoon of bitters per drink; how many dashes per drink is that?", 6.25,
     "dash"),
]
"""0.8 ml a dash is 16 drops of 0.05 ml; a barspoon of 5 ml is 6.25 dashes: how many are served changes nothing."""
DROPPERS = [
    ("if this dropper makes 25 drops from 1 ml then how many drops is 0.6 ml", 15, "drop"),
    ("I counted 32 drops from one millilitre of saline. How many drops should I give for 1.5 ml?", 48, "drop"),
    ("we measured it twice 36 drops from a millilitre. how many drops for half a ml", 18, "drop"),
    ("With a pipette that makes 50 drops out of one ml, how many drops must we count for 3 ml?", 150, "drop"),
    ("how many ml is 90 drops when my dropper needs 45 drops for a millilitre", 2, "milliliter"),
    ("80 drinks, 2 drops each, my dropper makes 40 drops from one millilitre. how many ml in all?", 4, "milliliter"),
    ("I counted three times: my dropper makes 24 drops per ml. drops for 2 ml?", 48, "drop"),
]
"""So many drops a millilitre, times the millilitres."""
NEUTRAL = [
    ("we've got 192 proof neutral and I want 2 quarts at 90 proof, how many ounces of neutral", 30, "fluid_ounce"),
    ("From neutral at 96 % I must make 3 litres at 32 %. How many ml of the neutral I need?", 1000, "milliliter"),
    ("how much of the neutral goes into 5 l at 24 % if it is 96 %?", 1250, "milliliter"),
    ("GOAL: 750 ml at 25 %\nBASE: gin 45 %\nBASE ___ ml", 416.667, "milliliter"),
    ("Target: 2 L @ 40 %\nSpirit: rum, 60 %\nspirit = ? mL", 1333.33, "milliliter"),
    ("how much rum at 60 % do I need to finish with 2 litres at 40 %", 1333.33, "milliliter"),
]
"""The alcohol of the whole over the strength of the spirit: 64 fl oz x 45 / 96, 3000 x 32 / 96 and so on."""
CHARGERS = [
    ("how many 16 g co2 cartridges for 10 litres of tonic at 4 volumes, no loss", 5, "count"),
    ("For 6 litres of water at 3,5 volumes I need how many cartridges of 8 g of CO2, if nothing gets lost?", 6,
     "count"),
    ("how many eight gram bulbs of c o two does it take for four litres at three volumes no losses", 3, "count"),
    ("Assuming no gas is lost, please tell me how many 16 g CO2 bulbs would be needed for 12 litres at 2.5 volumes.", 4,
     "count"),
    ("we have cartridges of 16 g, 20 litres at 2 volumes, how many without any loss", 5, "count"),
    ("how many capsules of 8 g for 4 litres of soda at 3.5 volumes", 4, "count"),
]
"""Litres x volumes x 1.977 g (a handbook's, from memory) over what one holds, rounded up: 79.1 / 16, 41.5 / 8 ..."""
HURRIED = [
    ("serve costs 2.10 and pour cost 20%, wat do i sell it 4", 10.5, "currency"),
    ("costs me 2.40, at 24% what do i charge 4", 10, "currency"),
    ("what's the acid % now? 500 ml orange juice plus 10 g citric", 2.8, "percent"),
    ("cordial keps 10 days, made 3 days ago. days lft", 7, "day"),
]
"""2.10 / 0.2; 2.40 / 0.24; 0.8 (a typical orange, common practice) and 10 g more in 500 ml; 10 - 3."""
WHOLES = [
    ("60 g citric left over. use it all up. 15 % w/w solution. total weight?", 400, "gram"),
    ("We have 45 g of salt, all of it goes in a 9 % brine. What is the total weight?", 500, "gram"),
    ("The 120 g salt we still have shall all become 20 % saline. Total weight of it?", 600, "gram"),
    ("She used 4 g xanthan in 2 l of cordial; in grams for litre it makes how much?", 2, "gram / liter"),
    ("40 fills of the 1 l siphon this month, chargers come 24/box, how many boxes", 4, "count"),
    ("half litre siphon, 90 fills a month, chargers 10/box: boxes?", 9, "count"),
    ("We do 30 fills of the pint siphon and chargers are 24 / box. How many boxes to order?", 2, "count"),
    ("120 fills of a half litre whipper. chargers in boxes of 50. boxes?", 3, "count"),
]
"""60 / 0.15; 45 / 0.09; 120 / 0.2; 4 / 2; 80 / 24; 90 / 10; 30 / 24 and 120 / 50, whole boxes."""
SYRUPS = [
    ("what does a refractometer show for syrup of three parts sugar and two parts water", 60, "percent"),
    ("refractometer reading for 1.5 parts sugar to 1 part water", 60, "percent"),
    ("six hundred and fifty grams of two to one syrup i wanna bring it to fifty brix how much water goes in", 216.667,
     "gram"),
    ("How much sugar must be dissolved in 800 g syrup that measures 40 brix so it reads 55?", 266.667, "gram"),
    ("What weight of sugar should I stir into 1 kg of cordial measuring 30 °Bx so that it measures 50 °Bx?", 400,
     "gram"),
    ("how much sugar goes into 2 kg syrup measuring 50 bx so the refractometer reads 65 bx", 857.143, "gram"),
    ("What mass of water has to be added to 650 g of syrup measuring 60 °Bx so that it reads 42 °Bx?", 278.571, "gram"),
    ("it reads 35 brix now, 900 g, sugar so that it reads 50 brix?", 270, "gram"),
]
"""3 / 5; 1.5 / 2.5; 433.3 g of sugar in 866.7 g; (0.55 x 800 - 320) / 0.45 and its like; 650 x 60 / 42 - 650."""
STRENGTHS = [
    ("Equal parts: gin 40%, green herbal 55%, maraschino 30%. Strength before shaking?", 41.667, "percent"),
    ("equal parts rum at 40 % and falernum at 12 %, how strong before ice", 26, "percent"),
    ("equal measures of gin at 47 %, vermouth at 17 % and amaro at 29 %, what abv undiluted", 31, "percent"),
    ("30 ml each: 45 % gin, 25 % bitter, 15 % vermouth. abv undiluted?", 28.333, "percent"),
    ("20 ml each: 50% rum, 35% curacao, lemon juice, orange juice. how strong before ice", 21.25, "percent"),
    ("In the glass 4 cl of gin 45 %, 2 cl of liqueur 25 %, 2 cl of lemon juice. How many degrees has it?", 28.75,
     "percent"),
    ("50 ml rum at 40 % and 25 ml curacao at 40 %, 25 ml lime juice, how many degrees", 30, "percent"),
    ("I mix 6 cl vodka at 40 % with 12 cl juice. how many degrees it is, no ice", 13.333, "percent"),
    ("70 ml at 30 % before it is shaken, what volume comes out of the shaker?", 110.92, "milliliter"),
]
"""The mean of the strengths by their volumes; the last by the trade's fit for shaking (from memory): 70 x 1.5846."""
USUAL = [
    ("sugar for 220g orange peel, the normal way", 220, "gram"),
    ("Sugar for 400 g of lemon peel, at the usual ratio please", 400, "gram"),
    ("OK, different question: milk to clarify 64 oz of punch, usual ratio?", 16, "fluid_ounce"),
    ("2 l of punch to clarify with milk, standard ratio. how much milk", 500, "milliliter"),
]
"""Peel one to one, drink and milk four to one: common practice, no source."""
OTHER_UNITS = [
    ("The book wants 185 F and my thermometer is in celsius, what do I look for", 85, "degree_Celsius"),
    ("The recipe says 65 °C. My probe only reads Fahrenheit. What should it show?", 149, "degree_Fahrenheit"),
    ("it says chill to 38 °F, our fridge shows only celsius. what should it say", 3.333, "degree_Celsius"),
    ("the regulator shows psi only, the sheet says 2.4 bar. what should I look for", 34.809, "psi"),
    ("2/3 of a cup in ml", 157.725, "milliliter"),
    ("what is 3/8 of an ounce in ml", 11.09, "milliliter"),
    ("0.75 of a litre in oz", 25.36, "fluid_ounce"),
]
"""153 / 1.8; 65 x 1.8 + 32; 6 / 1.8; 2.4 x 14.5038; shares of 236.588, 29.5735 and 1000 ml."""
BESIDE = [
    ("we do 85 drinks from the one bottle, 3 dashes of celery bitters in all. how many drops per drink is that",
     0.5647, "drop"),
    ("a 5 ml vial of tincture for 50 drinks, how many drops per drink?", 2, "drop"),
    ("3 dashes of bitters per drink, 85 drinks: how many drops in all?", 4080, "drop"),
    ("from a 10 ml bottle I took 40 drops for one drink, how many drinks in the bottle?", 5, "count"),
    ("he read the refractometer two times, 62 brix. 800 g of it, water to reach 50 brix?", 192, "gram"),
    ("if i put 8 g of co2 into 2 litres how many volumes is that", 2.0233, ""),
    ("5 litres at 3 volumes, how many grams of CO2", 29.655, "gram"),
    ("30 g malic, 10 % w/w. Water weight?", 270, "gram"),
    ("750 g of 2 to 1 syrup, how much water is in it", 250, "gram"),
    ("I want 750 g of syrup at 55 brix, how much water goes in", 337.5, "gram"),
    ("My refractometer reads 60 and it should be 50: 650 g syrup, water?", 130, "gram"),
    ("the drink costs 2.80, I sell it at 4. pour cost?", 70, "percent"),
]
"""3 x 16 / 85; 100 / 50; 85 x 48; 10 ml / 2 ml; 800 x (62 / 50 - 1); 8 / (2 x 1.977); 15 x 1.977; 30 x 9;
a third of 750; 45 % of it; 650 x (60 / 50 - 1); 2.80 / 4."""


@pytest.fixture(scope="module")
def talk(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """A conversation with everything that the bar's plugins know."""
    return Conversation(Kernel(tmp_path_factory.mktemp("cache")))


@pytest.mark.parametrize(
    ("said", "value", "unit"), [*DOSES, *DROPPERS, *NEUTRAL, *CHARGERS, *HURRIED, *WHOLES, *SYRUPS,
     *STRENGTHS, *USUAL, *OTHER_UNITS, *BESIDE]
)
def test_what_others_ask_has_its_number(talk: Conversation, said: str, value: float, unit: str) -> None:
    reply, _ = talk.answer(said)
    answer = reply.to_json()["answer"]
    assert answer, reply.text
    assert answer[0]["value"] == pytest.approx(value, rel=5e-3)
    assert not unit or answer[0]["unit"] == unit


@pytest.mark.parametrize(
    "said",
    [
        "my mezcal thing costs 3.20 to make. what should i sell it 4?",
        "this one is 1.90 in ingredients, how much do we charge 4 it",
        "how many bottles do i need 4",
        "how much time can it be conserved",
        "how many days before this goes off",
        "what's the usual ratio of drink to milk for clarifying",
    ],
)
def test_what_is_not_said_is_asked(talk: Conversation, said: str) -> None:
    """A ``4`` that stands for the word is no price and no count; nothing keeps that is not named."""
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "asks", reply.text


@pytest.mark.parametrize(
    "said",
    [
        "give me a name for a gin and pear drink",
        "Please propose a title for the autumn menu with pear and quince.",
        "what should we call our new rhubarb sour",
        "come up with a joke about limes",
        "heat the syrup to 80 °C and then what should I look for?",
    ],
)
def test_what_no_measure_answers_is_declined(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "declined", reply.text
