"""Jobs told in passing: what came back, what a glass holds, the same salt of another saline, prices that it sells at.

The sentences are our own.  Sums are worked by hand beside each group; what must not be read so stands near by.  A milk
punch at 4 to 1, 30 ml of white an egg and the acids of juices are common practice, no source.
"""

from __future__ import annotations

import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation

Row = tuple[str, float, str]

CAME_BACK: list[Row] = [
    ("poured 750 ml of gin over the rhubarb and 640 ml came back. what percent did we lose", 14.667, "percent"),
    ("2 l rum on pineapple, got back 1.7 l, loss in percent?", 15, "percent"),
    ("Of 500 ml brandy on figs 410 ml ran off; what share is lost, in per cent?", 18, "percent"),
    ("700 ml tequila onto jalapenos, 665 ml came out, percent lost", 5, "percent"),
    ("1 l of vodka on strawberries, 60 ml lost, what percent is that", 6, "percent"),
]
"""What came back is not what was lost: 110/750, 0.3/2, 90/500, 35/700.  Near by, what was lost: 60/1000."""
A_PART_OF_IT: list[Row] = [
    ("5 litres of milk punch in the pot counting the milk, 3:1 drink to milk, how much of it is milk?", 1250,
     "milliliter"),
    ("There's 2.5 l of punch and milk in the tub at 4 to 1. How much of this is milk?", 500, "milliliter"),
    ("my crock has 6 l in it, milk counted, clarifying at 5 to 1 - how much of that was milk", 1000, "milliliter"),
    ("900 g of 2:1 syrup. how much of it is water", 300, "gram"),
    ("3 l of punch at 4 to 1, how much milk", 750, "milliliter"),
    ("1.8 l milk punch to clarify, how much milk goes in", 450, "milliliter"),
]
"""A part asked of what was told: that is the whole, 5/4, 2.5/5, 6/6, 900/3.  Near by, milk to add: 3/4, 1.8/4."""
INTO_THE_GLASS: list[Row] = [
    ("my glass takes 150 ml, a stirred drink of 32%, how much do I build before stirring?", 105.647, "milliliter"),
    ("coupe holds 4.5 oz, shaken at 22% abv, how much mix goes in the shaker", 2.9794, "fluid_ounce"),
    ("the glass has room for 110 ml; drink at 28 percent, stirred - what volume before ice?", 78.627, "milliliter"),
    ("120 ml stirred at 30 %, how much water does it take up", 49.188, "milliliter"),
]
"""What a glass holds is there after the ice: 150/1.4198, 4.5/1.5104, 110/1.399.  Near by, what goes in: 120 x 0.41."""
SAME_SALT: list[Row] = [
    ("spec says 2 ml of a 5% saline, I only have 20%: how many drops for the same salt", 9.009, "drop"),
    ("The card says 10 drops of 20% saline, I've only got 10%. How many drops for as much salt?", 21.44, "drop"),
    ("swap 4 dashes of 10% saline for 20% saline, same salt: how many dashes", 1.8656, "dash"),
    ("recipe calls for 3 ml of 10 % saline, mine is 20 %: ml for the same salt?", 1.3992, "milliliter"),
    ("how many drops in 2 ml of 20% saline", 40, "drop"),
]
"""Densities 1.0340, 1.0707 and 1.1478 g/ml at 5, 10 and 20 % (Poradnik fizykochemiczny, WNT 1974): 2 x 0.05 x 1.0340 /
(0.2 x 1.1478) x 20 drops; 10 x 0.2 x 1.1478 / (0.1 x 1.0707); 4 and 3 the other way.  Near by, 2 ml at 20 to the ml."""
AN_EGG_GIVES: list[Row] = [
    ("40 drinks with 25 ml of egg white, 30 ml per egg: eggs to buy?", 34, "count"),
    ("how many eggs for 1.2 l of egg white", 40, "count"),
]
"""40 x 25 / 30, rounded up; near by, 1200 / 30 (common practice, no source)."""
OUT_OF_THE_JUICE: list[Row] = [
    ("how much malic replaces the acid in 300 ml lime juice", 18, "gram"),
    ("how many grams of citric acid replace the acid of half a litre of lemon juice?", 30, "gram"),
    ("how much acid does half a litre of lemon juice hold?", 30, "gram"),
    ("how much acid for 500 ml of grapefruit juice to lime strength?", 20, "gram"),
]
"""Lime and lemon at 6, grapefruit at 2 g in 100 ml (common practice, no source): 3 x 6, 5 x 6; near by, (6 - 2) x 5."""
AT_MOST: list[Row] = [
    ("punch keeps 4 days, we pour 2.5 l a day, most we should make at once?", 10000, "milliliter"),
    ("The cordial lasts 7 days and we use 600 ml daily, how much at most in one go?", 4200, "milliliter"),
    ("lime juice holds 2 days, 1.5 litres go per day, what's the most I can squeeze at once", 3000, "milliliter"),
]
"""4 x 2.5; 7 x 600; 2 x 1.5."""
OF_EACH = [
    ("Foam base 800 ml, 0.3% xanthan and 4% egg white powder, grams of each?", [2.4, 32]),
    ("espuma 500 ml: 0.25 % xanthan, 3 % egg white powder - grams of each please", [1.25, 15]),
    ("I make 2 l foam base with 0.2 percent xanthan and 1.5 percent gelatine. What weight of each?", [4, 30]),
]
"""Grams in 100 ml, as the doses are told: 8 x 0.3 and 8 x 4; 5 x 0.25 and 5 x 3; 20 x 0.2 and 20 x 1.5."""
NOT_MEANT = [
    "how many grams of acid for 500 ml orange juice",
    "acid for 3 l of mango juice, how much?",
    "how much water to add to a 90 ml drink at 25% for dilution",
    "what water do I put in a 3 l batch at 22% for the dilution?",
]
"""What goes into a juice is not what it holds; what a drink is at is not its dilution."""
DOES_NOT_ADD_UP = [
    "15 g of sugar in 60 g of water makes 30% right",
    "100 g salt in 400 g of water is 25% saline, correct?",
    "so 250 g sugar and 250 g water gives me a 60 brix syrup, yes?",
]
ALL = [*CAME_BACK, *A_PART_OF_IT, *INTO_THE_GLASS, *SAME_SALT, *AN_EGG_GIVES, *OUT_OF_THE_JUICE, *AT_MOST]


