"""Single questions told in other people's ways: units again, days and hours, doses, fruit by the kilo and case.

Every sentence is our own, and every number is worked by hand from what the sentence says; factors of units are NIST
Handbook 44's, Appendix C, and those of the UK Weights and Measures Act 1985.
"""

from __future__ import annotations

import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation

AGAIN = [
    ("Our boiler man (invoice 88) reports 1.8 bar on the line. Kindly tell me what that is in psi.", 26.107, "psi"),
    ("the walk-in is at 41 °F says the log, 12 of us saw it. express that in celsius", 5, "degree_Celsius"),
    ("The oven card says 230 °F and my oven knows only celsius. What do I set?", 110, "degree_Celsius"),
    ("so the card says a cup and a half of cold tea for 4 people. whats that in ml", 354.88, "milliliter"),
    ("Two pounds and half of cherries in kilo?", 1.13398, "kilogram"),
    ("500 g of caster sugar in pounds?", 1.10231, "pound"),
    ("two-thirds of a cup and a teaspoon of cold coffee, in millilitres?", 162.654, "milliliter"),
    ("The book wants one gallon (imperial). In litres it is how much?", 4.54609, "liter"),
    ("Three gallon of lemonade are how many liter?", 11.3562, "liter"),
    ("Fermentation room 77 °F ⇒ T/°C = ?", 25, "degree_Celsius"),
]
NOT_AGAIN = [
    "We have 40 guests and 2 oz of gin in each. What's that in ml altogether?",
    "We pour 1.5 oz of rum for each of 30 drinks, what's that in litres altogether?",
    "My scale does grams only. How much sugar for the rich syrup?",
]
HOURS = [
    ("syrup holds 48 hours, cooked thursday at nine in the morning and it's friday at six in the evening, hours left?",
     15, "hour"),
    ("Our tomato water has a life of 24 hours. It was opened at 09:00 and now it is 15:30. How many hours remain?",
     17.5, "hour"),
    ("my celery juice lasts 12 hours, squeezed at 8 am and it's now 2 pm, how long left", 6, "hour"),
    ("The kitchen made the espuma at 14:00 on Tuesday, it is Wednesday 9:30 now; how old is it in hours?", 19.5,
     "hour"),
    ("it was bottled on Monday and today is Friday: how many days old is the cordial?", 4, "day"),
    ("keeps 60h made 24h ago hrs left?", 36, "hour"),
    ("Hi, the whey punch was made on 3 March and keeps 21 days. Today is 10 March. Days left, please?", 14, "day"),
]
DOSES = [
    ("For sumac vodka we take 4 g sumac for each 50 ml vodka. In the jar is 1.5 l vodka. Sumac how many gram?",
     120, "gram"),
    ("black cherries at 6 ounces (weight) a quart, half a gallon of bourbon. Pounds of cherries?", 0.75, "pound"),
    ("raspberries to gin 1:6 by wt, I've picked 200 g of raspberries. gin in g?", 1200, "gram"),
    ("Tea bags hold 3 g of tea apiece. My dose is 12 g/l and there's 2 l of gin. How many bags?", 8, ""),
    ("I left 60 g of dried mango in 1.5 litres of tequila. What does that come to in grams per liter?",
     40, "gram / liter"),
]
FRUIT = [
    ("I squeezed 4 kg of oranges and got 1.6 litres of juice. How many ml of juice is that per kilo?", 400, ""),
    ("From 8 kg grapefruit came 3 l of the juice. For one kilo how many ml?", 375, ""),
    ("four crates with 30 grapefruits each, 18 g of peel off every grapefruit, total peel?", 2160, "gram"),
    ("40 limes to a case, 3 cases, 12 g of zest off each lime, total zest?", 1440, "gram"),
    ("If a crate holds 90 lemons and 6 g of peel comes off each one, what is the total mass of peel?", 540, "gram"),
    ("we got 2 trays of 40 limes at 24 ml each. how much juice is that", 1920, "milliliter"),
]
DROPS = [
    ("SALINE 3 drops x 60 drinks = ___ ml", 9, "milliliter"),
    ("got a 2 oz dropper bottle of cardamom tincture, 4 drops a drink, how many drinks", 295, ""),
    ("Our dropper drips 25 drops per ml and I need 2 ml of tincture, how many drops", 50, "drop"),
]


@pytest.fixture(scope="module")
def talk(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """A conversation with everything that the bar's plugins know."""
    return Conversation(Kernel(tmp_path_factory.mktemp("cache")))


@pytest.mark.parametrize(("said", "value", "unit"), [*AGAIN, *HOURS, *DOSES, *FRUIT, *DROPS])
def test_is_answered(talk: Conversation, said: str, value: float, unit: str) -> None:
    """The number, in the unit that the question asks for or used."""
    reply, _ = talk.answer(said)
    answer = reply.to_json()["answer"]
    assert answer, reply.text
    assert answer[0]["value"] == pytest.approx(value, rel=3e-3), reply.text
    assert not unit or answer[0]["unit"] == unit


@pytest.mark.parametrize("said", NOT_AGAIN)
def test_is_not_said_again_alone(talk: Conversation, said: str) -> None:
    """An amount for so many, or the unit of a scale beside another question: no plain conversion."""
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "asks", reply.text


def test_how_long_something_lasts_is_not_its_age(talk: Conversation) -> None:
    """That it was made yesterday is told; what it is was not, and how long that lasts is asked."""
    reply, _ = talk.answer("made some yesterday and stuck it in the fridge, how long will it last?")
    assert reply.to_json()["status"] == "asks", reply.text
