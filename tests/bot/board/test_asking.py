"""A kept spec works wherever a spec does, and what stands within it goes through.  Sums by hand."""

from __future__ import annotations

import pytest

from .conftest import Chat


def values(chat: Chat, text: str) -> dict[str, float]:
    """What an answered question says, by name, in the units of the answer."""
    reply = chat.say(text)
    assert reply.status == "answered", f"{text}: {reply.text}"
    return {v["name"]: v["value"] for v in (*reply.data["values"], *reply.data["answer"])}


@pytest.mark.parametrize(
    "text",
    [
        "forty of the Marsh Light",
        "40 Marsh Lights",
        "Marsh Light for 40",
        "marsh light x 40",
        "make 40 of the marsh light",
        "marsh light for forty people",
        "how much gin for 40 Marsh Lights?",
        "scale the Marsh Light to 40 serves",
    ],
)
def test_so_many(bar: Chat, text: str) -> None:
    found = values(bar, text)
    assert (found["gin"], found["Basil Cordial"], found["lime juice"]) == pytest.approx((1800, 800, 1000))
    assert (
        "800 ml of Basil Cordial: 500 ml water, 400 g sugar, 30 g basil leaves, 20 g citric acid." in bar.say(text).text
    )


@pytest.mark.parametrize("text", ["Marsh Light for 2 litres", "2 l of Marsh Light", "make 2 litres of the marsh light"])
def test_so_much(bar: Chat, text: str) -> None:
    """Its lines come to 90 ml."""
    found = values(bar, text)
    assert (found["gin"], found["Basil Cordial"]) == pytest.approx((2000 * 45 / 90, 2000 * 20 / 90))


def test_so_much_of_what_says_what_it_makes(bar: Chat) -> None:
    """It makes 800 ml, whatever its lines come to."""
    found = values(bar, "Basil Cordial for 2 litres")
    assert (found["water"], found["sugar"], found["citric acid"]) == pytest.approx((1250, 1000, 50))
    assert values(bar, "3 Basil Cordials")["sugar"] == pytest.approx(1200)


def test_what_does_not_say_what_it_makes_is_asked(bar: Chat) -> None:
    bar.say("keep Rush Syrup: 500 g sugar, 500 ml water", "yes")
    reply = bar.say("Rush Syrup for 2 litres")
    assert reply.status == "asks" and "How much does Rush Syrup make?" in reply.text
    bar.say("Rush Syrup makes 810 ml")
    assert values(bar, "Rush Syrup for 1.62 l")["sugar"] == pytest.approx(1000)


def test_in_a_siphon(bar: Chat) -> None:
    """A half litre siphon takes one charger: common practice, no source."""
    reply = bar.say("Marsh Light for 400 ml in a half litre siphon")
    assert reply.status == "answered" and "chargers: 1" in reply.text and "Gas under pressure" in reply.text


def test_strength_of_a_drink_with_a_cordial_in_it(bar: Chat) -> None:
    """45 ml of 40 % in 90 ml: the cordial's 20 ml count as 20 ml, whatever went into them."""
    assert values(bar, "strength of Marsh Light")["abv"] == pytest.approx(20)
    assert values(bar, "how strong is it?")["abv"] == pytest.approx(20)


def test_what_holds_alcohol_within_goes_through(bar: Chat) -> None:
    """60 ml of the drink, a fifth of it alcohol, in 120 ml."""
    bar.say("keep Reed Punch: 60 ml Marsh Light, 60 ml soda water", "yes")
    assert values(bar, "strength of the Reed Punch")["abv"] == pytest.approx(10)
    assert "gin" in bar.say("forty Reed Punches").text


def test_sugar_and_acid_go_through(bar: Chat) -> None:
    """400 g of sugar in 800 ml: 10 g in 20 ml, and 0.5 g of citric acid; the juice brings its own of both."""
    found = values(bar, "how much sugar and acid in the Marsh Light?")
    without = values(bar, "how many grams of sugar: 45 ml gin, 25 ml lime juice, 20 ml water")
    assert found["sugar_mass"] - without["sugar_mass"] == pytest.approx(10, abs=0.01)
    assert found["acid_mass"] == pytest.approx(25 * 0.06 + 0.5, abs=1e-6)
    assert found["total"] == pytest.approx(90, abs=1e-3)


def test_cost_goes_through(bar: Chat) -> None:
    """28 x 45/700 + 6 x 25/1000 + (1.2 x 0.4 + 2.5 x 0.3 + 9 x 0.02) x 20/800 = 1.8 + 0.15 + 0.03525."""
    assert "price of gin" in bar.say("cost of the Marsh Light").text
    bar.say(
        "change Basil Cordial: 500 ml water (0.00 for 1 l), 400 g sugar (1.20 for 1 kg)",
        "change Basil Cordial: 30 g basil leaves (2.50 for 100 g), 20 g citric acid (9.00 for 1 kg)",
        "change Marsh Light: 45 ml gin (28.00 for 700 ml), 25 ml lime juice (6.00 for 1 l)",
    )
    assert values(bar, "what does the Marsh Light cost?")["cost"] == pytest.approx(1.8 + 0.15 + 1.41 * 20 / 800)


