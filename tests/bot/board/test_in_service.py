"""Half a sentence in the middle of a service: what is meant of the drink before, of the book, of the plan.

Marsh Light is 45 ml gin, 20 ml Basil Cordial, 25 ml lime juice.  Sums by hand.
"""

from __future__ import annotations

import pytest

from .conftest import Chat


def test_how_much_of_a_line_that_is(bar: Chat) -> None:
    bar.say("need 60 marsh lights")
    reply = bar.say("how much lime is that")
    assert reply.data["answer"][0] | {"origin": ""} == {
        "name": "lime juice", "value": pytest.approx(1500), "unit": "milliliter", "origin": ""}


@pytest.mark.parametrize("text", ["whats the abv", "and the strength?", "abv"])
def test_its_strength(bar: Chat, text: str) -> None:
    """45 ml at 40 % in 90 ml."""
    bar.say("forty of the Marsh Light")
    assert bar.say(text).data["answer"][0]["value"] == pytest.approx(20)


def test_several_drinks_want_a_day(bar: Chat) -> None:
    reply = bar.say("60 marsh lights and 2 basil cordials")
    assert reply.status == "asks" and "“Friday 19:00, 60 Marsh Light, 2 Basil Cordial”" in reply.text
    assert "plan" not in bar.say("50 ml gin and 20 ml lime juice").text


@pytest.mark.parametrize("text", ["anything with dairy?", "what contains milk", "which drinks have dairy"])
def test_what_has_a_kind_of_thing_in_it(bar: Chat, text: str) -> None:
    bar.say("keep Reed Flip: 45 ml rum, 30 ml whole milk", "yes")
    assert bar.say(text).body[0] == "• Reed Flip: whole milk"


def test_one_spec_beside_another(bar: Chat) -> None:
    bar.say("copy the Marsh Light to Mire Light", "change the gin in Mire Light to 50 ml")
    assert bar.say("whats the difference between the marsh light and the mire light").body == (
        "• 50 ml gin (was 45 ml)",)


def test_an_older_version_as_it_is_asked_for(bar: Chat) -> None:
    bar.say("change the gin in the Marsh Light to 50 ml")
    for text in ("marsh light v1", "show version 1 of the marsh light", "marsh light version 1"):
        assert "• 45 ml gin" in bar.say(text).body and bar.say("drop it").status == "noted"


def test_by_a_part_of_its_name(bar: Chat) -> None:
    assert bar.say("how do i make the cordial").headline.startswith("Basil Cordial, version 1")


def test_days_are_several(bar: Chat) -> None:
    assert bar.say("marsh light keeps 5 days").headline.endswith("keeps 5 days.")


def test_started_now_is_ready_then(bar: Chat) -> None:
    """Twelve hours from noon."""
    bar.say("basil cordial rests 12 h")
    reply = bar.say("started the basil cordial at 9:00")
    assert reply.headline == "Ready on Friday 1 May, 21:00" and "remind me" in reply.text
    assert bar.say("remind me").headline.startswith("I will remind you on Friday 1 May, 21:00")


@pytest.mark.parametrize(
    ("text", "gin", "lime"),
    [("use 50 gin in the marsh light", 50, 25), ("change marsh light to 40 gin and 30 lime juice", 40, 30)],
)
def test_a_bare_number_is_in_the_measure_of_its_line(bar: Chat, text: str, gin: float, lime: float) -> None:
    bar.say(text)
    found = bar.lines("Marsh Light")
    assert (found["gin"], found["lime juice"]) == ((gin, "milliliter"), (lime, "milliliter"))


def test_a_bare_number_of_what_is_new_wants_a_measure(bar: Chat) -> None:
    reply = bar.say("add 10 triple sec to the marsh light")
    assert reply.status == "declined" and "“10 triple sec” has no unit" in reply.text
    bar.say("add 1 egg white to the marsh light")
    assert bar.lines("Marsh Light")["egg white"] == (1, "count")


def test_what_if_another_thing_went_in(bar: Chat) -> None:
    """45 ml of fino at 15 % in 90 ml."""
    reply = bar.say("what if I use fino sherry instead of gin in the marsh light")
    assert reply.data["answer"][0]["value"] == pytest.approx(7.5)
    assert "fino sherry instead of gin" in reply.text and "gin" in bar.lines("Marsh Light")


def test_serves_are_not_made(bar: Chat) -> None:
    assert bar.say("marsh light serves 2").headline.endswith("serves 2.")


@pytest.mark.parametrize("text", ["strength of the marsh light without the lime", "marsh light without lime: abv?",
                                  "strength without lime in the marsh light"])
def test_without_a_line_is_without_it(bar: Chat, text: str) -> None:
    """18 ml of ethanol in 65 ml."""
    assert bar.say(text).data["answer"][0]["value"] == pytest.approx(18 / 65 * 100)


def test_without_two_lines(chat: Chat) -> None:
    """18 ml of ethanol in 45 ml of gin and 30 ml of water."""
    chat.say("keep Reed: 45 ml gin, 20 ml lime juice, 15 ml simple syrup, 30 ml water", "yes")
    reply = chat.say("strength of the Reed without the lime and syrup")
    assert reply.data["answer"][0]["value"] == pytest.approx(24) and "no lime and no syrup" in reply.text
