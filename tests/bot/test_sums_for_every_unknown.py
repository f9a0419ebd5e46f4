"""Batches, costs and dilution asked for every unknown in everyday words: one table each, with near misses.

The sentences are our own; the sums are worked beside each table.  Volumes add, a loss divides, serves that a supply
allows are whole ones, prices are before tax unless tax is said to be in them (common practice, no source).
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation

from tests.turns import Asks, Declined, Told, Turn, holds

POURED: list[Turn] = [
    Told("a litre of gin sets us back 30 and we pour 40 ml. what's one pour worth?", 1.2, "currency"),
    Told("70 cl rum, €21, 50 ml goes in. cost?", 1.5, "currency"),
    Told("a 50 ml pour may cost 2.00 and the bottle holds 700 ml, how much can I pay for a bottle?", 28, "currency"),
    Told("bottle 700 ml is 42.00. how big a pour for 2.40?", 40, "milliliter"),
    Told("my pour of 40 ml costs 2.00 and the bottle was 35.00: how big is the bottle in ml?", 700, "milliliter"),
    Told("bottle's 40 quid for 70cl, i want the pour at 2 quid. how many ml", 35, "milliliter"),
    Told("at 30 a litre what does a 70 cl bottle come to?", 21, "currency"),
    Told("how many ml do i get for 10 euro at 25 euro per litre", 400, "milliliter"),
    Told("a 700 ml bottle costs 35.00, we pour 40 ml at a target of 20 %. price of the drink before tax?", 10,
        "currency"),
    Told("bottle of 750 ml for 30.00, 50 ml pour sold for 10.00 net: pour cost?", 20, "percent"),
    Told("a 750 ml bottle at 22.50, 40 ml pour, what does the pour cost?", 1.2, "currency"),
]
"""30 / 25; 21 / 14; 2 x 14; 700 / 42 x 2.4; 35 / 2 x 40; 700 / 20; 30 x 0.7; 10 / 25 l; 2 / 0.2; 2 / 10.  Near by, a
plain pour: 22.5 x 40 / 750."""
PIECES: list[Turn] = [
    Told("the coffee's 22 a kilo, each drink takes 18 g. cost per drink?", 0.396, "currency"),
    Told("saffron is 6000 euro the kilo, what do 2 g of it cost?", 12, "currency"),
    Told("25 chargers cost 15.00. what's the price of one charger?", 0.6, "currency"),
    Told("the invoice says 96.00 for 4 cases, how much a case?", 24, "currency"),
    Told("how many lemons can i buy for 12 euro at 0.40 each?", 30, "count"),
    Told("grapefruits cost 1.20 and yield 150 ml. what do i pay for a litre of grapefruit juice?", 8, "currency"),
    Told("if a litre of lime juice costs us 12.00 and a lime gives 25 ml, what did we pay per lime?", 0.3, "currency"),
    Told("a lime for 32 cents makes 8 wedges, what's one wedge?", 0.04, "currency"),
    Told("wedges cost me 4 cents, 8 to a lime. what's a lime?", 0.32, "currency"),
    Told("the batch comes to 72.00 for 48 portions, how much is a portion?", 1.5, "currency"),
    Told("2.20 a drink, 30 drinks. what does the whole batch cost?", 66, "currency"),
    Asks("Three vanilla pods a litre. The vat is eight litres. Pods? At 2.50 each, cost?", ("litre", "pods", "pieces")),
    Declined("can somebody bring us the bill?"),
]
"""0.018 x 22; 0.002 x 6000; 15 / 25; 96 / 4; 12 / 0.4; 1.2 / 0.15 l; 12 / 40 limes; 0.32 / 8; 8 x 0.04; 72 / 48;
30 x 2.2.  Near by, pods for each litre are no three pods in all."""
EARNED: list[Turn] = [
    Told("a drink costs us 1.80 and goes out at 9.00 before tax: what do we make on each?", 7.2, "currency"),
    Told("a round is £30 with 20 % VAT in it. how much of it is the VAT?", 5, "currency"),
    Told("net price 11, with 20 % tax what goes on the menu?", 13.2, "currency"),
    Told("sold at 10.00 each and costing 2.50 each, how many do we have to sell to earn 600?", 80, "count"),
    Told("120 drinks at 9.00, what do we take?", 1080, "currency"),
    Told("64 sold at 8.50. takings?", 544, "currency"),
    Told("we spent 200.00 on 80 drinks and took 880.00. profit?", 680, "currency"),
    Told("on paper a sour costs 1.90, actually 2.00. what percent are we losing?", 5, "percent"),
]
"""9 - 1.8; 30 x 0.2 / 1.2; 11 x 1.2; 600 / 7.5; 120 x 9; 64 x 8.5; 880 - 200; 1 - 1.9 / 2."""
WATERED: list[Turn] = [
    Told("we stir 80 ml of a 32 % mix. what does the glass hold after?", 113.585, "milliliter"),
    Told("share of water in a stirred drink that was 30 % before?", 29.073, "percent"),
    Told("stirring 30 %: water as a percentage of the finished drink?", 29.073, "percent"),
    Told("I want 18 % in the glass after shaking. what strength must the mix have?", 28.263, "percent"),
    Told("1.2 l mix + 300 ml water = ? ml", 1500, "milliliter"),
    Told("2 l batch + 15 % dilution = ? l", 2.3, "liter"),
    Told("add 20 % water to 5 l, what's the total?", 6, "liter"),
    Told("a 3 litre jar, water is 20 % of the finished jar. how much mix goes in?", 2.4, "liter"),
    Told("25 % dilution and it's 20 % in the glass. what was it before?", 25, "percent"),
    Told("I've 900 ml in the bottle and it's 25 % diluted. what was it before the water?", 720, "milliliter"),
    Told("4 l undiluted at 30 %, prediluted as if stirred, how many 110 ml pours?", 51, "count"),
    Told("how much water for a 3 l batch at 20 % dilution?", 600, "milliliter"),
    Told("ice to bring 2 litres of plain water from 20 °C to 0 °C, how many grams melt?", 501.05, "gram", 0.01),
]
"""Stirred dilution at a = 0.32 is 41.98 %, at 0.30 40.99 %, shaken 28.26 % gives 18 %; 40.99 / 140.99; 1200 + 300; 2 x
1.15; 5 x 1.2; 3 x 0.8; 20 x 1.25; 900 / 1.25; 4 x 1.4099 / 0.11; near by, 0.2 x 3 l.  2 l of water are 1996.4 g, and
give up what 501.05 g of ice take up to melt (the tables of ``physics``)."""
SERVED: list[Turn] = [
    Told("40 ml tequila, 20 ml lime, 20 ml agave - I only have 900 ml lime. How many can I do?", 45, "count"),
    Told("3 parts rum, 1 part lime, 1 part syrup, the rum is 1.5 l. total volume?", 2.5, "liter"),
    Told("40 ml gin, 20 ml vermouth for 25 serves, 20 % water. total?", 1800, "milliliter"),
    Told("50x: 40 rum / 20 lime / 20 syrup, ml. batch total?", 4, "liter"),
    Told("45 ml vodka, 15 ml liqueur for 100 serves, 5 % stays in the lines. how much vodka?", 4736.842, "milliliter"),
    Told("made with 8 g citric and 2 g malic per litre, only 60 g citric left. how many litres?", 7.5, "liter"),
    Told("Three full 70 cl bottles and one that's a quarter full: how many 35 ml pours?", 65, "count"),
    Told("120 shots of 30 ml, 10 % gets lost. litres to make?", 4, "liter"),
    Told("10 l made, 8 % is lost in the cloth. how much do we get?", 9.2, "liter"),
    Told("200 ml of liqueur is for 16 drinks. I have only 75 ml. how many drinks can I make?", 6, "count"),
    Told("after 50 serves of 90 ml there's 1.5 l left. how much was there at the start?", 6, "liter"),
    Told("we started with 10 l and sold 62 drinks of 150 ml. what's left?", 0.7, "liter"),
    Told("12 bottles of 70 cl; every guest has 2 drinks of 40 ml. how many guests can we have?", 105, "count"),
    Told("3.6 l split over 12 bottles, ml in each?", 300, "milliliter"),
    Told("90 guests, one can of tonic each, 24 to a case. cases to buy?", 4, "count"),
    Told("60 ml gin plus 10 ml rich simple, how many grams of sugar are in it?", 8.845, "gram"),
    Asks("45 ml gin, 15 ml lime, the gin bottle is 700 ml. how many drinks in total?", ("not sure", "700")),
    Told("60 ml rum, 30 ml lime, 15 ml syrup. what's the total for 40 drinks?", 4200, "milliliter"),
]
"""900 / 20; 1.5 x 5 / 3; 60 x 25 x 1.2; 50 x 80; 4500 / 0.95; 60 / 8; 3.25 x 700 / 35; 120 x 30 / 0.9; 10 x 0.92; 75 x
16 / 200; 50 x 90 + 1500; 10 - 9.3; 8400 / 80; 3600 / 12; 90 / 24; 10 ml of rich syrup are 13.268 g at 66.67 °Bx (ICUMSA
SPS-4).  Near by, a bottle of one line is no whole; 40 x 105."""


@pytest.mark.parametrize("turn", [*POURED, *PIECES, *EARNED, *WATERED, *SERVED], ids=lambda t: t.text)
def test_said_alone(talk: Conversation, turn: Turn) -> None:
    holds(talk, [turn])
