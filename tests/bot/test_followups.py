"""Short dialogues at a bar: what a message changes, asks, keeps or starts anew.

Each turn has the number that it must give, worked out beside it from what was said and the convention
that the line names, and not by the calculators; or what it must ask back for.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from stillroom_bot.state import State
from turns import ETHANOL, FLOZ, OZ, Asks, Declined, Noted, Told, Turn, holds

DIALOGUES: dict[str, list[Turn]] = {
    # water per volume before it; 4 % lost divides by 0.96
    "a batch that is then thinned": [
        Told("35 rum 20 lime 15 syrup for 40 guests, how much rum?", 35 * 40, "milliliter"),
        Told("with 30 % dilution, how much water?", 70 * 40 * 0.30, "milliliter"),
    ],
    "a whole that is then thinned": [
        Told("50 gin 25 lemon 25 syrup, 2.6 litres in all: gin?", 1300, "milliliter"),
        Told("with 30 % dilution: gin?", 1000, "milliliter"),
    ],
    "a batch of which some is lost": [
        Told("45 gin 30 vermouth for 32, how much gin?", 45 * 32, "milliliter"),
        Told("and with 4 % lost: gin?", 45 * 32 / 0.96, "milliliter"),
    ],
    # what a number is told of, it changes, and nothing else
    "a ratio alone": [
        Told("300 g of lemon peel for oleo, how much sugar?", 300, "gram"),
        Told("ratio 0.8", 240, "gram"),
    ],
    # 18 g/l: grams per litre of spirit poured in
    "a value alone": [
        Told("18 g/l of lapsang in 2 litres of gin, how many grams?", 18 * 2, "gram"),
        Told("sorry, meant 15 g/l", 15 * 2, "gram"),
        Told("and for 3 litres?", 15 * 3, "gram"),
    ],
    "an unknown alone": [
        Told("salt for 800 g of 12 % brine?", 800 * 0.12, "gram"),
        Told("and the water?", 800 * 0.88, "gram"),
        Told("at 10 %", 800 * 0.90, "gram"),
    ],
    "a unit alone": [
        Told("sugar in 500 g of 40 brix syrup?", 200, "gram"),
        Told("in oz?", 200 / OZ, "ounce"),
    ],
    "what was rejected names what changes": [
        Told("agar at 0.9 % for 1.2 litres", 9 * 1.2, "gram"),  # poured: 10 g/l for 1 %
        Told("not 1.2, 1.6", 9 * 1.6, "gram"),
        Told("make that 0.8", 8 * 1.6, "gram"),  # 0.8 is near 0.9, and far from 1.6 litres
    ],
    "the same with another powder": [
        Told("agar at 8 g/l for 1.5 litres", 12, "gram"),
        Told("same but with gelatine", 12, "gram"),
    ],
    # the total and then the parts: 4 drink to 1 milk when no ratio is given (common practice)
    "everything together": [
        Told("milk for 6 litres of punch", 1.5, "liter", 0.02),
        Told("make it 5:1", 1.2, "liter"),
        Told("all in, how many litres?", 7.2, "liter"),
    ],
    "a new style asks for the same thing": [
        Told("how much sugar for 900 g of simple syrup", 450, "gram"),
        Told("and for rich syrup", 600, "gram"),  # 2:1 by mass
        Told("the water then?", 300, "gram"),
    ],
    "another juice asks for the same thing": [
        Told("acid in 250 ml of lemon juice, in grams", 6 * 2.5, "gram", 0.02),  # lemon 6 % w/v (common practice)
        Told("and if it were orange juice", 0.8 * 2.5, "gram", 0.02),  # orange 0.8 %
        Told("for 2 litres of it", 0.8 * 20, "gram", 0.02),
    ],
    "a double pour": [
        Told("a 0.7 l bottle is 21 euro, cost of a 4 cl pour?", 21 * 4 / 70, "currency"),
        Told("double it", 2 * 21 * 4 / 70, "currency"),
        Told("in all for 10 of them?", 20 * 21 * 4 / 70, "currency"),
    ],
    # money stays the drink's own: from cost to price to tax
    "cost, pour cost, price": [
        Told("a 1 l bottle is 30, cost of a 40 ml pour?", 30 * 40 / 1000, "currency"),
        Told("sold at 6 net: pour cost?", 100 * 1.2 / 6, "percent"),
        Told("net price for 16 %?", 1.2 / 0.16, "currency"),
        Told("with 20 % tax?", 1.2 / 0.16 * 1.2, "currency"),
    ],
    "how often a spec is made": [
        Told("x12\n50 ml gin\n25 ml lemon juice", 600, "milliliter"),
        Told("x20", 1000, "milliliter"),  # counted from one drink, not from the last batch
        Told("double it", 2000, "milliliter"),
        Told("total?", 40 * 75, "milliliter"),
    ],
    "a line of a spec": [
        Told("for 16 people: 40 ml rum, 20 ml lime juice, 10 ml honey syrup", 640, "milliliter"),
        Told("45 ml rum instead", 720, "milliliter"),
        Told("20 serves of it, and 50 ml rum", 1000, "milliliter"),
        Told("how much lime juice is that?", 400, "milliliter"),
        Told("rum in litres?", 1, "liter"),
    ],
    "half of that": [
        Told("sugar for 500 g of grapefruit peel", 500, "gram", 0.02),  # 1:1 (common practice)
        Told("half of that", 250, "gram", 0.02),
        Told("triple it", 750, "gram", 0.02),
    ],
    # ethanol: volume x strength x density; a UK unit is 10 ml of ethanol
    "from grams to units": [
        Told("grams of ethanol in 50 ml of 40 % rum?", 50 * 0.4 * ETHANOL, "gram", 0.01),
        Told("UK units?", 2.0, "count", 0.01),
        Told("a 25 ml one?", 1.0, "count", 0.01),
    ],
    "carried as it": [
        Told("2 oz is how many ml?", 2 * FLOZ, "milliliter"),
        Told("that at 50 %: UK units?", 2 * FLOZ * 0.5 / 10, "count", 0.01),
    ],
    "the whole is carried, not its first line": [
        Told("scale to 10: 30 ml gin, 60 ml tonic", 300, "milliliter"),
        Told("what does that come to in all?", 900, "milliliter"),
    ],
    "a question back takes the bare answer": [
        Asks("how much agar for 2 litres of stock?", ("dose", "g/l", "percent", "%")),
        Told("0.7 %", 14, "gram"),
        Told("what if I did 3 litres?", 21, "gram"),
    ],
    # gauge: one 8 g charger to 0.5 l, two to 1 l (common practice)
    "a question back takes a word": [
        Asks("chargers for my siphon?", ("size", "pint", "quart")),
        Told("the quart one", 2, "count"),
        Told("and how much liquid goes in at most?", 1, "liter", 0.02),
    ],
    "an answer that would do for two things is asked about": [
        Asks("10 % saline, how much salt?", ("water", "mass")),
        Asks("400 g", ("water", "mass")),
        Told("the mass", 40, "gram"),
    ],
    "a new subject cancels a question back": [
        Asks("chargers for my siphon?", ("size", "pint", "quart")),
        Told("agar for 900 ml at 0.6 %", 5.4, "gram"),
    ],
    "a new subject inherits no amount": [
        Told("20 g/l of rosemary in 3 l of vodka, grams?", 60, "gram"),
        Asks("new thing: agar at 0.5 %, how much?", ("liquid", "volume", "litre")),
        Told("2 litres", 10, "gram"),
    ],
    "after a refusal one value is mended": [
        Declined("500 g of 40 % salt solution, how much salt?"),  # above 26.4 % w/w
        Told("20 % then", 100, "gram"),
    ],
    "a siphon refused": [
        Declined("5 chargers in a 1 l siphon, is that ok?"),
        Told("how many then?", 2, "count"),
    ],
    "an answer before the last one is not made up": [
        Told("agar at 0.7 % for 3 litres", 21, "gram"),
        Told("do the same for xanthan at 0.2 %", 6, "gram"),
        Asks("what was the agar again?", ("dose", "liquid")),
    ],
    "thanks change nothing": [
        Told("25 g/l of coffee in 2 l of rum, grams?", 50, "gram"),
        Noted("cheers!"),
        Told("and for 3 litres?", 75, "gram"),
    ],
}


@pytest.mark.parametrize("name", DIALOGUES)
def test_a_dialogue(talk: Conversation, name: str) -> None:
    holds(talk, DIALOGUES[name])


@pytest.mark.parametrize(
    ("message", "value"),
    [
        ("double it", 400.0),
        ("make it double", 400.0),
        ("twice that", 400.0),
        ("halve it", 100.0),
        ("half of that", 100.0),
        ("a quarter of that", 50.0),
        ("3 of them", 600.0),
        ("x3", 600.0),
        ("triple the batch", 600.0),
    ],
)
def test_a_job_is_scaled_once(talk: Conversation, message: str, value: float) -> None:
    """100 g/l in 2 l is 200 g."""
    _, state = talk.answer("100 g/l of basil in 2 l of gin, grams?")
    reply, _ = talk.answer(message, state)
    assert reply.to_json()["answer"][0]["value"] == pytest.approx(value)


def test_the_working_is_shown(talk: Conversation) -> None:
    _, state = talk.answer("agar at 8 g/l for 1.5 litres")
    for message in ("show me the working", "how did you get that?"):
        reply, after = talk.answer(message, state)
        assert after == state
        assert any("dose × liquid" in line and "1500 ml = 12 g" in line for line in reply.body), reply.body


def test_a_choice_here_may_be_a_variable_there(talk: Conversation) -> None:
    """A fruit is chosen for peel and counted for juice; what cannot be told then is no error."""
    state = State()
    for message in ("orange peel 300 g, oleo, sugar?", "half as much sugar", "total weight?"):
        reply, state = talk.answer(message, state)
    assert reply.status in ("answered", "asks", "declined")


def test_there_is_no_working_before_there_is_a_number(talk: Conversation) -> None:
    reply, _ = talk.answer("show me the working")
    assert reply.status == "noted"
