"""What people say while they ask: taken back, said twice, beside the point, in a technician's symbols.

The sentences are our own; sums are worked by hand beside each group.  Conventions of the trade (equal weights of peel
and sugar, four of drink to one of milk, lime at 6 and grapefruit at 2 g of acid in 100 ml, a dash of
0.8 ml, a drop of 0.05 ml) are common practice, no source.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from stillroom_bot.reading.tokens import tokens_of
from turns import gives

TAKEN_BACK = [
    ("um nine hundred grams of saline at fourteen no sorry sixteen percent how much salt", 144, "gram"),
    ("I have three litres of punch, no hang on, four litres of punch to clarify with milk: how much milk?", 1000,
     "milliliter"),
    ("the tin says two dashes sorry five dashes of bitters how many ml", 4, "milliliter"),
    ("acid for 2 l of orange no wait grapefruit juice to lime acidity with citric, how much?", 80, "gram"),
]
"""16 % of 900 g; 4 l / 4; 5 x 0.8 ml (usual size of a dash); (6 - 2) g in 100 ml, 2 l."""
SAID_AGAIN = [
    ("The saline must be 12 percent, 12. I want 600 g of it, 600 g. How many grams of salt?", 72, "gram"),
    ("24 g of oolong in 0.6 l of gin. what dose in g/l? so 24 g in 0.6 l", 40, "gram / liter"),
    ("1.5 kg of lemon peel for peel sugar, equal weights. And the sugar for those 1.5 kg?", 1500, "gram"),
    ("saline, 250 g at 8 %. It's 8 percent. salt?", 20, "gram"),
]
"""12 % of 600 g; 24 / 0.6; equal weights; 8 % of 250 g."""
BESIDE_THE_POINT = [
    ("For the tasting on the 9th (24 guests, room 2) there are 1.5 litres of pear juice, with agar at 0.4 %. "
     "How many grams of agar?", 6, "gram"),
    ("Regarding tables 40 to 58 (invoice 7731): the tincture bottle holds 30 ml and each drink gets 6 drops. "
     "How many drinks?", 100, "count"),
    ("On terrace 2 we weigh out 3 kg of 6 % saline: how much salt?", 180, "gram"),
    ("The drink itself is mixed and comes to 2.4 litres. How much milk to clarify it?", 600, "milliliter"),
]
"""0.4 g in 100 ml of 1.5 l; 600 drops of 0.05 ml (usual size) in sixes; 6 % of 3 kg; 2.4 l / 4."""
SYMBOLS = [
    ("m(NaCl) = 30 g\nm(H2O) = 270 g\nw(NaCl) = ? %", 10, "percent"),
    ("V(drink) = 2.4 l\nmilk clarification\nV(milk) = ?", 600, "milliliter"),
    ("sugar: 1 part; peel: 2 parts; by weight; peel = 500 g; m(sugar) = ?", 250, "gram"),
]
"""30 / 300; 2.4 l / 4; half."""
RUN_TOGETHER = [
    ("how much acid in 500 ml limejuice", 30, "gram"),
    ("Batch for 10: an ounce and a half each of rye, vermouth and amaro. total in oz?", 45, "fluid_ounce"),
    ("3/4 cup and 2 tsp of water in ml", 187.299, "milliliter"),
    ("50ml gin 40, 20 vermouth 16, 20 bitter 25. abv?", 31.3333, "percent"),
    ("two parts malic one part tartaric, 90 g in all: malic?", 60, "gram"),
]
"""6 g in 100 ml; 10 x 4.5; 0.75 x 236.588 + 2 x 4.929 ml (NIST SP 811); (20 + 3.2 + 5) / 90 with the strengths as
they stand; two thirds."""


@pytest.mark.parametrize(
    ("said", "value", "unit"), [*TAKEN_BACK, *SAID_AGAIN, *BESIDE_THE_POINT, *SYMBOLS, *RUN_TOGETHER]
)
def test_it_counts_once_and_where_it_belongs(talk: Conversation, said: str, value: float, unit: str) -> None:
    gives(talk, said, value, unit)


@pytest.mark.parametrize(
    ("before", "said", "value"),
    [
        ("30 drinks: 50 ml gin, 20 ml lime juice, 10 ml syrup", "total volume?", 2400),
        ("for 36 serves: 50 ml gin, 20 ml lime juice, 10 ml syrup", "actually we need 50 of them", 2500),
        ("proof 750 ml of 60 % whiskey down to 40 %: how much water?", "how much whiskey will I have then?", 1125),
        ("1.2 l of orange juice to lime acidity with citric, how much acid?", "and grapefruit in the place of orange?",
         48),
        ("700 ml of 63 % rum brought down to 45 %, how much water?", "how much will there be?", 980),
        ("500 g of 1:1 syrup, sugar?", "make it rich syrup, how much sugar?", 333.333),
        ("imperial ounces in this bar. what's 6 fl oz in ml", "and 2 fl oz?", 56.826),
    ],
)
def test_what_follows_is_of_the_job_before(talk: Conversation, before: str, said: str, value: float) -> None:
    """30 x 80; 50 x 50; 750 x 60 / 40; 12 x (6 - 2); 700 x 63 / 45; two thirds of 500 g; two imperial
    fluid ounces of 28.413 ml (UK Units of Measurement Regulations 1995)."""
    gives(talk, said, value, before=before)


@pytest.mark.parametrize(
    ("said", "status"),
    [
        ("siphon: 1 l\nN2O: 6 x 8 g chargers\nOK? (y/n)", "declined"),
        ("who invented the cocktail shaker", "declined"),
        ("chargers for my siphon?", "asks"),
        ("for lichen gin we take 3 g lichen for each 50 ml gin, and there are 2 l of gin. Lichen how many grams?",
         "asks"),
        ("rum punch is 1.8 L all mixed. Milk how many ml put?", "asks"),
        ("I need to gel 1.4 l of coconut water with agar, how many grams?", "asks"),
        ("we have 2 kegs and a new regulator. Which psi for 2.5 volumes?", "asks"),
        ("thicken three cups of blackberry syrup with xanthan, how much of it?", "asks"),
    ],
)
def test_no_number_where_none_can_be_trusted(talk: Conversation, said: str, status: str) -> None:
    """Too many chargers; gossip; no size; a dose of what nobody knows; an amount
    asked of another thing; kegs, and no degrees."""
    reply, _ = talk.answer(said)
    assert (reply.status, reply.to_json()["answer"]) == (status, [])


def test_equal_amounts_of_two_things_are_no_repeat(talk: Conversation) -> None:
    gives(talk, "45 ml gin 40%, 45 ml vermouth 16%, 45 ml bitter 28%. abv?", 28)


def test_a_word_run_together_is_parted_one_way(talk: Conversation) -> None:
    tokens = tokens_of("limejuice eggwhite barspoon saltwater")
    talk.reader.speller.apply(tokens)
    assert [t.text for t in tokens] == ["lime", "juice", "egg", "white", "barspoon", "saltwater"]
