"""Everyday jobs as other people put them: hurried, dictated, from a production kitchen, by polite mail, in US units.

The sentences are our own, each table one way of asking, with what must not be read so beside it.  Sums are worked by
hand beside each group; volumes add, and the usual sizes are those of the other tests (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation

Row = tuple[str, float, str]

OF_A_POWDER: list[Row] = [
    ("what weight of xanthan goes into 1.5 l lime juice at 2 g/l?", 3, "gram"),
    ("Weight of powdered gelatine for 3 litres of grape juice at 12 g per litre, please?", 36, "gram"),
    ("i have 2 l of pineapple juice for a jelly, what is the weight of agar at 0.9 percent", 18, "gram"),
    ("What weight of salt goes into 3 l of water for a 2% brine", 61.114, "gram"),
    ("what's the weight of 4 litres of orange juice?", 4210, "gram"),
    ("what weight is 2 l of lime juice", 2045.8, "gram"),
]
"""A weight asked of a powder is no weight of the liquid: 1.5 x 2; 3 x 12; 20 x 0.9; 3 l of water at 0.9982 g/ml are
2994.6 g, x 2 / 98.  Near by, weights of liquids: 1052.5 and 1022.9 g/l (USDA's cups of the juices)."""
POWDER_UNDOSED = [
    "What weight of agar do I need for 2.5 litres of cucumber juice?",
    "hi, pls tell the weight of gellan for 800 ml tomato water",
    "Kindly advise the mass of pectin required for 6 l of raspberry puree.",
    "Which weight of iota carrageenan for 900 ml of milk?",
    "Dear all, 5 litres of apple juice are waiting for Friday (60 guests). What mass of agar shall we add? Regards",
]
BEFORE_ICE: list[Row] = [
    ("2 oz 100 proof bourbon, 1 oz lemon juice, 1 oz simple. ABV before I stir it?", 25, "percent"),
    ("what's the strength before shaking: 50 ml rum 40%, 25 ml lime, 25 ml syrup", 20, "percent"),
    ("60ml gin 45%, 30ml lemon, 15ml honey syrup - whats abv before its shaken", 25.714, "percent"),
    ("Please, which ABV has it before it is shaken? 40 ml vodka at 40 %, 40 ml grapefruit juice.", 20, "percent"),
    ("1.5 oz 80 proof tequila, .75 oz lime, .75 oz agave syrup. proof before I shake?", 40, "proof"),
    ("abv pre shake: 45 ml brandy 40%, 45 ml apple juice", 20, "percent"),
    ("what's the abv once shaken, 50 ml rum 40%, 25 ml lime, 25 ml syrup", 13.434, "percent"),
    ("each drink is 75 ml at 36 % ABV before it is stirred. What volume have we once it is strained?", 107.756,
     "milliliter"),
]
"""Ethanol over drink: 1/4; 20/100; 27/105; 16/80; 1.2/3 as proof; 18/90.  Near by, what is asked afterwards: shaken at
20 % takes up 48.87 % (20 / 1.4887), stirred at 36 % 43.67 % (75 x 1.4367)."""
ONE_TOLD: list[Row] = [
    ("One serve is 40 ml gin, 20 ml lemon and 20 ml syrup. I'm filling a 4 litre dispenser. Gin in ml?", 2000,
     "milliliter"),
    ("a single drink's 30 ml rum, 60 ml pineapple juice, 10 ml lime; filling a 5 l jug with nothing else: rum in ml?",
     1500, "milliliter"),
    ("1 serve = 50 ml tequila + 30 ml lime + 20 ml agave; 6 l container to fill; lime?", 1800, "milliliter"),
    ("One cocktail has 60 ml whisky and 20 ml syrup. The barrel takes 4 l. Whisky?", 3000, "milliliter"),
    ("one drink's 1 oz gin, 1 oz bitter aperitif, 1 oz vermouth. fill a 750 ml bottle. gin in ml?", 250, "milliliter"),
    ("one serve's 40 ml gin and 20 ml lemon. 25 serves: gin in ml?", 1000, "milliliter"),
    ("one serve is 40 ml gin, 20 ml lemon. how many serves from a 3 litre dispenser?", 50, "count"),
    ("two things run short:\nrum 1.2 l\nlime juice 900 ml\none drink is\n60 ml rum\n30 ml lime juice\nhow many drinks?",
     20, "count"),
]
"""Half of 4 l; 0.3 of 5 l; 0.3 of 6 l; three quarters of 4 l; a third of 750 ml; 25 x 40; 3000 / 60; 1200 / 60."""
INCLUDED: list[Row] = [
    ("Rum 40 ml\nLime 20 ml\nWater 20 ml\nScale to 4 l total incl. water", 2000, "milliliter"),
    ("Gin 30 ml\nBitter 30 ml\nVermouth 30 ml\nWater 10 ml\n-> 3 l incl. water", 900, "milliliter"),
    ("vodka 50, water 25, liqueur 25 (ml). make 2 l all in, water included", 1000, "milliliter"),
    ("30 ml gin, 30 ml vermouth, 15 ml water. Scale to 5 litres including the water.", 2000, "milliliter"),
    ("Scale to 2.4 l including dilution:\nrye 60 ml\nvermouth 30 ml\nwater 30 ml", 1200, "milliliter"),
    ("50 ml gin, 25 ml vermouth for 40 serves with 20 % dilution: how much water?", 600, "milliliter"),
]
"""Half of 4 l; 0.3 of 3 l; half of 2 l; 0.4 of 5 l; half of 2.4 l; near by, 20 % of 3 l."""
ALL: Sequence[Row] = [*OF_A_POWDER, *BEFORE_ICE, *ONE_TOLD, *INCLUDED]
CANNOT_BE = [
    "What volume of water must I add to 1 l of a 40 % spirit to get a 55 % spirit?",
    "Exercise 9: what volume of water must be added to 300 ml of a 38% spirit in order to obtain a 50% spirit?",
]


@pytest.fixture(scope="module")
def talk(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """A conversation with everything that the bar's plugins know."""
    return Conversation(Kernel(tmp_path_factory.mktemp("cache")))


@pytest.mark.parametrize(("said", "value", "unit"), ALL)
def test_it_is_heard_in_other_words(talk: Conversation, said: str, value: float, unit: str) -> None:
    reply, _ = talk.answer(said)
    answer = reply.to_json()["answer"]
    assert answer, reply.text
    assert answer[0]["value"] == pytest.approx(value, rel=5e-3)
    assert answer[0]["unit"] == unit


@pytest.mark.parametrize("said", POWDER_UNDOSED)
def test_a_powder_without_a_dose_is_asked_about(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    told = reply.to_json()
    assert told["status"] == "asks"
    assert "dose" in told["asks"]["missing"]


def test_the_dose_that_was_asked_for_is_taken(talk: Conversation) -> None:
    _, state = talk.answer("Could you tell me the weight of powdered agar for 3 litres of perry jelly, please?")
    reply, state = talk.answer("Sorry, of course: 1.1 percent", state)
    assert reply.to_json()["answer"][0]["value"] == pytest.approx(33)
    reply, _ = talk.answer("and if we only made 1.8 litres of it?", state)
    assert reply.to_json()["answer"][0]["value"] == pytest.approx(19.8)


@pytest.mark.parametrize("said", CANNOT_BE)
def test_water_makes_nothing_stronger(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "declined"
