"""What a hurried bartender says after an answer about a kept spec: another amount, another line, what it costs.

The bar's Marsh Light is 45 ml gin, 20 ml Basil Cordial and 25 ml lime juice, 90 ml in all; its cordial makes 800 ml
of 500 ml water, 400 g sugar, 30 g basil and 20 g citric acid.  Sums by hand.
"""

from __future__ import annotations

import pytest

from .conftest import Chat
from .test_asking import values


@pytest.mark.parametrize("before", ["forty of the Marsh Light", "Marsh Light for 2 litres", "strength of Marsh Light"])
@pytest.mark.parametrize(
    ("text", "gin"),
    [
        ("for 5 litres", 2500),
        ("500 ml", 250),
        ("and 500 ml?", 250),
        ("make it 3 litres", 1500),
        ("sorry, 900 ml", 450),
        ("what about 9 l", 4500),
        ("and for 60?", 2700),
        ("12 people", 540),
        ("no, for a dozen please", 540),
    ],
)
def test_so_much_instead(bar: Chat, before: str, text: str, gin: float) -> None:
    """Nothing of the amount before stays: neither forty serves nor two litres."""
    bar.say(before)
    found = values(bar, text)
    assert found["gin"] == pytest.approx(gin)
    assert found["lime juice"] == pytest.approx(gin * 25 / 45)


@pytest.mark.parametrize(
    ("before", "text", "gin"),
    [
        ("forty of the Marsh Light", "double it", 3600),
        ("forty of the Marsh Light", "half of that", 900),
        ("forty of the Marsh Light", "60", 2700),
        ("Marsh Light for 2 litres", "double it", 2000),
        ("Marsh Light for half a litre", "triple that", 750),
        ("Marsh Light for 2 litres", "halve it", 500),
    ],
)
def test_so_many_times_as_much(bar: Chat, before: str, text: str, gin: float) -> None:
    bar.say(before)
    assert values(bar, text)["gin"] == pytest.approx(gin)


@pytest.mark.parametrize(
    ("text", "sugar"), [("500 ml", 250), ("for 5 litres", 2500), ("double it", 800), ("half that", 200)]
)
def test_what_says_what_it_makes_goes_by_that(bar: Chat, text: str, sugar: float) -> None:
    """The size that is asked for is the size that is made, never the yield that the spec was written for."""
    bar.say("Basil Cordial for 800 ml")
    assert values(bar, text)["sugar"] == pytest.approx(sugar)


def test_a_bare_number_after_a_volume_is_not_taken_for_guests(bar: Chat) -> None:
    bar.say("Marsh Light for 2 litres")
    reply = bar.say("60")
    assert reply.status != "answered" or "serves 60" not in reply.text


def test_cautions_and_what_goes_into_the_cordial_come_along(bar: Chat) -> None:
    bar.say("forty of the Marsh Light")
    reply = bar.say("for 3.6 litres")
    assert "Acids" in reply.text and "800 ml of Basil Cordial: 500 ml water, 400 g sugar" in reply.text


def test_other_lines_stay_other_until_they_are_asked_anew(bar: Chat) -> None:
    """40 × 40 ml; then 9 litres of 85 ml each; then, by name, as it is kept."""
    bar.say("forty of the Marsh Light", "what if I use 5 ml less gin?")
    reply = bar.say("and for 8.5 litres?")
    assert "with the lines of the question before" in reply.text
    assert {v["name"]: v["value"] for v in reply.data["answer"]}["gin"] == pytest.approx(4000)
    assert values(bar, "Marsh Light for 9 litres")["gin"] == pytest.approx(4500)


def test_what_if_where_a_spec_within_was_taken_apart(bar: Chat) -> None:
    """18 ml of ethanol (gin at 40 %, taken for granted) in 85 ml, in 90 ml before."""
    bar.say("strength of the Marsh Light")
    reply = bar.say("what if I use 5 ml less cordial?")
    assert reply.data["answer"][0]["value"] == pytest.approx(100 * 18 / 85)
    assert "with Basil Cordial 15 ml (was 20 ml); it was abv 20 % ABV" in reply.text


def test_a_new_job_is_no_line_of_the_drink_before(bar: Chat) -> None:
    """Lime peel is not the lime juice of the spec."""
    bar.say("Marsh Light for 2 litres")
    assert values(bar, "200 g lime peel, how much sugar for the oleo?")["sugar"] == pytest.approx(200)


@pytest.mark.parametrize(
    ("text", "cost"),
    [
        ("what does the Reed cost?", 2.4),
        ("cost of forty Reeds", 96),
        ("what do 40 reeds cost?", 96),
        ("how much does 1 litre of Reed cost us?", 24),
        ("cost of the Reed for 10", 24),
    ],
)
def test_what_so_much_costs(bar: Chat, text: str, cost: float) -> None:
    """60 ml at 28.00 for 700 ml is 2.40, in 100 ml."""
    bar.say("keep Reed: 60 ml gin (28.00 for 700 ml), 40 ml water (0 for 1 l)", "keep it")
    assert values(bar, text)["cost"] == pytest.approx(cost)


def test_and_for_so_many_after_a_cost_costs_them(bar: Chat) -> None:
    bar.say("keep Reed: 60 ml gin (28.00 for 700 ml), 40 ml water (0 for 1 l)", "keep it", "cost of the Reed")
    assert values(bar, "for 40")["cost"] == pytest.approx(96)
    assert values(bar, "and 1 litre?")["cost"] == pytest.approx(24)


