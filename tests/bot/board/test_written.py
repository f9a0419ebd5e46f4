"""Specs and prices as a careful person writes them, and plans that are moved."""

from __future__ import annotations

import pytest

from .conftest import Chat
from .test_asking import values

LONG = """Please keep the following recipe:
Bog Myrtle Syrup
1 kg caster sugar
1 litre water
25 g dried bog myrtle (steeped 30 minutes)
Makes 1.6 litres.
Keeps for up to three weeks in the fridge.
Rests for 30 minutes.
Bring the water to 90 °C, steep, strain, dissolve the sugar."""


def test_a_long_and_polite_recipe(chat: Chat) -> None:
    reply = chat.say(LONG)
    assert reply.headline == "Bog Myrtle Syrup, as I read it. Keep it?"
    assert {"Makes 1.6 l.", "Rests 30 minutes.", "Keeps three weeks."} <= set(reply.body)
    assert "1. Bring the water to 90 °C, steep, strain, dissolve the sugar." in reply.body


@pytest.mark.parametrize(
    ("head", "told"),
    [
        ("Fen Punch - for 20", "Serves 20."),
        ("Fen Punch (serves 20)", "Serves 20."),
        ("Fen Punch, makes 2.8 l", "Makes 2.8 l."),
    ],
)
def test_what_it_makes_may_stand_behind_its_name(chat: Chat, head: str, told: str) -> None:
    reply = chat.say(f"{head}\n1 bottle of dark rum (700 ml)\n400 ml lime juice\n1.2 l brewed tea\nStir.")
    assert reply.headline.startswith("Fen Punch, as I read it.") and told in reply.body
    assert "• 700 ml dark rum" in reply.body


@pytest.mark.parametrize("text", ["Hello, I would like to keep a new recipe, please.", "how do I save a spec?"])
def test_how_a_spec_is_kept_is_told(chat: Chat, text: str) -> None:
    reply = chat.say(text)
    assert reply.status == "noted" and "keep Marsh Light: 45 ml gin" in reply.text


@pytest.mark.parametrize(
    "text", ["gin costs 28 for 700 ml", "the gin is now 28.00 per 700 ml", "gin costs us €28 for 700 ml"]
)
def test_a_price_is_noted_for_every_spec_with_the_thing(bar: Chat, text: str) -> None:
    """45 ml at 28.00 for 700 ml is 1.80; 60 ml is 2.40."""
    bar.say("keep Reed: 60 ml gin, 40 ml water (0 for 1 l)", "yes")
    assert bar.say(text).body[0] == "In Marsh Light, Reed."
    assert values(bar, "cost of the Reed")["cost"] == pytest.approx(2.4)
    bar.say("undo")
    asked = "What is the price of gin? Say, for instance, “gin costs 28.00 for 700 ml”."
    assert bar.say("cost of the Reed").headline == asked


def test_the_price_of_what_no_spec_has_is_no_affair_of_the_book(bar: Chat) -> None:
    before = bar.state.book
    bar.say("aquavit costs 26 for 700 ml")
    assert bar.state.book.versions == before.versions


@pytest.mark.parametrize(
    ("text", "service"),
    [
        ("move the plan to 20:00", "Saturday 9 May, 20:00"),
        ("change our plan to Friday", "Friday 8 May, 19:00"),
        ("shift the plan to Friday 8 May at 18:30", "Friday 8 May, 18:30"),
    ],
)
def test_a_plan_is_moved(bar: Chat, text: str, service: str) -> None:
    """It is Friday 1 May 2026, 12:00; Friday of next week is said by its date where it may be either."""
    bar.say("plan for Saturday 9 May, 19:00: 40 Marsh Light")
    reply = bar.say(text)
    if reply.status == "asks":
        assert reply.buttons[1] == service
        reply = bar.say(service)
    assert reply.headline.startswith(f"Plan for {service}: 40 Marsh Light.")


def test_a_weekday_beside_its_date_is_that_date(bar: Chat) -> None:
    """Saturday 9 May is a Saturday, and not tomorrow's."""
    assert bar.say("Saturday 9 May 19:00, 40 Marsh Light").headline.startswith("Plan for Saturday 9 May, 19:00")
    assert bar.say("Sunday 9 May 19:00, 40 Marsh Light").status == "asks"