def test_cautions_of_what_is_within_come_along(bar: Chat) -> None:
    bar.say(
        "keep Reed Flip: 30 ml egg white, 60 ml sherry", "yes", "keep Reed Bowl: 90 ml Reed Flip, 30 ml water", "yes"
    )
    assert "egg" in " ".join(bar.say("ten Reed Bowls").data["cautions"]).lower()


def test_what_if(bar: Chat) -> None:
    """Without 10 ml of the cordial it is 80 ml."""
    reply = bar.say("what if I use 10 ml less cordial in the Marsh Light?")
    assert reply.data["answer"][0]["value"] == pytest.approx(100 * 18 / 80) and "as kept: abv 20 % ABV" in reply.text
    assert bar.lines("Marsh Light")["Basil Cordial"] == (20, "milliliter"), "a what-if is kept nowhere"
    assert values(bar, "how strong is the marsh light with 60 ml gin instead")["abv"] == pytest.approx(100 * 24 / 105)
    bar.say("40 Marsh Lights")
    assert values(bar, "what if I use 5 ml less gin?")["gin"] == pytest.approx(1600)
    assert "has no mead" in bar.say("what if I use 5 ml less mead in the Marsh Light?").text


def test_a_follow_up_keeps_the_spec(bar: Chat) -> None:
    bar.say("forty of the Marsh Light")
    reply = bar.say("and for 60?")
    assert {v["name"]: v["value"] for v in reply.data["answer"]}["gin"] == pytest.approx(2700)
    assert "1200 ml of Basil Cordial" in reply.text


def test_a_spec_for_two_is_halved(bar: Chat) -> None:
    bar.say("Marsh Light serves 2")
    assert values(bar, "40 Marsh Lights")["gin"] == pytest.approx(900)


def test_a_chat_that_resized_its_dash_gets_its_own(bar: Chat) -> None:
    """Three dashes of 0.8 ml, or of 1 ml, in 60 ml of 40 %; bitters are 45 %."""
    bar.say("keep Rush: 60 ml gin, 3 dashes bitters", "yes")
    assert values(bar, "strength of Rush")["ethanol"] == pytest.approx(24 + 2.4 * 0.45)
    bar.say("our dash is 1 ml")
    assert values(bar, "strength of Rush")["ethanol"] == pytest.approx(24 + 3 * 0.45)


def test_a_topping_without_an_amount_is_asked_for(bar: Chat) -> None:
    bar.say("Reed Long\n45 ml gin\n20 ml lime juice\ntop with soda water", "yes")
    assert bar.say("strength of the Reed Long").status == "asks"


@pytest.mark.parametrize(
    "text",
    [
        "gelatine foam at 0.8% for 400 g of basil cordial",
        "how much salt for 250 ml of 20% saline?",
        "2 l of 10% saline",
    ],
)
def test_another_question_is_answered_as_ever(bar: Chat, text: str) -> None:
    fresh, _ = bar.conversation.answer(text)
    assert bar.say(text).to_json() == fresh.to_json()


def test_what_is_refused_is_refused_in_a_spec_too(chat: Chat) -> None:
    assert chat.say("keep Rush: 45 ml methanol, 20 ml lime juice").status == "declined" and not chat.names
    chat.say("keep Rush: 45 ml gin, 20 ml lime juice", "yes", "swap the gin for methanol in Rush")
    assert "gin" in chat.lines("Rush")
    assert chat.say("import:\nReed\n20 ml methanol\n10 ml water").status == "declined" and chat.names == ["Rush"]


def test_what_stays_in_the_sieve_takes_its_share_of_the_alcohol_along(chat: Chat) -> None:
    """700 ml of rum of 40 % leave 660 ml of 40 %; in 100 ml with as much water it is 20 %."""
    chat.say("keep Chicory Rum: 700 ml rum (21.00 for 700 ml), 21 g chicory (10.00 for 1 kg); makes 660 ml", "yes")
    assert values(chat, "strength of the Chicory Rum")["abv"] == pytest.approx(40, rel=1e-6)
    chat.say("keep Rail: 50 ml Chicory Rum, 50 ml water (0.00 for 1 l)", "yes")
    assert values(chat, "strength of the Rail")["abv"] == pytest.approx(20, rel=1e-6)
    assert values(chat, "cost of the Rail")["cost"] == pytest.approx(21.21 * 50 / 660)


def test_what_was_boiled_down_is_asked_about(chat: Chat) -> None:
    chat.say("keep Thick Cider: 1 l apple juice, 10 ml lemon juice; makes 300 ml", "yes")
    chat.say("keep Orchard: 40 ml gin, 20 ml Thick Cider", "yes")
    reply = chat.say("how much sugar and acid in the Orchard?")
    assert reply.status == "asks" and "boiled off" in reply.text


