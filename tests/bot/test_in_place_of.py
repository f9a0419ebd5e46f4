"""One thing in another's place, and the part that a number plays: which is given up, what there was, what shall be.

The sentences are our own; sums are worked by hand beside each group.  Sugar in a millilitre of syrup at 20 °C is of
ICUMSA SPS-4 (0.6148 g at 50 °Bx, 0.8845 g at 66.67); molar masses are those of IUPAC's atomic weights, as in
`acids.csv`.  That simple is 1:1 and rich 2:1 by weight is common practice, no source.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from stillroom_bot.state import State
from turns import Asks, Declined, Told, holds

SIMPLE, RICH = 0.6148, 0.8845  # g of sugar in 1 ml: ICUMSA SPS-4
CITRIC, MALIC, TARTARIC, LACTIC = 192.124 / 3, 134.087 / 2, 150.087 / 2, 90.078  # g for a mole of acid hydrogen

SYRUPS = [
    Told("swap 30 ml of simple syrup for rich syrup", 30 * SIMPLE / RICH, "milliliter"),
    Told("swapping simple for rich, recipe has 30 ml, how much", 30 * SIMPLE / RICH, "milliliter"),
    Told("substitute rich syrup for 30 ml of simple", 30 * SIMPLE / RICH, "milliliter"),
    Told("i have only rich syrup, recipe says 45 ml simple syrup", 45 * SIMPLE / RICH, "milliliter"),
    Told("3/4 oz simple in the spec but only have 2:1, how much do i pour", 0.75 * SIMPLE / RICH, "fluid_ounce"),
    Told("sub 20ml rich syrup w simple syrup", 20 * RICH / SIMPLE, "milliliter"),
    Told("we ran out of rich syrup, spec is 15 ml rich, how much simple instead", 15 * RICH / SIMPLE, "milliliter"),
]
ACIDS = [
    Told("recipe says 50 g citric, i only have malic", 50 * MALIC / CITRIC, "gram"),
    Told("substitute lactic for 20 g of citric acid", 20 * LACTIC / CITRIC, "gram"),
    Told("how much malic instead of 30 g citric", 30 * MALIC / CITRIC, "gram"),
    Told("tartaric instead of 10 g citric", 10 * TARTARIC / CITRIC, "gram"),
]
RATIOS = [
    Told("got 1.2kg rich syrup, want it 1:1. water?", 400, "gram"),
    Told("turn 800 g of rich into simple, water?", 800 / 3, "gram"),
    Told("thin 1.5 kg of 2:1 syrup to 1:1, how much water", 500, "gram"),
    Declined("turn 800 g of simple into rich, how much water?"),
]
"""1.2 kg of 2:1 is 800 g of sugar in 400 g of water: as much water again."""
STRENGTHS = [
    Told("1.5 L at 30% from 95% alcohol. how much of the 95", 1500 * 30 / 95, "milliliter"),
    Told("i want 2 l at 25% out of 60% rum, how much rum", 2000 * 25 / 60, "milliliter"),
    Told("8 oz highball, want it at 12 percent alcohol, whiskey is 90 proof. ounces of whiskey?", 8 * 12 / 45,
         "fluid_ounce"),
    Told("8 oz highball at 12% from 90 proof whiskey, oz whiskey?", 8 * 12 / 45, "fluid_ounce"),
    Told("pitcher of 2 l that should come in at 10 %, rum is 40 %, how much rum", 500, "milliliter"),
    Declined("Exercise 4: what volume of water must be added to 500 ml of a 40% spirit in order to obtain 60%?"),
]
"""The alcohol of the whole over the strength of the spirit."""
AMOUNTS = [
    Told("simple syrup 2 litres", 2000 * SIMPLE, "gram"),
    Told("rich syrup 1.5 kg", 1000, "gram"),
    Told("saline 15 percent w/v 400ml", 60, "gram"),
    Told("2 oz kosher salt in 14 oz water, both on the kitchen scale. What percent brine is that?", 12.5, "percent"),
    Told("party of 60, 2 drinks per person, 120 ml each: total batch in litres", 14.4, "liter"),
    Told("how many bottles 750 for 35 drinks of 2 oz gin", 3, "count"),
    Told("methylcellulose 1.5% for 400 g, xanthan 0.3%", 6, "gram"),
    Told("bottle's 28 for 70cl, what's 50ml cost", 2, "currency"),
    Asks("coffee 1:6 into rum, 2.5 kg rum, how much coffee", ("1", "weight", "volume")),
]
"""Said alone, an amount asks for what goes into it: sugar, salt; 2 / 16; 60 x 2 x 120 ml; 28 / 14; 35 x 59.1 / 750
(two fluid ounces in millilitres: NIST Handbook 44, Appendix C)."""


@pytest.mark.parametrize("turn", [*SYRUPS, *ACIDS, *RATIOS, *STRENGTHS, *AMOUNTS], ids=lambda t: t.text[:40])
def test_a_question(talk: Conversation, turn: Told | Asks | Declined) -> None:
    holds(talk, [turn])


@pytest.mark.parametrize("text", [
    "swap my siphon for a bigger one", "instead of stirring i shake", "we are out of ice, what now",
    "use the rich one", "peel 300g lemon sugr?", "peel 200 g orange sugar?",
])
def test_no_number_where_nothing_is_exchanged(talk: Conversation, text: str) -> None:
    assert talk.answer(text, State())[0].status in ("asks", "declined", "noted")


def test_drops_are_no_percent(talk: Conversation) -> None:
    """Drops that are asked for are not answered with a strength, whatever was asked before."""
    holds(talk, [Told("saline 15% w/v 400 ml salt?", 60, "gram"), Asks("drops in a 90 ml drink for .1 g salt", ("",))])
