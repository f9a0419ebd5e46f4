"""The book by chat: kept on confirmation, shown, changed, copied, renamed, deleted, undone; every version stays."""

from __future__ import annotations

from typing import Any

import pytest

from .conftest import CORDIAL, LIGHT, Chat

PASTED = "Sedge Sour\n50 ml aquavit\n25 ml lemon juice\n15 ml simple syrup\nShake, strain.\nKeeps 1 day"


def test_a_spec_is_read_back_and_kept_only_on_confirmation(chat: Chat) -> None:
    reply = chat.say(PASTED)
    assert (reply.status, reply.buttons) == ("asks", ("keep it", "drop it")) and "50 ml aquavit" in reply.text
    assert chat.names == []
    assert chat.say("how much salt for 100 g of 20 % saline?").status == "answered"
    assert "Sedge Sour, version 1" in chat.say("keep it").text
    assert chat.lines("sedge sour") == {
        "aquavit": (50, "milliliter"),
        "lemon juice": (25, "milliliter"),
        "simple syrup": (15, "milliliter"),
    }
    assert chat.say("yes").status != "noted"


def test_what_is_dropped_is_not_kept(chat: Chat) -> None:
    assert "Dropped" in chat.say(PASTED, "no").text
    assert chat.names == [] and chat.state.board is None
    assert chat.say("keep it").status != "noted" and chat.names == []


def test_a_draft_is_mended_before_it_is_kept(chat: Chat) -> None:
    assert "20 ml simple syrup" in chat.say(PASTED, "change simple syrup to 20 ml").text
    chat.say("yes")
    assert chat.lines("Sedge Sour")["simple syrup"] == (20, "milliliter")


def test_a_spec_that_cannot_be_kept_names_every_problem(chat: Chat) -> None:
    reply = chat.say("keep Rush: 45 ml gin, 2-3 dashes bitters, a splash of soda")
    assert reply.status == "declined" and "range" in reply.text and "splash" in reply.text
    assert not chat.state.board


def test_listed_and_shown_by_a_name_that_is_nearly_right(bar: Chat) -> None:
    assert "Kept here: 2 specs" in bar.say("our specs").text
    for text in ("Marsh Light", "show the marsh light", "what's in the marsh light?", "marsh ligt", "show Mash Light"):
        assert bar.say(text).text.startswith("Marsh Light, version 1"), text
    assert "20 ml Basil Cordial (kept here)" in bar.say("marsh light").text


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("change the gin in Marsh Light to 50 ml", {"gin": (50, "milliliter")}),
        ("change Marsh Light: 50 ml gin", {"gin": (50, "milliliter")}),
        ("make the gin 50 ml in Marsh Light", {"gin": (50, "milliliter")}),
        ("change basil cordial to 3/4 oz in the marsh light", {"Basil Cordial": (0.75, "fluid_ounce")}),
        ("use 5 ml less lime juice in Marsh Light", {"lime juice": (20, "milliliter")}),
        ("add 2 dashes bitters to Marsh Light", {"bitters": (2, "dash"), "gin": (45, "milliliter")}),
    ],
)
def test_a_line_is_changed(bar: Chat, text: str, lines: dict[str, Any]) -> None:
    reply = bar.say(text)
    assert reply.status == "noted" and "version 2" in reply.text, reply.text
    assert lines.items() <= bar.lines("Marsh Light").items()
    assert bar.say("undo").status == "noted" and bar.lines("Marsh Light") == {
        "gin": (45, "milliliter"),
        "Basil Cordial": (20, "milliliter"),
        "lime juice": (25, "milliliter"),
    }


def test_a_line_is_taken_out_or_swapped(bar: Chat) -> None:
    bar.say("swap the gin for vodka in Marsh Light", "take the lime juice out of Marsh Light")
    assert bar.lines("Marsh Light") == {"vodka": (45, "milliliter"), "Basil Cordial": (20, "milliliter")}
    assert "no lime juice" in bar.say("remove the lime juice from Marsh Light").text


def test_what_it_makes_is_said_later(bar: Chat) -> None:
    bar.say("Marsh Light serves 2", "Basil Cordial keeps 10 days")
    light, cordial = (bar.state.book.named(n) for n in ("Marsh Light", "Basil Cordial"))
    assert light and light.makes and (light.makes.unit, light.makes.value) == ("count", 2)
    assert cordial and cordial.keeps and cordial.keeps.base == 10 * 86400


def test_who_changed_what_and_when(bar: Chat) -> None:
    bar.state = bar.state.but(here=bar.state.here.__class__("Bea", bar.state.here.now))
    bar.say("change the gin in Marsh Light to 50 ml")
    told = bar.say("versions of Marsh Light").text
    assert "1. 2026-05-01 12:00 Ada: kept" in told and "2. 2026-05-01 12:00 Bea: 50 ml gin (was 45 ml)" in told
    assert bar.say("Marsh Light as in version 1").status == "asks"
    bar.say("yes")
    assert bar.lines("Marsh Light")["gin"] == (45, "milliliter")
    assert [s.version for s in bar.state.book.of(2)] == [1, 2, 3]