@pytest.mark.parametrize(
    ("steps", "abv"), [("strain", 40.0), ("press, filter", 40.0), ("", None), ("simmer, strain", None)])
def test_much_left_in_the_sieve_is_believed_where_the_steps_say_so(chat: Chat, steps: str, abv: float | None) -> None:
    """1 l of rum of 40 % on coconut, of which 600 ml come out: strained it is still 40 %, boiled nobody knows."""
    chat.say(f"keep Reed Rum: 1 l rum at 40%, 300 g coconut; makes 600 ml; {steps}", "yes")
    reply = chat.say("strength of the Reed Rum")
    if abv is None:
        assert reply.status == "asks" and "boiled off" in reply.text
    else:
        assert {v["name"]: v["value"] for v in reply.data["answer"]}["abv"] == pytest.approx(abv, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "chargers"),
    [
        ("Reed Foam for 1 l in a 1 l siphon", 2),
        ("Reed Foam in a half litre siphon", 1),
        ("Reed Foam for 500 ml in our 0.5 l siphon", 1),
    ],
)
def test_chargers_for_the_siphon_that_is_named(bar: Chat, text: str, chargers: int) -> None:
    """One for half a litre, two for a litre (common practice, no source); without an amount, what it makes."""
    bar.say("keep Reed Foam: 500 ml Basil Cordial, 4 g gelatine; makes 500 ml", "yes")
    assert f"chargers: {chargers}" in bar.say(text).body
    if chargers == 2:
        assert "chargers: 2" in bar.say("and in a half litre siphon?").body


def test_a_siphon_without_a_size_is_asked_about(bar: Chat) -> None:
    """Two litres to be made are no siphon of two litres."""
    reply = bar.say("Marsh Light for 2 litres in a siphon")
    assert reply.status == "answered" and "this one is 2 l" not in reply.text and "siphon?" in reply.text


def test_a_few_leaves_hold_no_sugar_that_counts(bar: Chat) -> None:
    """20 ml of the 800 hold 10 g of sugar and 0.5 g of citric acid; 0.2 g of leaves hold none of either.

    Lime juice: 1.69 % sugar by mass at 1.03 g/ml, 6 % acid (the tables).
    """
    bar.say("keep Basil Cordial: 500 ml water, 400 g sugar, 8 g wendle leaves, 20 g citric acid; makes 800 ml; strain",
            "yes")
    reply = bar.say("sugar in the Marsh Light")
    found = {v["name"]: v["value"] for v in reply.data["values"]}
    assert found["sugar_mass"] == pytest.approx(10 + 25 * 1.03 * 0.0169, rel=0.01)
    assert found["acid_mass"] == pytest.approx(0.5 + 25 * 0.06)
    assert "wendle leaves: taken to hold no alcohol and no sugar and no acid" in reply.text


def test_what_is_not_known_of_a_line_is_asked_for_with_how_to_say_it(chat: Chat) -> None:
    """20 ml of 15 brix, weighed as water: 3 g; 20 ml of 0.5 % acid: 0.1 g."""
    chat.say("keep Reed: 40 ml gin, 20 ml sweet vermouth", "yes")
    reply = chat.say("how sweet is the Reed")
    assert reply.status == "asks"
    assert "“change the sweet vermouth in Reed to 20 ml at 2 brix and 0.5 % acid”" in reply.headline
    chat.say("change the sweet vermouth in Reed to 20 ml at 15 brix and 0.5 % acid")
    assert "20 ml sweet vermouth at 15 brix and 0.5 % acid" in chat.say("show Reed").text
    found = values(chat, "how sweet is the Reed")
    assert (found["sugar_mass"], found["acid_mass"]) == pytest.approx((3, 0.1))


def test_an_acid_within_is_a_line_like_any(bar: Chat) -> None:
    """The cordial's own 400 g in 800 ml."""
    assert values(bar, "how sweet is the Basil Cordial")["sugar"] == pytest.approx(50)


def test_what_was_asked_for_as_well_is_said_to_be_unknown(chat: Chat) -> None:
    chat.say("keep Reed: 40 ml gin, 20 ml fino sherry, 10 ml simple syrup", "yes")
    assert "Not told: the acid, for want of the acid of fino sherry." in chat.say("acid in the Reed").body


@pytest.mark.parametrize(
    ("text", "how"), [("and stirred?", "stirred"), ("shaken", "shaken"), ("what if i stir it", "stirred")]
)
def test_and_stirred(bar: Chat, text: str, how: str) -> None:
    bar.say("strength of the Marsh Light")
    assert bar.say(text).headline == bar.say(f"how strong is the Marsh Light {how}").headline


def test_which_siphon_it_is(bar: Chat) -> None:
    """Two litres fill a litre siphon twice, with two chargers each: common practice, no source."""
    assert "For the chargers: " in bar.say("Marsh Light for 2 litres in a siphon").text
    assert "chargers: 4" in bar.say("quart siphon").body