@pytest.fixture(scope="module")
def talk(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """A conversation with everything that the bar's plugins know."""
    return Conversation(Kernel(tmp_path_factory.mktemp("cache")))


@pytest.mark.parametrize(("said", "value", "unit"), ALL)
def test_it_is_understood(talk: Conversation, said: str, value: float, unit: str) -> None:
    reply, _ = talk.answer(said)
    answer = reply.to_json()["answer"]
    assert answer, reply.text
    assert answer[0]["value"] == pytest.approx(value, rel=5e-3)
    assert answer[0]["unit"] == unit


@pytest.mark.parametrize(("said", "grams"), OF_EACH)
def test_grams_of_each_are_told_as_they_were_named(talk: Conversation, said: str, grams: list[float]) -> None:
    reply, _ = talk.answer(said)
    assert [v["value"] for v in reply.to_json()["answer"]] == pytest.approx(grams)


@pytest.mark.parametrize("said", NOT_MEANT)
def test_it_is_asked_what_a_number_is_for(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "asks"


@pytest.mark.parametrize("said", DOES_NOT_ADD_UP)
def test_a_claim_that_does_not_add_up_is_told_so(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.to_json()["status"] == "declined"
    assert "add up" in reply.text


def test_a_number_that_no_word_places_is_asked_about(talk: Conversation) -> None:
    """Nobody knows what it is to squonk: 860 ml may be what is left or what is lost."""
    reply, _ = talk.answer("1 litre of vodka went on the strawberries, 860 ml squonked, percent lost")
    assert reply.to_json()["status"] == "asks"


TALKS = [
    [("bottle is 30 for 750 ml, what does a 50 ml pour cost", 2), ("it sells at 10, pour cost?", 20),
     ("and what price for 16%", 12.5)],
    [("bottle is 35 for 700 ml, what does a 40 ml pour cost", 2), ("we sell it at 8, pour cost?", 25)],
    [("2.5 oz in ml", 73.934), ("and 0.75?", 22.180), ("and 3", 88.721)],
    [("700 ml bottle at $28.00, what does a 40 ml pour cost", 1.6), ("31.50 now", 1.8)],
    [("600 ml orange juice up to lemon acidity, how much citric", 31.2), ("what if I stop at 4%", 19.2)],
    [("1 kg of 60 brix syrup, down to 40 brix, how much water", 500), ("what if we stop at 50?", 200)],
]
"""30 / 750 x 50, over 10, 2 / 0.16; 35 / 700 x 40, over 8; 29.5735 ml each; 28 and 31.5 / 700 x 40; (6 - 0.8) x 6 and
(4 - 0.8) x 6 g of acid; 600 / 0.4 and 600 / 0.5 g of syrup, less the kilo."""


@pytest.mark.parametrize("turns", TALKS)
def test_a_talk_goes_on(talk: Conversation, turns: list[tuple[str, float]]) -> None:
    state = None
    for said, value in turns:
        reply, state = talk.answer(said, state)
        answer = reply.to_json()["answer"]
        assert answer, (said, reply.text)
        assert answer[0]["value"] == pytest.approx(value, rel=5e-3), said