@pytest.mark.parametrize("text", ["how strong is the Marsh Light for 2 litres?", "strength of 40 Marsh Lights"])
def test_so_much_is_as_strong_as_any_of_it(bar: Chat, text: str) -> None:
    assert values(bar, text)["abv"] == pytest.approx(20)


@pytest.mark.parametrize(
    ("text", "sugar"),
    [
        ("half a batch of the Basil Cordial", 200),
        ("1/2 batch of Basil Cordial", 200),
        ("double batch Basil Cordial", 800),
        ("3 batches of basil cordial", 1200),
        ("one and a half batches of Basil Cordial please", 600),
        ("Basil Cordial, two batches", 800),
        ("2x Basil Cordial", 800),
    ],
)
def test_batches_are_of_the_whole_spec(bar: Chat, text: str, sugar: float) -> None:
    """Also after an answer about another spec, which is not halved for it."""
    bar.say("forty of the Marsh Light")
    assert values(bar, text)["sugar"] == pytest.approx(sugar)


def test_a_batch_of_what_serves_ten_serves_ten(bar: Chat) -> None:
    bar.say("keep Heron Bowl: 600 ml gin, 400 ml soda water; serves 10", "yes")
    assert values(bar, "half a batch of the Heron Bowl")["gin"] == pytest.approx(300)
    assert values(bar, "two Heron Bowls")["gin"] == pytest.approx(120)


@pytest.mark.parametrize(
    "text", ["how much citric acid for 2 litres of Basil Cordial?", "how much citric goes into 2 l of basil cordial",
             "how much citric acid do we need for 2 l Basil Cordial"]
)
def test_one_line_of_so_much_comes_first(bar: Chat, text: str) -> None:
    """20 g in 800 ml."""
    reply = bar.say(text)
    first = reply.data["answer"][0]
    assert (first["name"], first["value"]) == ("citric acid", pytest.approx(50))


@pytest.mark.parametrize(
    "text", ["hey quick one, 40 marsh lights", "shit, 40 marsh light too", "another 40 Marsh Lights, please",
             "ok and then 40 of the marsh light as well pls"]
)
def test_in_a_hurry(bar: Chat, text: str) -> None:
    assert values(bar, text)["gin"] == pytest.approx(1800)


def test_a_question_about_one_spec_is_never_answered_of_the_one_before(bar: Chat) -> None:
    """What cannot be read of the second is declined or asked, and the first is not told again for it."""
    bar.say("keep Night Ferry: 50 ml rum, 20 ml vermouth", "yes")
    asked = ("need 2l night ferry prebatched w 20% water", "compare marsh light and night ferry", "night ferry, 3 keg")
    for text in asked:
        reply = bar.say("forty of the Marsh Light", text)
        assert "gin" not in {v["name"] for v in reply.to_json()["answer"]}, text


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("yield of the Basil Cordial", "Basil Cordial makes 800 ml."),
        ("how much does the Marsh Light make?", "Marsh Light: its lines come to 90 ml."),
        ("which is the strongest drink?", "I take one spec at a time: ask for the strength or the cost of each."),
    ],
)
def test_what_it_makes(bar: Chat, text: str, told: str) -> None:
    assert bar.say("forty of the Marsh Light", text).headline == told


@pytest.mark.parametrize(
    "text", ["whats in a marsh light again", "spec for marsh light pls", "marsh light specs",
             "method for the Marsh Light", "how do I make a marsh light?"]
)
def test_shown_in_the_words_of_a_bar(bar: Chat, text: str) -> None:
    assert bar.say(text).headline.startswith("Marsh Light, version 1")


@pytest.mark.parametrize("text", ["10 ml less lime", "and 10 ml less lime juice?", "what if I use 10 ml less lime?"])
def test_less_of_a_line_needs_no_what_if(bar: Chat, text: str) -> None:
    """45 ml of gin at 40 % hold 18 ml of ethanol, in 80 ml instead of 90."""
    bar.say("strength of the Marsh Light")
    assert values(bar, text)["abv"] == pytest.approx(22.5)
    more = bar.say("and 5 ml more gin").text
    assert "gin 50 ml (was 45 ml); it was abv 22.5 % ABV" in more and "lime juice 15 ml" in more


def test_less_of_a_line_that_was_only_said(chat: Chat) -> None:
    """40 ml for 50 in each of thirty."""
    chat.say("scale to 30 serves: 50 ml gin, 20 ml lime juice, 15 ml simple syrup")
    assert values(chat, "10 ml less gin")["gin"] == pytest.approx(1200)


@pytest.mark.parametrize(
    ("text", "water"),
    [("double the Basil Cordial", 1000), ("half the basil cordial", 250), ("triple basil cordial", 1500)],
)
def test_so_many_times_the_whole_spec(bar: Chat, text: str, water: float) -> None:
    """The cordial makes 800 ml, and so much of that: the water alone is no total of it."""
    reply = bar.say(text)
    assert {v["name"]: v["value"] for v in reply.data["answer"]}["water"] == pytest.approx(water)
    assert f"for {water * 1.6:g} ml" in reply.text


@pytest.mark.parametrize("more", ["", "; serves 1"])
def test_no_total_is_told_where_much_is_weighed(chat: Chat, more: str) -> None:
    """A pound of sugar in half as much water takes up room that nobody counted."""
    chat.say(f"keep Rush: 500 g sugar, 250 ml water{more}", "yes")
    reply = chat.say("3 of the Rush")
    assert {v["name"] for v in reply.data["answer"]} >= {"sugar", "water"}
    assert "total" not in reply.text and "in all" not in reply.text
