"""What is asked by a form's labels, told as so many times another thing, or given for each; and what only looks so.

The sentences are our own; sums are worked by hand beside each group.  Conventions of the trade (equal weights of peel
and sugar, 48 hours under sugar, four of drink to one of milk, one charger up to half a litre and two for a litre) are
common practice, no source.
"""

from __future__ import annotations

import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from stillroom_bot.state import State

FORMS = [
    ("Batch undiluted 2 l; dilution 25 % on the undiluted volume. Water, ml; finished volume, ml.",
     {"water": 500, "final_volume": 2500}),
    ("40 g of salt and 160 g of water so the strength is", {"strength": 20}),
    ("lemon peel 300 g and sugar one to one so the sugar is...?", {"sugar": 300}),
    ("45 g salt + 255 g water = what %", {"strength": 15}),
    ("CREAM WHIPPER 0.5 L / CHARGERS QTY ___", {"chargers": 1}),
    ("chargers qty for 6 fills 1l siphon", {"chargers": 12}),
]
"""2 l x 0.25; 40 / 200; equal weights; 45 / 300; one for half a litre; two for each litre."""
RELATIONS = [
    ("lemon peel is 400 g and the sugar should be half of the peel, how much sugar?", {"sugar": 200}),
    ("240 g of orange peel, sugar = 0.75 x peel weight. sugar?", {"sugar": 180}),
    ("my lime peels weigh 150 g; sugar must be twice the peel. how much sugar", {"sugar": 300}),
    ("I use twice as much sugar as peel, and there is 150 g of peel. Sugar?", {"sugar": 300}),
    ("half as much sugar as peel please, 500 g of peel", {"sugar": 250}),
    ("the sugar is 20 % more than the peel, peel 200 g, sugar?", {"sugar": 240}),
    ("the sugar's a quarter less than the peel, peel's 400 g, so sugar is?", {"sugar": 300}),
    ("the milk is a quarter of the drink, drink 3.2 l, how much milk?", {"milk": 800}),
    ("the drink is four times the milk, milk 300 ml, drink?", {"drink": 1200}),
    ("In all, peel and sugar, it should be 1.2 kg, one to one. How much of each?", {"sugar": 600}),
    ("6 pts sugar to 4 pts peel, 200 g of peel. sugar?", {"sugar": 300}),
    ("batch of 2 l at 28 %, water a quarter of its volume goes in, what abv does it pour at?", {"final_abv": 22.4}),
]
"""Each is the one times the other; 1.2 kg in two; 200 g x 6 / 4; 28 / 1.25."""
FOR_EACH = [
    ("Please could you tell me how many desserts one filling of our 1 l whipper serves, if each dessert takes 40 ml "
     "of the base?", {"portions": 25}),
    ("half a litre siphon full to the line, 20 ml of base a drink, how many drinks does one fill do", {"portions": 25}),
    ("our siphon holds a litre and each guest gets thirty five mils of the foam base how many guests from a full "
     "siphon", {"portions": 28}),
    ("One sleeve has 10 chargers and we do 36 fills of the 0.5 l siphon. Sleeves?", {"boxes": 4}),
    ("five litres of foam base, litre siphons, how many whole fills and how many chargers is that?",
     {"fills": 5, "chargers": 10}),
    ("We are open at 7 this evening and I have a 1 l siphon: chargers for three fills?", {"chargers": 6}),
    ("three one litre siphons filled twice each, chargers?", {"chargers": 12}),
    ("16g co2 bulbs for 9 L at 4 volumes, no losses. how many", {"chargers": 5}),
    ("the mix came out at 20 %, 50 ml of spirit and 100 ml of juice. how strong was the spirit?", {"spirit_abv": 60}),
    ("my pitcher holds 2 l and should land at 12 % ABV. How much 40 % rum is that?", {"spirit": 600}),
    ("The peels have been in the sugar for 30 hours, how many hours are left?", {"remaining": 18}),
]
"""Whole portions of a full siphon; 36 chargers in tens; five fills of two; three of two; three, twice, of two;
9 x 4 x 1.977 g in bulbs of 16 (CO2 at 0 °C and 1 atm); 20 x 150 / 50;
2 l x 12 / 40; 48 - 30."""
MONEY = [
    ("Rum 24 GBP, 1 GBP = 1.25 EUR. Price in EUR?", 30, "€"),
    ("A quote of 300 pesos a bottle, one euro is 20 pesos. Bottle in euros?", 15, "€"),
    ("the bottle is seven hundred mils it costs us thirty to dollars and i pour seventy mils what does the pour "
     "cost me", 3.2, "$"),
]
"""24 x 1.25; 300 / 20; 32 / 10."""
NO_NUMBER = [
    "the bottle was 20 euro, sold at 9 pounds net, I pour 50 ml of 700 ml. Pour cost?",
    "peel 300 g, that was with the 90 g bowl. sugar one to one?",
    "Our gin has come in at 38 % but the label says 43 %. How much water for 700 ml?",
    "Siphon rated 0.5 l, base 0.7 l to go in at once. Chargers?",
    "Can I charge my 1 l siphon with 5 x 8 g N2O, ok?",
    "I can put three cartridges inside of half liter siphon, yes?",
    "may I screw a charger onto an old lemonade bottle?",
    "I stirred 20 g of salt into 180 g of water, then another 20 g of salt. What percentage is it?",
    "I dissolved 200 g of sugar in 300 g of water. Brix after boiling 100 g of water away?",
    "SODA 10 l / 4 VOL / SYRUP CONTENT ___ kg",
    "the mix came out at 20% and it was 50 ml of spirit to 100 ml of juice. so how strong was the spirit?",
    "the sour costs me 2.40 to make, what do i sell it 4",
]
"""Two currencies and no rate; a tare; water raises no strength; above the rated size or number; a vessel that is not
made for gas; salt that was added later; water that was boiled away; nothing that is weighed; a
name and a ratio that differ; the strength of a line; no target."""


@pytest.fixture(scope="module")
def talk(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """A conversation with everything that the bar's plugins know."""
    return Conversation(Kernel(tmp_path_factory.mktemp("cache")))


@pytest.mark.parametrize(("text", "values"), [*FORMS, *RELATIONS, *FOR_EACH])
def test_told(talk: Conversation, text: str, values: dict[str, float]) -> None:
    """The first thing asked comes first, and every value is right within a third of a percent."""
    reply = talk.answer(text, State())[0].to_json()
    found = {v["name"]: v["value"] for v in reply["answer"]}
    assert reply["status"] == "answered", reply["text"]
    assert next(iter(found)) == next(iter(values))
    assert {n: found.get(n) for n in values} == pytest.approx(values, rel=0.003)


@pytest.mark.parametrize(("text", "value", "sign"), MONEY)
def test_money(talk: Conversation, text: str, value: float, sign: str) -> None:
    """A price comes out in the currency that is asked for."""
    reply = talk.answer(text, State())[0].to_json()
    assert reply["answer"][0]["value"] == pytest.approx(value), reply["text"]
    assert f"{sign}{value:.2f}" in reply["text"]


@pytest.mark.parametrize("text", NO_NUMBER)
def test_no_number(talk: Conversation, text: str) -> None:
    """It asks or declines where a number would be a guess or a danger."""
    reply = talk.answer(text, State())[0].to_json()
    assert reply["status"] in ("asks", "declined"), reply["text"]
