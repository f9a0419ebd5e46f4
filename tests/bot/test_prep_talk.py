"""Prep in other people's words: what is filled up to, what fills a vessel, a siphon by its name, halves of a measure.

The sentences are our own; sums are worked by hand beside each group.  Conventions of the trade (four of drink to one of
milk; a quart siphon is rated 1 l, a pint siphon 0.5 l, one 8 g charger for 0.5 l and two for 1 l) are common practice,
no source.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from turns import PINT, SALINE_20, gives

FILLED_UP = [
    ("30 g of salt topped up with water to 200 ml, what % w/v is that?", 15, "percent"),
    ("put 24 grams of citric in the jug, then water up to the 400 ml mark: percent weight by volume?", 6, "percent"),
    ("60 g of salt made up to half a litre with water, strength in g/l?", 120, "gram / liter"),
    ("18 g salt in 150 ml of finished saline: % w/v?", 12, "percent"),
]
"""30 / 200, 24 / 400, 60 / 0.5, 18 / 150."""
WEIGHED = [
    ("I want 250 ml of finished saline at 20 percent, what does the salt weigh", 0.2 * 250 * SALINE_20, "gram"),
    ("what quantity of salt is inside half a litre of saline at 20 percent?", 0.2 * 500 * SALINE_20, "gram"),
    ("what does 250 ml of 20 % saline weigh?", 250 * SALINE_20, "gram"),
    ("how much does a litre of 20 % saline weigh", 1000 * SALINE_20, "gram"),
]
"""A fifth of the mass, which is the volume by the density of a fifth of salt in water; the whole mass."""
IN_A_VESSEL = [
    ("I've a 2,5 liter tub. Punch and milk must both fit inside, ratio as usual. How many ml of that is the milk?", 500,
     "milliliter"),
    ("6 litre bucket, drink plus milk, usual ratio. Litres of milk?", 1.2, "liter"),
    ("how much milk goes in a 10 l bucket at 4:1 if the drink and the milk together fill it", 2000, "milliliter"),
    ("a 9 l tub for the milk punch, the two of them fit in it exactly at 5:1. how much milk?", 1500, "milliliter"),
    ("6 l of milk punch, 5 to 1: how much of that is milk?", 1000, "milliliter"),
    ("6 l bucket of punch to clarify, how much milk in all?", 1500, "milliliter"),
    ("I have a 6 l bucket of punch, how much milk goes in?", 1500, "milliliter"),
    ("two 6 l buckets of punch to clarify: how much milk?", 3000, "milliliter"),
]
"""A fifth of 2.5, 6 and 10 l; a sixth of 9 and of 6 l; where the bucket is of punch alone, a quarter of that."""
SIPHONS = [
    ("My cream canister is the pint size. What's the most I may put in there, in ml?", 500, "milliliter"),
    ("new quart-size whipped cream dispenser, what's the most liquid it takes, in milliliters?", 1000, "milliliter"),
    ("cream siphon 0.5 l | fills: 6 | chargers: ? | N2O total: ?", 6, "count"),
    ("0.4 l of base in the 0.5 l siphon, how many chargers?", 1, "count"),
    ("1.5 l of base in the 0.5 l siphon, how many fills?", 3, "count"),
    ("1.4 l of foam base for the 0.5 l siphon: how many chargers?", 3, "count"),
    ("the quart size is how many ml?", 2 * PINT, "milliliter"),
]
"""The rated size; six fills of one charger; 1.5 l and 1.4 l in fills of half a litre; a US quart is two pints."""
HALVES = [
    ("6 half litres of tea, how many ml?", 3000, "milliliter"),
    ("five half pints of punch in ml?", 2.5 * PINT, "milliliter"),
    ("two half litres of punch to clarify, how much milk?", 250, "milliliter"),
    ("6 and a half litres in ml", 6500, "milliliter"),
    ("6 1/2 l in ml", 6500, "milliliter"),
]
"""Six and five halves; a quarter of a litre; 6.5 l."""
KEPT = [
    ("The syrup holds two weeks. Today is the day 9 after cooking. How many days can I still use it?", 5, "day"),
    ("cordial keeps 10 days, today is day 7. days left?", 3, "day"),
    ("we're on day 2, it's good for 6 days. how many days more?", 4, "day"),
    ("keeps 3 weeks, how many days is that?", 21, "day"),
    ("The urn had 8 l, keeps 2 days, 25 serves of 80 ml go each day. What do we lose?", 4000, "milliliter"),
    ("20 l keg, 5 % lost in the lines, how many 125 ml pours?", 152, "count"),
]
"""14 - 9, 10 - 7, 6 - 2, 3 x 7; 8 l less 2 x 25 x 80 ml; 19 l in glasses of 125 ml."""
SALT_OF_DROPS = [
    ("How much salt is in 8 drops? Per drink it's 8 drops of saline, of the 20 percent one. How much real salt is "
     "that, in the drink?", 0.4 * SALINE_20 * 0.2, "gram"),
    ("10 drops of 20 % saline in a 100 ml drink: how much salt is in the drink?", 0.5 * SALINE_20 * 0.2, "gram"),
    ("10 drops of 20 % saline in a 100 ml drink: what salt percent is the glass?", 50 * SALINE_20 * 0.2 / 100.5,
     "percent"),
    ("what's the weight of 1.5 l of 20 % saline?", 1500 * SALINE_20, "gram"),
]
"""8 and 10 drops of 0.05 ml (usual size), a fifth of their mass; grams in 100 ml of 100.5 ml."""
PARTS = [("300 g of raspberries in 1.5 kg of gin: how many parts of fruit to one part gin by weight?", 0.2, "")]


@pytest.mark.parametrize(
    ("said", "value", "unit"),
    [*FILLED_UP, *WEIGHED, *IN_A_VESSEL, *SIPHONS, *HALVES, *KEPT, *SALT_OF_DROPS, *PARTS],
)
def test_prep_is_read_in_other_words(talk: Conversation, said: str, value: float, unit: str) -> None:
    gives(talk, said, value, unit)


def test_all_that_a_form_asks_is_answered(talk: Conversation) -> None:
    """Four fills of two chargers, of 8 g each."""
    reply, _ = talk.answer("siphon 1 l | fills: 4 | chargers: ? | N2O total: ?")
    told = [(x["value"], x["unit"]) for x in reply.to_json()["answer"]]
    assert told == [(8, "count"), (64, "gram")]


@pytest.mark.parametrize(
    "said",
    ["650 ml of base in the 0.5 l siphon, it goes in if you press. chargers for that?",
     "1.2 l of mix in the quart whipper, how many chargers is that?"],
)
def test_no_siphon_is_overfilled(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.status == "declined" and "rated" in reply.text, reply.text


@pytest.mark.parametrize(
    "said",
    ["what's the weight of a 1 l bottle of our cinnamon syrup?",
     "xanthan 2.4 g in 1.2 l, too thin. want 3 g/l. how much more"],
)
def test_another_thing_is_not_answered_for(talk: Conversation, said: str) -> None:
    """A syrup of no known strength, and not the cinnamon for it; a second dose."""
    reply, _ = talk.answer(said)
    assert reply.status == "asks", reply.text
