"""What ``it`` is after a spec was shown; what goes on top; numbers without a unit; names said in other ways.

The bar's Marsh Light is 45 ml gin, 20 ml Basil Cordial and 25 ml lime juice.  Sums by hand; gin and vodka at 40 %,
taken for granted.
"""

from __future__ import annotations

import pytest

from .conftest import Chat
from .test_asking import values

MULE = "Reed Mule\n50 ml vodka\n15 ml lime juice\n{}\nBuild over ice."


def test_it_is_the_spec_that_was_shown(bar: Chat) -> None:
    bar.say("Basil Cordial", "Marsh Light")
    assert values(bar, "how strong is it?")["abv"] == pytest.approx(20)
    bar.say("Marsh Light")
    assert values(bar, "for 40")["gin"] == pytest.approx(1800)
    bar.say("Marsh Light")
    assert bar.say("allergens in it").headline == "I know of no allergen in Marsh Light."
    assert bar.say("label for it").headline.startswith("Label for Marsh Light")
    assert bar.say("how long does it keep?").headline.startswith("Good until")


def test_it_is_what_was_asked_about_for_a_label(bar: Chat) -> None:
    assert bar.say("forty of the Marsh Light", "label for that").headline.startswith("Label for Marsh Light")


def test_it_is_no_longer_that_spec_once_something_else_was_answered(bar: Chat) -> None:
    reply = bar.say("Marsh Light", "how much salt for 250 ml of 20% saline?", "delete it")
    assert reply.status == "declined" and "Marsh Light" in bar.names


def test_copied_renamed_and_deleted_without_its_name(bar: Chat) -> None:
    bar.say("Marsh Light", "copy it to Fen Light", "rename it to Fen Glow", "delete it")
    assert bar.names == ["Basil Cordial", "Marsh Light"]
    bar.say("undo")
    assert bar.names == ["Basil Cordial", "Marsh Light", "Fen Glow"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("change the gin to 50 ml", "50 ml gin (was 45 ml)"),
        ("remove the lime juice", "lime juice taken out"),
        ("add 2 dashes bitters to it", "2 dashes bitters added"),
        ("swap the gin for vodka", "gin taken out"),
    ],
)
def test_a_change_without_a_name_is_read_back_first(bar: Chat, text: str, told: str) -> None:
    reply = bar.say("Marsh Light", text)
    assert reply.status == "asks" and told in reply.text
    before = bar.state.book.named("Marsh Light")
    assert before is not None and before.version == 1
    assert bar.say("yes").headline == "Kept: Marsh Light, version 2."


@pytest.mark.parametrize("text", ["change the gin to 50 ml", "what if the gin was 50 ml?", "with 50 ml gin"])
def test_after_an_answer_another_amount_is_for_once(bar: Chat, text: str) -> None:
    """20 ml of ethanol in 95 ml; the book keeps its 45 ml."""
    bar.say("strength of the Marsh Light")
    reply = bar.say(text)
    assert reply.data["answer"][0]["value"] == pytest.approx(100 * 20 / 95) and "for this once" in reply.text
    assert bar.lines("Marsh Light")["gin"] == (45, "milliliter")


@pytest.mark.parametrize(
    "top", ["top with ginger beer", "Ginger beer to top", "ginger beer, on top", "Top up with ginger beer"]
)
def test_what_goes_on_top_stays_out_of_the_batch(chat: Chat, top: str) -> None:
    chat.say(MULE.format(top), "yes")
    reply = chat.say("20 reed mules")
    found = {v["name"]: v["value"] for v in reply.data["answer"]}
    assert found["vodka"] == pytest.approx(1000) and "ginger beer" not in found
    assert "top each glass with" in reply.text


