"""What is in a kept spec and which specs hold a thing; changes with the name before them; names in one word."""

from __future__ import annotations

import pytest

from .conftest import Chat
from .test_asking import values

SOUR = "keep Bulrush Sour: 50 ml gin, 25 ml lemon juice, 20 ml Rush Syrup, 20 ml egg white; shake"
SYRUP = "keep Rush Syrup: 500 g sugar, 250 ml water, 20 ml orgeat; makes 560 ml"


@pytest.fixture
def shelf_of_two(bar: Chat) -> Chat:
    bar.say(SYRUP, "yes", SOUR, "yes")
    return bar


@pytest.mark.parametrize(
    "text",
    [
        "does the Bulrush Sour have egg?",
        "is there egg in the bulrush sour?",
        "does bulrush sour contain eggs",
        "any egg in the bulrush sour?",
    ],
)
def test_is_there_egg_in_it(shelf_of_two: Chat, text: str) -> None:
    """Never a number: what is asked is whether, and the labels have the last word."""
    reply = shelf_of_two.say(text)
    assert reply.headline == "Yes: Bulrush Sour has egg white." and "• eggs: egg white" in reply.body
    assert "read the labels" in reply.text


def test_what_a_spec_within_brings_is_found(shelf_of_two: Chat) -> None:
    """Orgeat is made of almonds."""
    assert "orgeat" in shelf_of_two.say("does the Bulrush Sour have nuts?").text
    assert "nuts" in shelf_of_two.say("what allergens are in the Bulrush Sour?").headline


def test_what_is_not_in_it_is_no_promise(bar: Chat) -> None:
    reply = bar.say("does the Marsh Light have celery?")
    assert reply.headline == "No line of Marsh Light names celery." and "says nothing of traces" in reply.text


@pytest.mark.parametrize("text", ["is the bulrush sour vegan?", "can a coeliac drink the Bulrush Sour?",
                                  "is the Bulrush Sour gluten-free?"])
def test_for_whom_it_is_good_is_not_told(shelf_of_two: Chat, text: str) -> None:
    reply = shelf_of_two.say(text)
    assert "cannot promise" in reply.headline and "egg white" in reply.text and "read the labels" in reply.text


@pytest.mark.parametrize("text", ["allergens bulrush sour", "Bulrush Sour allergens", "any allergens in bulrush sour",
                                  "what are the allergens of the bulrush sour?"])
def test_allergens_in_few_words(shelf_of_two: Chat, text: str) -> None:
    assert shelf_of_two.say(text).headline.startswith("Bulrush Sour contains")


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("which specs have egg?", ["Bulrush Sour"]),
        ("which drinks use the Rush Syrup?", ["Bulrush Sour"]),
        ("where do we use basil?", ["Basil Cordial", "Marsh Light"]),
        ("what drinks have gin", ["Bulrush Sour", "Marsh Light"]),
    ],
)
def test_which_hold_it(shelf_of_two: Chat, text: str, names: list[str]) -> None:
    reply = shelf_of_two.say(text)
    assert [row.removeprefix("• ").partition(":")[0] for row in reply.body if row.startswith("•")] == names


@pytest.mark.parametrize(
    ("text", "thing", "value"),
    [
        ("Marsh Light: change the gin to 50 ml", "gin", 50),
        ("marsh light, add 2 dashes orange bitters", "orange bitters", 2),
        ("in the Marsh Light, use 50ml gin", "gin", 50),
        ("Marsh Light replace the gin with 40 ml vodka", "vodka", 40),
    ],
)
def test_the_name_may_stand_before_the_change(bar: Chat, text: str, thing: str, value: float) -> None:
    assert "version 2" in bar.say(text).headline
    assert bar.lines("Marsh Light")[thing][0] == value


def test_a_change_that_is_made_already_is_said_to_be(bar: Chat) -> None:
    reply = bar.say("in the Marsh Light, use 45 ml gin")
    assert reply.headline == "Marsh Light is so already: nothing is changed."
    named = bar.state.book.named("Marsh Light")
    assert named is not None and named.version == 1


