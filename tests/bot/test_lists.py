"""Specs as bars write them: without units, with each thing before its amount, in parts.

Every sum is worked by hand.  A litre of 66.7 °Bx holds 884 g of sugar by the densities of ICUMSA SPS-4; chargers,
strengths of spirits and dilutions are those of the trade (common practice, no source).
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stillroom_bot.conversation import Conversation
from stillroom_bot.reading.apart import MOST_NUMBERS, MOST_TOKENS

ML = "milliliter"
SPECS = [
    ("60 rum, 30 lime, 20 syrup for 25 people", "rum", 1500, ML),
    ("gin 45 ml lemon 20 ml syrup 15 ml x 30", "gin", 1350, ML),
    ("gin 45 lemon 20 syrup 15 x 30", "total", 2400, ML),
    ("gin 45, lemon juice 20, syrup 15, for 30 drinks", "lemon juice", 600, ML),
    ("rum 60ml lime 30ml syrup 20ml total volume for 12", "total", 1320, ML),
    ("2 rum 1 lime 1 syrup for 3 litres", "rum", 1.5, "liter"),
    ("2 oz rye 1 oz vermouth 2 dashes bitters for 24", "vermouth", 24, "fluid_ounce"),
    ("equal parts gin, vermouth and bitter liqueur, 750 ml bottle", "vermouth", 250, ML),
    ("for 8 people: 400 ml rum, 200 ml lime juice. what for 30 people?", "rum", 1500, ML),
    ("rum 45 lime 25 syrup 20, I only have 1.2 l of rum, how many drinks can I make?", "serves", 26, "count"),
    ("tequila 50 triple sec 25 lime 25, 45 of them, how much lime?", "lime", 1125, ML),
]
CLAUSES = [
    ("65 brix to ratio", 65 / 35, "dimensionless"),
    ("A bottle of 70 cl costs 21 euro. What does 4 cl cost me?", 1.2, "currency"),
    ("12 limes at 25 ml, how much juice", 300, ML),
    ("loss 8 %, need 5 l, make how much?", 5 / 0.92 * 1000, ML),
    ("Made on Monday, keeps five days, today is Thursday. How many days left?", 2, "day"),
    ("Life 10 days. Made 10 March, today 16 March. Remaining days?", 4, "day"),
    ("it keeps 48 hours, was made yesterday at 18:00, and it is 10:00 in the morning now, hours left?", 32, "hour"),
    ("5 drink : 1 milk for the clear punch. Drink made: 7.2 l. Milk, litres?", 1.44, "liter"),
    ("one-litre soda siphon, how many co2 chargers?", 1, "count"),
    ("lemons 40ml/pc need 3l. how many", 75, "count"),
    ("a formula that makes 1.6 l serves ten. How many litres is it for 34?", 5.44, "liter"),
    ("agar for 2 litres um point eight percent", 16, "gram"),
    ("suagr for 1 litre of rich syrup, in grams?", 884, "gram"),
    ("syrup came out at 58, should be 50, 800 g of it, water?", 128, "gram"),
]
DOUBTED = [
    "2 gin, 1 vermouth, 1/2 liqueur, 20 people",
    "Sugar is 1.20 a kilo. For 5 kg of lime peel at 1:1, what do I spend on sugar?",
    "will 2 l of punch with lemon juice at pH 3 curdle",
    "80 drinks of 90 ml, what volume do i batch",
    "rich syrup 1 qt, cups of sugar?",
    "raspberry gin at 1:4. Raspberries: 400 g. Gin?",
]


@pytest.mark.parametrize(("said", "name", "value", "unit"), SPECS)
def test_a_spec_as_it_is_jotted_down(talk: Conversation, said: str, name: str, value: float, unit: str) -> None:
    reply, _ = talk.answer(said)
    found = {v["name"]: v for v in reply.to_json()["answer"]}
    assert name in found, reply.text
    assert (found[name]["value"], found[name]["unit"]) == (pytest.approx(value, rel=2e-3), unit)


@pytest.mark.parametrize(("said", "value", "unit"), CLAUSES)
def test_a_short_question(talk: Conversation, said: str, value: float, unit: str) -> None:
    reply, _ = talk.answer(said)
    answer = reply.to_json()["answer"]
    assert answer, reply.text
    assert (answer[0]["value"], answer[0]["unit"]) == (pytest.approx(value, rel=2e-3), unit)


@pytest.mark.parametrize("said", DOUBTED)
def test_what_is_left_over_is_asked_about(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.status == "asks", reply.text


@pytest.mark.parametrize("said", ["rum 40 % lime " * 60, "word " * (MOST_TOKENS + 1), "3 g, " * (MOST_NUMBERS + 1)])
def test_a_page_is_not_read_as_a_question(talk: Conversation, said: str) -> None:
    reply, _ = talk.answer(said)
    assert reply.status == "declined"
    assert "one thing at a time" in reply.text


@settings(max_examples=25, deadline=None)
@given(amounts=st.lists(st.integers(10, 90), min_size=3, max_size=3), serves=st.integers(2, 80))
def test_either_order_is_the_same_spec(talk: Conversation, amounts: list[int], serves: int) -> None:
    """A list with its things first is the list with its amounts first."""
    things = ("gin", "lemon juice", "syrup")
    first = ", ".join(f"{n} ml {t}" for n, t in zip(amounts, things, strict=True))
    turned = ", ".join(f"{t} {n} ml" for n, t in zip(amounts, things, strict=True))
    told = [talk.answer(f"{x}, for {serves} drinks")[0].to_json() for x in (first, turned)]
    assert told[0]["status"] == "answered"
    assert told[0]["answer"] == told[1]["answer"]


def test_more_is_asked_of_a_spec_that_was_told(talk: Conversation) -> None:
    """45 ml at 47 % in 90 ml are 23.5 %; shaken, by the trade's fit, it takes 0.526 of itself in water."""
    state, found = None, []
    for said in ("45 ml gin at 47 %, 25 ml lemon juice, 20 ml syrup for 30 people", "how strong is it", "shaken"):
        reply, state = talk.answer(said, state)
        found.append({v["name"]: v["value"] for v in (*reply.to_json()["answer"], *reply.to_json()["values"])})
    assert found[0]["total"] == pytest.approx(2700)
    assert found[1]["abv"] == pytest.approx(23.5, rel=1e-3)
    assert found[2]["final_abv"] == pytest.approx(23.5 / (1 - 1.567 * 0.235**2 + 1.742 * 0.235 + 0.203), rel=1e-3)


def test_a_spec_is_not_asked_what_is_about_something_else(talk: Conversation) -> None:
    _, state = talk.answer("60 rum, 30 lime, 20 syrup for 25 people")
    reply, _ = talk.answer("how much salt for 300 ml of 20% saline?", state)
    assert reply.to_json()["answer"][0]["value"] == pytest.approx(68.9, rel=1e-2)


def test_units_that_were_not_said_are_told_in_one_breath(talk: Conversation) -> None:
    reply, _ = talk.answer("60 rum, 30 lime, 20 syrup for 25 people")
    assert "60, 30, 20 are read as ml." in reply.text