@pytest.mark.parametrize("answer", ["120 ml", "120 ml ginger beer", "about 120 ml"])
def test_how_much_goes_on_top_is_asked_where_it_counts(chat: Chat, answer: str) -> None:
    """20 ml of ethanol in 185 ml."""
    chat.say(MULE.format("top with ginger beer"), "yes")
    assert chat.say("strength of the Reed Mule").headline == "How much ginger beer goes on top?"
    assert values(chat, answer)["abv"] == pytest.approx(100 * 20 / 185)
    assert values(chat, "how strong is the Reed Mule topped with 135 ml ginger beer?")["abv"] == pytest.approx(10)


def test_no_strength_on_the_label_of_what_is_topped(chat: Chat) -> None:
    """The drink in the bottle is not the one in the glass, and nobody said how much weaker that is."""
    chat.say(MULE.format("top with ginger beer"), "yes")
    reply = chat.say("label for the Reed Mule")
    assert "Strength:" not in reply.text and "how much ginger beer goes on top is not said" in reply.text


def test_the_question_about_the_top_is_dropped_for_another(chat: Chat) -> None:
    chat.say(MULE.format("top with ginger beer"), "yes", "strength of the Reed Mule")
    assert values(chat, "200 g lemon peel, how much sugar for the oleo?")["sugar"] == pytest.approx(200)


@pytest.mark.parametrize(
    "text", ["keep Daisy: 45 gin, 20 lemon, 15 syrup; shake", "Daisy\n45 gin\n20 lemon\n15 syrup\nShake.",
             "keep Daisy: gin 45, lemon 20, syrup 15; shake"]
)
def test_numbers_without_a_unit_are_millilitres_and_said_to_be(chat: Chat, text: str) -> None:
    reply = chat.say(text)
    assert "no unit was said, taken as ml" in reply.text
    chat.say("yes")
    assert chat.lines("Daisy") == {t: (n, "milliliter") for t, n in (("gin", 45), ("lemon", 20), ("syrup", 15))}


def test_pieces_stay_pieces(chat: Chat) -> None:
    chat.say("keep Reed Mint: 60 white rum, 8 mint leaves, 1 egg white, 30 lime", "yes")
    units = {thing: unit for thing, (_, unit) in chat.lines("Reed Mint").items()}
    assert units == {"white rum": "milliliter", "mint leaves": "count", "egg white": "count", "lime": "milliliter"}


def test_two_of_gin_is_two_of_what(chat: Chat) -> None:
    reply = chat.say("keep Tall: 2 gin, 1 lemon juice, 1 syrup")
    assert reply.status == "declined" and "has no unit" in reply.text


def test_a_file_says_its_units(chat: Chat) -> None:
    reply = chat.say("import:\nDaisy\n45 gin\n20 lemon juice\n")
    assert reply.status == "declined" and "line 2: gin, lemon juice: no unit was said" in reply.text and not chat.names


@pytest.mark.parametrize(
    "text",
    [
        "save this as a spec: Reed Flip - 60 ml rum, 15 ml syrup",
        "save that as our new recipe called Reed Flip: 60 ml rum, 15 ml syrup",
        "keep Reed Flip – 60 ml rum, 15 ml syrup",
        "new drink Reed Flip: 60 ml rum, 15 ml syrup",
    ],
)
def test_ways_to_say_keep(chat: Chat, text: str) -> None:
    assert chat.say(text).headline == "Reed Flip, as I read it. Keep it?"
    chat.say("yes")
    assert chat.lines("Reed Flip") == {"rum": (60, "milliliter"), "syrup": (15, "milliliter")}


def test_what_has_no_name_is_asked_for_one(chat: Chat) -> None:
    assert chat.say("keep: 50 ml gin, 20 ml lime juice").headline == "What is it called?"


def test_a_strength_is_no_part_of_a_name(chat: Chat) -> None:
    chat.say("keep Night Cap: 30 ml mezcal 42%, 30 ml amaro (28 %), 1 barspoon agave syrup", "yes")
    assert list(chat.lines("Night Cap")) == ["mezcal", "amaro", "agave syrup"]
    assert "1 barspoon agave syrup" in chat.say("Night Cap").text