@pytest.mark.parametrize("text", ["rename Marsh Light Fen Light", "rename the marsh light to Fen Light",
                                  "call the Marsh Light Fen Light from now on"])
def test_renamed_with_or_without_to(bar: Chat, text: str) -> None:
    bar.say(text)
    assert bar.names == ["Basil Cordial", "Fen Light"]


def test_a_name_that_is_not_kept_is_not_renamed(bar: Chat) -> None:
    assert bar.say("rename the Bog Water to Fen").headline == "I keep no spec called the Bog Water."


def test_two_deleted_at_once_come_back_at_once(bar: Chat) -> None:
    reply = bar.say("delete the Marsh Light and the Basil Cordial")
    assert reply.headline == "Deleted: Marsh Light, Basil Cordial." and not bar.names
    bar.say("undo")
    assert bar.names == ["Basil Cordial", "Marsh Light"]


@pytest.mark.parametrize("name", ["marshlight", "MarshLight", "marsh light"])
def test_a_name_in_one_word(bar: Chat, name: str) -> None:
    assert bar.say(name).headline.startswith("Marsh Light, version 1")
    assert values(bar, f"forty of the {name}")["gin"] == pytest.approx(1800)


def test_plurals_in_ies(chat: Chat) -> None:
    chat.say("keep Night Ferry: 50 ml rum, 20 ml vermouth", "yes")
    assert values(chat, "40 night ferries")["rum"] == pytest.approx(2000)


def test_so_much_of_the_cordial_for_so_many_of_the_drink(bar: Chat) -> None:
    """Forty are made of the drink, not of the cordial that is asked for."""
    reply = bar.say("how much Basil Cordial do I need for 40 Marsh Lights?")
    assert (reply.data["answer"][0]["name"], reply.data["answer"][0]["value"]) == ("Basil Cordial", pytest.approx(800))


@pytest.mark.parametrize(
    "text",
    [
        "pour cost of the Reed at 12",
        "what's the pour cost of the reed at 12.00?",
        "the Reed sells for $12, what is the pour cost?",
        "Reed pour cost if we charge 12 euros",
    ],
)
def test_pour_cost_at_a_price(bar: Chat, text: str) -> None:
    """60 ml at 28.00 for 700 ml is 2.40: a fifth of 12."""
    bar.say("keep Reed: 60 ml gin (28.00 for 700 ml), 40 ml water (0 for 1 l)", "keep it")
    reply = bar.say(text)
    assert (reply.data["answer"][0]["name"], reply.data["answer"][0]["value"]) == ("pour_cost", pytest.approx(20))


@pytest.mark.parametrize(
    "text", ["pour cost of the Reed at 14.40 including 20 % VAT", "pour cost of reed at 14.40 with 20% tax"]
)
def test_pour_cost_of_a_price_that_holds_tax(bar: Chat, text: str) -> None:
    """14.40 with a fifth of tax on top is 12 net, and 2.40 is a fifth of that."""
    bar.say("keep Reed: 60 ml gin (28.00 for 700 ml), 40 ml water (0 for 1 l)", "keep it")
    reply = bar.say(text)
    assert (reply.data["answer"][0]["name"], reply.data["answer"][0]["value"]) == ("pour_cost", pytest.approx(20))


@pytest.mark.parametrize("text", ["Marsh Light mauve", "is the Marsh Light nice?", "the Marsh Light on the left"])
def test_words_that_ask_for_nothing_get_no_number(bar: Chat, text: str) -> None:
    assert bar.say(text).status in ("declined", "asks", "noted")


def test_a_volume_is_what_is_made_and_not_the_water_in_it(bar: Chat) -> None:
    reply = bar.say("Marsh Light for 2 litres with water for dilution")
    assert reply.status != "answered" or "water 2 litres" not in reply.text
