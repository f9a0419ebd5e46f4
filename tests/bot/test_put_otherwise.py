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
PUT_TOGETHER: list[Row] = [
    ("mixed 2 litres of punch with 500 ml of milk. what's the drink to milk ratio?", 4, "dimensionless"),
    ("Last night I combined 1.5 l milk with 6 l of cocktail. Which ratio drink to milk is it?", 4, "dimensionless"),
    ("combined 900ml drink w 300ml milk ratio??", 3, "dimensionless"),
    ("i put together three pints of grog with one pint of milk so what ratio of drink to milk is that", 3,
     "dimensionless"),
    ("Please be so kind: 5 l of the batch were combined with 1 l of milk. Drink : milk ratio?", 5, "dimensionless"),
    ("one gallon punch combined with one quart milk, ratio of drink to milk?", 4, "dimensionless"),
    ("total of 5 l with 1 l of milk in it, drink to milk ratio?", 4, "dimensionless"),
    ("combined punch and milk is 2.5 l, milk 500 ml, what ratio drink to milk", 4, "dimensionless"),
]
"""What is combined with what is no total: 2/0.5; 6/1.5; 900/300; 3/1; 5/1; 4/1.  Near by, totals: (5 - 1)/1; 2/0.5."""
WANTED_FIRST: list[Row] = [
    ("For the bar I need honey syrup of 50 °Bx, and I have honey 80 °Bx, it is 2 kg. How much water to add?", 1200,
     "gram"),
    ("I want a honey syrup of 40 brix. My honey is 82 brix, 1 kg of it. Water to add?", 1050, "gram"),
    ("need agave syrup at 45 bx, got 900 g agave at 75 bx, how much water", 600, "gram"),
    ("Wanted: syrup of 55 °Bx. In stock: syrup of 66 °Bx, 3 kg. Water to add?", 600, "gram"),
    ("i need maple syrup at 44 bx out of maple 66 bx 600 g how much h2o", 300, "gram"),
    ("She prefers a simple syrup of 40 brix; the tub is 50 brix, 2 kg. Water?", 500, "gram"),
    ("need honey at 60 brix from honey at 80 brix, 30 oz by weight, how many oz water?", 10, "ounce"),
    ("Hi team, house spec wants a honey syrup of 52 °Bx; delivered honey: 78 °Bx, 1.2 kg. Water, g?", 600, "gram"),
    ("I need to thin a syrup of 60 brix to 40 brix, 1 kg, how much water?", 500, "gram"),
    ("we like the syrup of 60 brix but this one is 50 brix, 1 kg, sugar to add?", 250, "gram"),
]
"""Sugar stays: 2 x 80 / 50 - 2; 82/40 - 1; 0.9 x 75 / 45 - 0.9; 3 x 66 / 55 - 3; 0.6 x 66 / 44 - 0.6; 2 x 50 / 40 - 2;
30 x 80 / 60 - 30; 1.2 x 78 / 52 - 1.2; 1.5 - 1.  Near by, sugar to add: 0.5 kg of water are 40 % of 1.25 kg."""
TOLD_APART: list[Row] = [
    ("Our beekeeper brought jars 3 to 8, in total 1.5 kg of honey at 80 brix. I want a 50 brix syrup. Water?", 900,
     "gram"),
    ("jars 14-19, altogether 2.4 kg of honey at 81 brix, needs to be 45 brix: water?", 1920, "gram"),
    ("Honey came in jars 4 to 9: 1.2 kg, which the meter puts at 80 brix. The chef prefers a honey syrup of 48 brix. "
     "How much water should go in, please?", 800, "gram"),
    ("kegs 2 to 5 are done. now 600 g of 10 % saline: salt?", 60, "gram"),
    ("For jugs 2-4 we make 1.5 l of tomato juice with agar at 0.8 %. Agar?", 12, "gram"),
    ("demijohns 1 to 3 get cocoa at 40 g/l, 2 litres of rum in total: cocoa?", 80, "gram"),
    ("cases 7 to 9 hold the limes. 2 l of lime juice at 30 ml a lime, how many limes?", 67, "count"),
    ("bottles: 2 to open, 700 ml each; 50 ml pours: how many pours?", 28, "count"),
    ("parts 2 to 1 sugar to water, 1.2 kg syrup, sugar?", 800, "gram"),
]
"""Numbers of jars: 1.5 x 80 / 50 - 1.5; 2.4 x 81 / 45 - 2.4; 1.2 x 80 / 48 - 1.2; 10 % of 600; 8 x 1.5; 40 x 2;
2000 / 30.  Near by, 1400 / 50 and two thirds of 1.2 kg."""
FULL: list[Row] = [
    ("My jug is 2 litres and should come out at 12% ABV. How many ml of 40% vodka is that?", 600, "milliliter"),
    ("The bowl holds 5 l and has to land at 10 % ABV. How much 40% rum?", 1250, "milliliter"),
    ("pitchers 60 oz, want 20% abv. oz of 80 proof gin?", 30, "fluid_ounce"),
    ("my dispenser takes 8 litre and must be at 15 % abv, how many litres of 60 % spirit is it", 2, "liter"),
    ("I'd like the 3 litre carafe to land at 16 % ABV - how much 48 % gin would that be, please?", 1000, "milliliter"),
    ("my jug's two litres and i want it at twenty percent how many mils of fifty percent vodka is that", 800,
     "milliliter"),
    ("keg is 19 l, target 8% ABV, ml of 38% spirit?", 4000, "milliliter"),
    ("a 96 oz pitcher at 10% abv takes how many oz of 80 proof whiskey", 24, "fluid_ounce"),
    ("The jug of 60% rum is 2 litres, how much water to get it to 40%?", 1027.76, "milliliter"),
    ("I have 64 fl oz of 80 proof tequila and it should land at 15% ABV. How much water is that?", 106.595,
     "fluid_ounce"),
]
"""Ethanol over what is full: 2 x 12 / 40; 5 x 10 / 40; 60 x 20 / 40; 8 x 15 / 60; 3 x 16 / 48; 2 x 20 / 50; 19 x 8 /
38; 96 x 10 / 40.  Near by, water to a spirit, twice 513.88 and 64 times 1.66555, by the densities of OIML R 22."""
OF_EACH_ONE: list[Row] = [
    ("There are 40 oranges in the box and of each one I take 12 g of peel. Total peel in grams?", 480, "gram"),
    ("of every one of the 45 lemons we zest 6 g. grams of zest in total?", 270, "gram"),
    ("i've got 18 lemons n get 9g zest off each one, grams total pls", 162, "gram"),
    ("The box holds 100 limes; each one yields 28 ml of juice. Litres of juice?", 2.8, "liter"),
    ("For a tasting, kindly calculate: 15 grapefruits, of each one 22 g of peel. Total peel?", 330, "gram"),
    ("how many grams of peel is it if each one of my 16 oranges gives 11 g", 176, "gram"),
    ("We have eighty lemons, each gives five grams of zest. The total of zest please?", 400, "gram"),
    ("each one litre bottle costs £20, what's a 50 ml pour?", 1, "currency"),
    ("of 60 lemons I got 480 g of zest, how much each one?", 8, "gram"),
]
"""So many times so much.  Near by, a litre bottle, and 480 / 60."""
WHAT_PERCENT: list[Row] = [
    ("somebody poured 50 g salt in 450 g water and labelled it SALINE with no strength. what % is it", 10, "percent"),
    ("30 g salt went in 570 g water, what % is it?", 5, "percent"),
    ("What % is it if 25 g malic acid went into 475 g water", 5, "percent"),
    ("the new guy dissolved 200 g of salt in 800 g of water; which % shall I write on the bottle?", 20, "percent"),
    ("I found a jar: 60 g salt in 940 g water. what percent do i write on the label", 6, "percent"),
    ("If I dissolve 40 g of sugar and finish with 500 g of solution, how much water did I use and what % is it?", 460,
     "gram"),
    ("90g salt in 1.41 kg water, what does it weigh all together?", 1500, "gram"),
]
"""Of the solution: 50/500; 30/600; 25/500; 200/1000; 60/1000.  Near by, water of 500 g and 90 + 1410."""
LABELLED: list[Row] = [
    ("70 cl rum, 40 on the label. how many uk units in the bottle", 28, "count"),
    ("750 ml wine, label says 13. UK units?", 9.75, "count"),
    ("330ml beer, 5 on the can. uk units?", 1.65, "count"),
    ("a litre of rum with 43 on the label, how many UK units does it hold?", 43, "count"),
    ("Kindly compute the UK units in 70 cl of whisky; the label says 46.", 32.2, "count"),
    ("50 ml gin, 45 on the label, 150 ml tonic: abv of the glass?", 11.25, "percent"),
    ("700 ml of brandy, 38 on the label: grams of alcohol?", 209.94, "gram"),
    ("table 12 on the list, 50 ml gin at 40 %, UK units?", 2, "count"),
    ("700 ml gin, £18 on the label, 25 ml pour, cost of a pour", 0.6429, "currency"),
]
"""UK units of 10 ml of ethanol: 700 x 0.4; 750 x 0.13; 330 x 0.05; 1000 x 0.43; 700 x 0.46; 50 x 0.45 / 200; 266 ml at
0.78924 g/ml (OIML R 22).  Near by, 20 ml of ethanol and 18 x 25 / 700."""
BOUGHT: list[Row] = [
    ("Litre bottle of vodka's 20 quid. cost of a 25 ml measure?", 0.5, "currency"),
    ("our 75 cl bottle of wine's $15, how much does a 150 ml glass cost us", 3, "currency"),
    ("A litre of gin costs us 24 euros. How much is 40 ml of it?", 0.96, "currency"),
    ("Litre bottle of tequila is £40: how much does 50 ml of it cost?", 2, "currency"),
    ("Our litre bottle of vermouth is 15 euros. What does a 60 ml pour cost?", 0.9, "currency"),
    ("litre bottle gin, £28. cost of 50ml?", 1.4, "currency"),
    ("A 70 cl bottle of amaro costs us €28. How much is a 25 ml measure of it?", 1, "currency"),
    ("a 50 ml pour costs £1.50 from a 700 ml bottle. what did the bottle cost?", 21, "currency"),
    ("litre siphon, 3 fills: how many chargers?", 6, "count"),
]
"""Price x pour / bottle.  Near by, what the bottle cost, 1.50 x 14, and two chargers a fill."""
ALL: Sequence[Row] = [*OF_A_POWDER, *BEFORE_ICE, *ONE_TOLD, *INCLUDED, *PUT_TOGETHER, *WANTED_FIRST, *TOLD_APART, *FULL,
                      *OF_EACH_ONE, *WHAT_PERCENT, *LABELLED, *BOUGHT]
HISTORY = [
    "I am told that they clarify with milk: since when, and who was the first?",
    "when was the siphon invented and by whom",
    "since when do people put egg white in sours",
    "When were the first cocktails made?",
    "by whom was the soda siphon invented, please?",
]
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


@pytest.mark.parametrize("said", HISTORY)
def test_no_measure_answers_who_was_the_first(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "declined"
