"""Batches, bottles and money as they are asked about behind a bar, each table one way of putting it.

The sentences are our own; what must not be read so stands beside it.  Sums are worked by hand beside each group;
volumes add, and a price is one before tax (common practice, no source).
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from turns import Asks, Told, Turn, holds, measures

Row = tuple[str, float, str]

WATER_COUNTED: list[Row] = [
    ("I want precisely 1.5 l in the jug, water included. A serve consists of 50 ml gin, 25 ml vermouth, 25 ml water. "
     "Gin?", 750, "milliliter"),
    ("we bottle 2 l, dilution already in: 45 ml rye 25 ml vermouth 30 ml water is one drink. rye?", 900, "milliliter"),
    ("One drink has 40 ml brandy, 20 ml sherry and 20 ml water. I fill a carafe of 1.6 l, the water counted. "
     "How much of each?", 800, "milliliter"),
    ("50 ml gin and 25 ml vermouth, dilution 20 % included, 40 serves: how much water?", 600, "milliliter"),
]
"""Half of 1.5 l; 0.45 of 2 l; half of 1.6 l.  Near by, a dilution that is told as a share: 20 % of 3 l."""
IS_ONE: list[Row] = [
    ("40 ml gin, 10 ml liqueur, 10 ml lemon make one serve. 30 serves: gin?", 1200, "milliliter"),
    ("vodka 40 ml, lime 20 ml, syrup 20 ml is one cocktail. I fill a jug of 2 l. Vodka, in ml?", 1000, "milliliter"),
    ("one drink contains 30 ml rum and 60 ml juice. 2.7 l in total: rum?", 900, "milliliter"),
    ("40 ml gin, 20 ml lemon for one drink, 25 of them. gin?", 1000, "milliliter"),
]
"""30 x 40; half of 2 l; a third of 2.7 l; 25 x 40."""
GUESTS_BESIDE: list[Row] = [
    ("The reception (40 guests) shall have 6 litres in total: 2 parts gin, 1 part syrup, 3 parts tea. "
     "Gin, in litres?", 2, "liter"),
    ("The reception (40 guests) shall have 6 litres in total of this drink: 40 ml gin, 20 ml syrup, 60 ml tea. "
     "Gin, in litres?", 2, "liter"),
    ("Good day, our wedding (a party of 80) drinks this: 40 ml gin, 20 ml lemon, 20 ml syrup. "
     "How much gin for everyone?", 3200, "milliliter"),
]
"""A third of 6 l, whoever comes; where no total is told, 80 x 40."""
SAID_BESIDE: list[Row] = [
    ("60 drinks, 35 ml of rum, bottles of 70 cl. Bottles. Just the number, nothing else.", 3, "count"),
    ("Our drink is priced at 11.50 and holds 40 ml rum, 20 ml lime, 20 ml syrup. It is for 90 people. Rum in litres?",
     3.6, "liter"),
    ("please multiply for 20 guests: 50 ml rum, 20 ml lime, 20 ml syrup", 1000, "milliliter"),
]
"""60 x 35 / 700; 90 x 40; 20 x 50."""
BY_THEIR_SIZE: list[Row] = [
    ("45 palomas, 2 oz tequila in each. How many 750s?", 4, "count"),
    ("750s of bourbon for 80 cocktails at 2 oz a pop?", 7, "count"),
    ("how many 700s of gin for 90 serves of 35 ml", 5, "count"),
    ("we have six 750s of rum, how many 2 oz pours is that?", 76, "count"),
    ("How many bottles of 1 liter lime juice must be bought, when are 130 drinks with 25 ml?", 4, "count"),
    ("how many bottles à 0.7 l of rum for 60 drinks with 4 cl", 4, "count"),
]
"""90 oz are 2.66 l; 160 oz are 4.73 l; 3.15 l; 4.5 l are 152 oz; 3.25 l; 2.4 l."""
HOW_MANY: list[Row] = [
    ("how many can I make: 1.2 l rum, 60 ml each", 20, "count"),
    ("got 900 ml of lime, 25 ml a go. how many can I do", 36, "count"),
    ("We have 2 l of rum and the drink is 40 ml rum, 20 ml lime, 20 ml syrup - how many can we pour before it's gone?",
     50, "count"),
    ("45 vodka, 30 liqueur (ml). how many serves in a 3 l jug?", 40, "count"),
    ("40 rum, 20 lime, 20 syrup (ml): rum for 25 serves in cl?", 100, "centiliter"),
    ("We've four 700 ml bottles of rum. Are we right for 60 serves at 40 ml, or how many does it stretch to?", 70,
     "count"),
    ("2 parts rum, 1 part lime, 1 part syrup, I have 900 ml of rum. how many drinks of 90 ml?", 20, "count"),
]
"""1200 / 60; 900 / 25; 2000 / 40; 3000 / 75; 25 x 40; 2800 / 40; 1800 / 90."""
HOW_MUCH_DRINK: list[Row] = [
    ("2 parts rum, 1 part lime and 1 part syrup. I use up 900 ml of rum. How much drink does that make?", 1800,
     "milliliter"),
    ("60 ml gin, 20 ml vermouth for 30 serves, how much punch is that", 2400, "milliliter"),
    ("2 parts rum, 1 part lime, 1 part syrup, I have 900 ml of rum. how much lime?", 450, "milliliter"),
    ("per litre 20 g citric, 10 g malic, I have 50 g of malic left. how many litres?", 5, "liter"),
    ("recipe per litre: 30 g citric, 10 g tartaric. only 75 g citric there. how much tartaric?", 25, "gram"),
]
"""Twice 900; 30 x 80; half of 900; 50 / 10; a third of 75."""
STILL_OPEN: list[Row] = [
    ("45 ml each for 80 guests, bottles of 70 cl: what's left in the open bottle at the end?", 600, "milliliter"),
    ("30 guests get 50 ml of sherry each from 75 cl bottles. How much is still in the opened bottle?", 0, "milliliter"),
    ("40 drinks with 30 ml gin in each, 70 cl bottles to buy. How many do we open?", 2, "count"),
]
"""6 bottles hold 4.2 l, 3.6 l are poured; 1.5 l are two bottles; 1.2 l."""
POUR_COST: list[Row] = [
    ("700 ml bottle at 28, 50 ml pour, sold at 10 net. pour cost in %?", 20, "percent"),
    ("bottle of 70 cl for 21.00, pour 40 ml, goes for 12.00. pour cost?", 10, "percent"),
    ("ingredients are 2.20, sells at 11 before tax. what do we make on each?", 8.8, "currency"),
    ("A 700 ml bottle is 28.00. What does a pour of 50 ml cost?", 2, "currency"),
    ("cost 3, 25% pour cost, vat 20, menu price?", 14.4, "currency"),
]
"""2 of 10; 1.20 of 12; 11 less 2.20; 28 x 50 / 700; 12 x 1.20."""
RICH_SIMPLE: list[Row] = [
    ("60 ml rye and 10 ml rich simple, how many grams of sugar in it", 8.846, "gram"),
    ("60 ml rye and 10 ml simple, how many grams of sugar in it", 6.148, "gram"),
]
"""10 ml of syrup at 66.67 °Bx weigh 13.268 g, at 50 °Bx 12.296 g (ICUMSA)."""
IN_SHORTHAND: list[Row] = [
    ("22 bottle 700 pour 35 cost", 1.1, "currency"),
    ("bottle 750 at 30, pour 50, cost?", 2, "currency"),
    ("rye 36/750, 25 pour, cost", 1.2, "currency"),
    ("vodka 1000 at 19, pour 40 ml. what does it cost?", 0.76, "currency"),
    ("cost of 700 g sugar at 1.20 per kg", 0.84, "currency"),
    ("Rum 40 ml @ 20/L\nsherry 20 ml @ 15/L\ncost / drink ?", 1.1, "currency"),
]
"""22 x 35 / 700; 30 x 50 / 750; 36 x 25 / 750; 19 x 40 / 1000.  Near by, 0.7 kg at 1.20; 0.80 and 0.30."""
LISTED_SUMS: list[Row] = [
    ("cost card: vodka 0.90 / lime 0.25 / ginger beer 0.60 / cost of the drink =", 1.75, "currency"),
    ("rum 1.04, lime 0.20, syrup 0.06. net price 6.50. pour cost %?", 20, "percent"),
    ("2 rum, 1 lime, 1 syrup: rum for 2 l in all?", 1000, "milliliter"),
]
"""The sum of the three; 1.30 of 6.50.  Near by, parts: half of 2 l."""
WHAT_EACH_COSTS: list[Row] = [
    ("the punch costs 54.00 and comes to 1.50 a glass. how many glasses does it give?", 36, "count"),
    ("1.20 a serve, 30 serves. whole batch costs?", 36, "currency"),
    ("On paper it is 1.90, the stocktake says 2.00. What share are we losing?", 5, "percent"),
    ("60 sold at 8.50. takings?", 510, "currency"),
    ("Paid 36.00 for 24 bottles of tonic. What is that per bottle?", 1.5, "currency"),
    ("The saffron costs 3000 euro the kilo. For 6 euro how many grams do I get?", 2, "gram"),
    ("They quote 30.00 per litre. What's that for the 700 ml bottle?", 21, "currency"),
]
"""54 / 1.5; 30 x 1.2; 1 - 1.9 / 2; 60 x 8.5; 36 / 24; 6 / 3; 30 x 0.7."""
OF_ALL: list[Row] = [
    ("32 drinks of 1.5 oz tequila, how much tequila", 48, "fluid_ounce"),
    ("70 guests, 40 ml of sherry each. How much sherry in total?", 2800, "milliliter"),
    ("20 drinks of 50 ml gin, 25 ml lemon, 25 ml syrup: gin?", 1000, "milliliter"),
    ("50 guests with 40 ml of aperitif, 70 cl bottles, how many bottles?", 3, "count"),
]
"""32 x 1.5; 70 x 40.  Near by, a spec for twenty, and 2 l in bottles."""
ALL: list[Row] = [*WATER_COUNTED, *IS_ONE, *GUESTS_BESIDE, *SAID_BESIDE, *BY_THEIR_SIZE, *HOW_MANY, *HOW_MUCH_DRINK,
                  *STILL_OPEN[::2], *POUR_COST, *RICH_SIMPLE, *IN_SHORTHAND, *LISTED_SUMS,
                  *WHAT_EACH_COSTS, *OF_ALL]
NO_NUMBER = [
    "we lose 15 % of 3.6 litres in the filter. how many ml is that?",
    "2 parts rum, 1 part lime, 1 part syrup, I have 900 ml of rum. how many drinks?",
]
"""A share of an amount is not that amount in another unit; how many drinks there are depends on their size."""


@pytest.mark.parametrize(("said", "value", "unit"), ALL)
def test_it_is_worked_out(talk: Conversation, said: str, value: float, unit: str) -> None:
    measures(talk, said, value, unit)


@pytest.mark.parametrize("said", NO_NUMBER)
def test_it_is_asked_back(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "asks"


DIALOGUES: dict[str, list[Turn]] = {
    # mass balance at 20 °C: 1333.3 ml of 45 % weigh 1252 g, 1500 ml of 40 % 1422.1 g, each less 909.1 g of the rum
    # (OIML R 22, the densities from memory)
    "what is too strong gives way to what is said beside it": [
        Told("1 l of 60 % rum to 45 %. How much water?", 343.6, "milliliter", 0.01),
        Told("Could I have 40 instead? Three of us find 45 a bit strong.", 513.9, "milliliter", 0.01),
        Told("And how much liquid shall I have in total then?", 1500, "milliliter"),
    ],
    # 3.00 / 0.20, then 3.00 / 0.24
    "a target that somebody wants": [
        Told("ingredients 3.00, sold at 15 before tax. pour cost in %?", 20, "percent"),
        Told("the owner wants 24. what price then", 12.5, "currency"),
    ],
    # 28 x 35 / 700; 21 x 35 / 700; 18 x 25 / 750
    "a bottle in shorthand, after a pour": [
        Told("700 at 28, pour 35 ml, cost?", 1.4, "currency"),
        Told("what if 21/700", 1.05, "currency"),
        Told("18 bottle 750 pour 25 cost", 0.6, "currency"),
    ],
    "ice that melts into a drink is that of stirring or shaking": [
        Asks("90 ml at 28 %, how much will the ice melt into it?", ("stir", "shak")),
        # 90 x (-1.21 x 0.28² + 1.246 x 0.28 + 0.145), common practice
        Told("stirred", 90 * (-1.21 * 0.28**2 + 1.246 * 0.28 + 0.145), "milliliter"),
    ],
}


@pytest.mark.parametrize("turns", DIALOGUES.values(), ids=DIALOGUES.keys())
def test_a_talk_goes_on(talk: Conversation, turns: list[Turn]) -> None:
    holds(talk, turns)
