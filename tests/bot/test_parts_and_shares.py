"""Parts of a drink without a name, equal parts, what a share is of, and what somebody only says (our own sentences).

Sums are worked by hand beside each group; volumes add.  The fits for ice, and the acids of juices (lime 6 g in 100 ml,
two parts citric to one malic; lemon 6, citric; grapefruit 2; pineapple 0.8), are common practice, no source.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from turns import ETHANOL, gives

Row = tuple[str, float, str]


def stirred(strength: float) -> float:
    """Water by volume of the drink before it."""
    return -1.21 * strength**2 + 1.246 * strength + 0.145


def shaken(strength: float) -> float:
    """The same, shaken."""
    return -1.567 * strength**2 + 1.742 * strength + 0.203


NAMELESS: list[Row] = [
    ("60 ml of 45 % and 40 ml of 20 %, what is the abv?", 35, "percent"),
    ("Cocktail: 45 ml at 40 %, 45 ml at 20 %. Stirred. Water gained, ml?", 90 * stirred(0.3), "milliliter"),
    ("Highball: 40 ml at 40 %, 20 ml at 20 %. Ethanol in g?", 20 * ETHANOL, "gram"),
    ("Serve: 50 ml at 44 %, 20 ml at 15 %, 30 ml juice. Ethanol, ml.", 25, "milliliter"),
    ("Blend 100 ml at 4.5 volumes with 50 ml at 1.5 volumes, no loss. Volumes?", 3.5, "dimensionless"),
    ("Before ice:\n50 ml rum, 40 %\n25 ml lime juice\n25 ml syrup\nABV = ?", 20, "percent"),
    ("2 cl of cold brew, 4 cl of 40 % rum: abv?", 160 / 6, "percent"),
    ("how much water takes 2 l at 50 % to 40 %?", 510.7, "milliliter"),
]
"""Ethanol over drink: 35/100; 27/90; 16 + 4; 22 + 3 ml; gas 525/150; 20/100.  Near by, one amount and two strengths:
2 l x (5/4 x 0.94806 - 0.93014) / 0.99820, densities of OIML R 22."""
EQUAL: list[Row] = [
    ("equal parts of a 40% rum and a 20% liqueur: what do they come out at?", 30, "percent"),
    ('the note says "equal parts": 45 % gin, 25 % bitter, 17 % vermouth. abv undiluted?', 29, "percent"),
    ("our drink of one ounce each of rum at 40 per cent, vermouth at 16 per cent and a bitter liqueur at 25 per cent: "
     "its strength before ice?", 27, "percent"),
    ("equl parts 42% mezcal, 30% amaro, 18% vermouth, 3cl each. abv undiluted?", 30, "percent"),
    ("1 litre of 50 per cent orange infusion plus 1 litre of syrup. What does it come out at?", 25, "percent"),
    ("equal parts lemon juice and pineapple juice: acidity of the blend?", 3.4, "percent"),
    ("equal parts of lime juice and orange juice, how sour is that in percent acid?", 3.4, "percent"),
    ("25 serves at 40 ml each: how many 70 cl bottles, and how much stays in the last one?", 2, "count"),
]
"""(40 + 20) / 2; (45 + 25 + 17) / 3; (40 + 16 + 25) / 3; (42 + 30 + 18) / 3; 50 / 2; (6 + 0.8) / 2 twice.
Near by, no list: 1000 / 700."""
BEFORE_AND_AFTER: list[Row] = [
    ("60 ml gin at 45 %, 30 ml vermouth at 15 %. What is the abv before ice, and what after stirring?", 35, "percent"),
    ("60 ml rum 40%, 30 ml lime, 30 ml syrup. strength after shaking?", 20 / (1 + shaken(0.2)), "percent"),
]
"""31.5 / 90, then after stirring; 24 / 120 over one and what shaking adds."""
OF_WHICH: list[Row] = [
    ("stirred mix of 26 % abv: state the water it takes up as a percentage of the final drink",
     100 * stirred(0.26) / (1 + stirred(0.26)), "percent"),
    ("stirred at 30%: water taken up as a percentage of what went in?", 100 * stirred(0.3), "percent"),
    ("a 500 ml bottle, water is 24 % of the finished bottle: how much mix?", 380, "milliliter"),
    ("the mix was 28% before the ice, my meter says 20% off the ice. dilution in percent?", 40, "percent"),
    ("The glass measured 18 %, water was added 25 % on the batch. What strength was the batch before?", 22.5,
     "percent"),
    ("1.2 l mix + 25 % dilution = ? l", 1.5, "liter"),
    ("manhattan 2 l @ 36%, add water a quarter of its vol, abv?", 28.8, "percent"),
    ("600 ml negroni 27% + water half its vol. abv now", 18, "percent"),
    ("cool 600 ml of tap water from 20 C to 0 C with ice at 0: grams of ice melted?", 150.3, "gram"),
]
"""Shares by the fits; 76 % of 500; 28 / 20; 18 x 1.25; 1.2 x 1.25; 36 / 1.25; 27 / 1.5; 600 ml x 0.9982 g/ml
x 4.18 J/(g K) x 20 K / 333.5 J/g, from memory, to half a percent."""
IN_ACIDS: list[Row] = [
    ("of the acid in 250 ml of lime juice, how much is malic?", 5, "gram"),
    ("how much of the acid in 2 l of lemon juice is citric?", 120, "gram"),
    ("Lime juice 600 ml. Of its acid, citric, g?", 24, "gram"),
    ("how much citric to bring 1 l of pineapple juice to lime strength", 52, "gram"),
    ("equal total acid: lime juice in place of 30 cl grapefruit juice. lime volume, ml?", 100, "milliliter"),
    ("500 ml pineapple juice → lime strength. Total acid, g; citric; malic.", 26, "gram"),
]
"""2 g, 6 g and 4 g in 100 ml; (6 - 0.8) x 10; 300 x 2 / 6; (6 - 0.8) x 5, which is then split."""
ONLY_SAID: list[Row] = [
    ("my boss reckons this is three UK units. it is 50 ml at 40 %. How many is it really?", 2, "count"),
    ("A guest swears it is 30 %. 100 ml of 40 % gin and 50 ml of juice: what strength is it really?", 80 / 3,
     "percent"),
    ("The label says 40 %. How many UK units are really in 700 ml of it?", 28, "count"),
]
"""20 ml of ethanol; 40/150.  What a label says is told: 280 ml."""
COUNTED: list[Row] = [
    ("using 8 gram CO2 cartridges, how many whole ones hold the gas for a five litre keg at 3 volumes, nothing lost?",
     4, "count"),
    ("A bowl of 3 l at 12 %. Every cup is to be 1.2 uk units, how many cups?", 30, "count"),
    ("how many cups are 2 litres?", 8.4535, "cup"),
]
"""5 x 3 x 1.977 / 8 is 3.7; 36 units of 10 ml of ethanol / 1.2.  A cup that nobody counts is a unit."""
WITH_SUGAR: list[Row] = [
    ("orange liqueur: 700 ml of 60 % infusion, 300 g of sugar, 400 ml of water. how strong is it?", 32.637, "percent"),
    ("4 cl vodka 40 %, 2 cl coffee liqueur 20 %, how strong is it?", 100 / 3, "percent"),
]
"""420 ml of ethanol in 1100 ml and 300 g x 0.623 ml/g (the bulk of sugar, ICUMSA); (1.6 + 0.4) / 6."""
ALL = [*WITH_SUGAR, *NAMELESS, *EQUAL, *BEFORE_AND_AFTER, *OF_WHICH, *IN_ACIDS, *ONLY_SAID, *COUNTED]


@pytest.mark.parametrize(("said", "value", "unit"), ALL)
def test_parts_and_shares_are_read_as_meant(talk: Conversation, said: str, value: float, unit: str) -> None:
    gives(talk, said, value, unit)


def test_the_acids_are_split_as_lime_has_them(talk: Conversation) -> None:
    """Two thirds and a third of (6 - 0.8) x 5."""
    reply, _ = talk.answer("500 ml pineapple juice up to lime acidity, the usual citric/malic blend. grams in all?")
    values = {v["name"]: v["value"] for v in reply.to_json()["values"]}
    assert (values["citric"], values["malic"]) == (pytest.approx(52 / 3), pytest.approx(26 / 3))


@pytest.mark.parametrize(
    "said",
    [
        "the mix was 24% before the ice and my meter says 27% off the ice. dilution in percent?",
        "4 l undiluted, 30 %, to be stirred, 110 ml pours. how many full pours?",
        "how much of the acid in 1 l of orange juice is malic?",
    ],
)
def test_what_cannot_be_known_gets_no_number(talk: Conversation, said: str) -> None:
    """Water makes nothing stronger; what stirring adds is not passed over; of orange only the sum is in the tables."""
    reply, _ = talk.answer(said)
    assert reply.status in ("asks", "declined"), reply.text