def test_a_name_is_changed_wherever_it_stands(bar: Chat) -> None:
    assert "Changed with it: Marsh Light" in bar.say("rename Basil Cordial to Green Cordial").text
    assert bar.names == ["Green Cordial", "Marsh Light"] and "Green Cordial" in bar.lines("Marsh Light")
    bar.say("undo")
    assert bar.names == ["Basil Cordial", "Marsh Light"] and "Basil Cordial" in bar.lines("Marsh Light")
    assert "already" in bar.say("rename Basil Cordial to marsh light").text


def test_copied_and_deleted(bar: Chat) -> None:
    bar.say("copy Marsh Light as Dusk Light", "change the gin in Dusk Light to 60 ml")
    assert bar.lines("Marsh Light")["gin"] == (45, "milliliter") and bar.lines("Dusk Light")["gin"] == (
        60,
        "milliliter",
    )
    assert "Marsh Light, Dusk Light still name it" in bar.say("delete Basil Cordial").text
    assert bar.names == ["Marsh Light", "Dusk Light"]
    bar.say("undo")
    assert "Basil Cordial" in bar.names


def test_the_same_name_again_is_a_new_version(bar: Chat) -> None:
    assert "kept already" in bar.say(LIGHT).text
    reply = bar.say(LIGHT.replace("45 ml", "40 ml"))
    assert "This changes version 1: 40 ml gin (was 45 ml)" in reply.text
    bar.say("yes")
    assert bar.names == ["Basil Cordial", "Marsh Light"] and bar.lines("Marsh Light")["gin"] == (40, "milliliter")


@pytest.mark.parametrize(
    "text",
    [
        "add 30 ml Marsh Light to Basil Cordial",
        "keep Basil Cordial: 10 ml Basil Cordial, 5 ml water",
        "keep Basil Cordial: 500 ml water, 30 ml marsh light",
    ],
)
def test_no_spec_holds_itself(bar: Chat, text: str) -> None:
    reply = bar.say(text)
    assert reply.status == "declined" and "hold itself" in reply.text and "Basil Cordial →" in reply.text
    assert len(bar.state.book.versions) == 2


def test_allergens_go_through(bar: Chat) -> None:
    bar.say("keep Reed Milk: 100 ml almond milk, 50 ml whole milk", "yes")
    bar.say("keep Reed Flip: 30 ml Reed Milk, 1 egg white", "yes")
    told = bar.say("what allergens are in the Reed Flip?").text
    assert all(word in told for word in ("milk", "eggs", "nuts")) and "Beware" in told


def test_one_chat_knows_nothing_of_another(bar: Chat, another: Any) -> None:
    assert another().say("specs").text.startswith("No spec is kept here yet")


def test_forget_me_is_asked_once_more(bar: Chat) -> None:
    reply = bar.say("forget me")
    assert reply.status == "asks" and "2 specs" in reply.text
    assert bar.say("no, keep it").status == "noted" and bar.names
    assert bar.say("yes, forget all of it").status != "noted" and bar.names, "nobody asked"
    assert "yes, forget all of it" in bar.say("forget me", "yes").text and bar.names
    bar.say("forget me", "yes, forget all of it")
    assert (bar.names, bar.state.errand, bar.state.settings, bar.state.last) == ([], "forget", {}, None)


def test_nothing_is_kept_of_a_message_that_is_too_long(chat: Chat) -> None:
    assert chat.say("keep Rush: " + "45 ml gin, " * 400).status == "declined" and CORDIAL and not chat.names


@pytest.mark.parametrize("text", ["change the rum in the Marsh Light to 50", "set vodka in marsh light to 50 ml"])
def test_a_line_that_is_not_there_is_not_changed(bar: Chat, text: str) -> None:
    reply = bar.say(text)
    assert reply.status == "declined" and "it has gin, Basil Cordial, lime juice" in reply.text
    assert len(bar.lines("Marsh Light")) == 3


def test_a_bare_number_is_in_the_unit_of_the_line(bar: Chat) -> None:
    bar.say("change the gin in the Marsh Light to 50")
    assert bar.lines("Marsh Light")["gin"] == (50, "milliliter")


def test_a_line_is_changed_to_another_thing(bar: Chat) -> None:
    bar.say("change the gin in the Marsh Light to 40 ml rum")
    assert bar.lines("Marsh Light") == {
        "rum": (40, "milliliter"), "Basil Cordial": (20, "milliliter"), "lime juice": (25, "milliliter")}
    bar.say("change the rum in the Marsh Light to 45 ml at 50 %")
    assert bar.lines("Marsh Light")["rum"] == (45, "milliliter")
    bar.say("keep Punch: 1 l Marsh Light, 500 ml rum", "yes")
    assert "hold itself" in bar.say("change the rum in the Marsh Light to 45 ml Punch").text
