"""The ways in which a hurried bar writes a spec, and what is said where nothing was read back."""

from __future__ import annotations

import pytest

from .conftest import Chat

GIN, LIME, SYRUP = ("gin", 45.0), ("lime juice", 20.0), ("simple syrup", 15.0)
SOUR = dict((GIN, LIME, SYRUP))


@pytest.mark.parametrize(
    "text",
    [
        "keep Reed Sour = 45 ml gin + 20 ml lime juice + 15 ml simple syrup, shake",
        "keep Reed Sour - 45ml gin / 20ml lime juice / 15 ml simple syrup. shake w ice",
        "keep this one pls: Reed Sour, 45 gin 20 lime juice 15 simple syrup shake",
        "Keep Reed Sour 45ml gin 20ml lime juice 15ml simple syrup",
        "save Reed Sour: 45 gin,20 lime juice,15 simple syrup",
        "keep Reed Sour: 45 ml gin and 20 ml lime juice and 15 ml simple syrup; shake",
        "Spec: Reed Sour = 45 ml gin, 20 ml lime juice, 15 ml simple syrup",
        "Reed Sour: gin 45 ml, lime juice 20 ml, simple syrup 15 ml; shake; salt rim",
        "*Reed Sour* \N{COCKTAIL GLASS}\n- 45 ml gin\n- 20 ml lime juice\n- 15 ml simple syrup",
        "Reed Sour\r\n45 ml gin\r\n20 ml lime juice\r\n15 ml simple syrup",
        "Reed Sour\nGin ...... 45 ml\nLime juice | 20 ml\nSimple syrup: 15 ml\nShake",
        "Reed Sour\n45 ml\tgin\n20 ml\tlime juice\n15 ml\tsimple syrup",
    ],
)
def test_one_sour_in_the_layouts_of_a_bar(chat: Chat, text: str) -> None:
    assert chat.say(text).status == "asks"
    chat.say("keep it")
    assert chat.names == ["Reed Sour"]
    found = chat.lines("Reed Sour")
    assert {k.casefold(): v for k, (v, _) in found.items()} == SOUR
    assert {unit for _, unit in found.values()} == {"milliliter"}


def test_in_ounces_with_fractions_and_nothing_between(chat: Chat) -> None:
    chat.say("keep Reed Sour 1 1/2 oz gin .75 oz lime juice 3/4oz simple syrup stir", "yes")
    assert chat.lines("Reed Sour") == {
        "gin": (1.5, "fluid_ounce"), "lime juice": (0.75, "fluid_ounce"), "simple syrup": (0.75, "fluid_ounce")}
    spec = chat.state.book.named("Reed Sour")
    assert spec and spec.method == ("stir",)


def test_a_strength_and_an_age_are_no_lines_of_their_own(chat: Chat) -> None:
    chat.say("keep Reed Old: 60 ml rye 50%, 5 ml rum 12 years old, 2 dashes bitters", "yes")
    assert [v for v, _ in chat.lines("Reed Old").values()] == [60, 5, 2]


def test_misspelt_things_are_read_back_right(chat: Chat) -> None:
    reply = chat.say("keep Reed Mule: 60ml runm, 30ml lmie jiuce, 2 barspons simpel syrup")
    assert "• 60 ml rum\n• 30 ml lime juice\n• 2 barspoons simple syrup" in reply.text
    assert "“lmie jiuce” is taken for lime juice" in reply.text
    chat.say("yes")
    assert chat.lines("Reed Mule")["rum"] == (60, "milliliter")


def test_a_misspelt_spec_of_the_house_is_that_spec(bar: Chat) -> None:
    reply = bar.say("keep Reed Punch: 1 l Marsh Lihgt, 200 ml Basil Codrial, 1 l soda water")
    assert "1 l Marsh Light (kept here)" in reply.text and "200 ml Basil Cordial (kept here)" in reply.text


def test_what_a_house_calls_its_own_stays_as_it_is(chat: Chat) -> None:
    chat.say("keep Reed Fog: 45 ml gin, 20 ml Wendle, 10 ml yrrah cordial", "yes")
    assert set(chat.lines("Reed Fog")) == {"gin", "Wendle", "yrrah cordial"}


def test_a_pinch_among_the_lines_is_named_and_not_all_of_them(chat: Chat) -> None:
    reply = chat.say("keep Reed Salt: 45 mezcal 20 lime juice 15 agave syrup, splash soda")
    assert reply.status == "declined" and "A splash has no size of its own" in reply.text


def test_three_weeks_in_the_fridge(chat: Chat) -> None:
    chat.say("Reed Cordial\n1 l water\n1 kg sugar\nyields 1.6 l\nkeeps 3 weeks fridge", "yes")
    spec = chat.state.book.named("Reed Cordial")
    assert spec and spec.keeps and spec.keeps.base == 21 * 86400


def test_nothing_to_keep_is_said(chat: Chat) -> None:
    assert "nothing that waits" in chat.say("keep it").text


def test_the_drink_that_was_asked_about_is_kept_under_a_name(chat: Chat) -> None:
    chat.say("scale to 30 serves: 50 ml gin, 20 ml lime juice, 15 ml simple syrup")
    assert "keep it as" in chat.say("keep it").text
    chat.say("keep it as Reed Sour", "yes")
    assert {v for v, _ in chat.lines("Reed Sour").values()} == {50, 20, 15}
    chat.say("strength of the Reed Sour", "10 ml less lime")
    chat.say("save it as Reed Dry", "yes")
    assert chat.lines("Reed Dry")["lime juice"] == (10, "milliliter")
    assert chat.lines("Reed Sour")["lime juice"] == (20, "milliliter")


def test_a_deleted_spec_is_brought_back_by_its_name(bar: Chat) -> None:
    bar.say("delete the Marsh Light", "thanks")
    assert "“restore Marsh Light” brings it back" in bar.say("show marsh light").text
    bar.say("restore marsh light", "keep it")
    assert bar.lines("Marsh Light")["gin"] == (45, "milliliter")


def test_a_name_that_is_nearly_one_is_never_taken_for_the_drink_before(bar: Chat) -> None:
    bar.say("forty of the Basil Cordial")
    reply = bar.say("forty of the marsh lite")
    assert reply.status == "declined" and "forty of the Marsh Light" in reply.text
    assert bar.say("forty of the Eel Trapp").status == "declined"
    assert bar.say("show marhs light").status == "noted"


def test_it_is_the_drink_that_was_asked_about(bar: Chat) -> None:
    bar.say("forty of the Marsh Light")
    assert "called Mire Light now" in bar.say("rename it to Mire Light").text


def test_versions_are_dated_by_the_clock_of_the_bar(bar: Chat) -> None:
    """Kept at noon UTC in May: two in the afternoon in Rome."""
    bar.say("time zone Europe/Rome")
    assert "2026-05-01 14:00 Ada" in bar.say("versions of the Marsh Light").text
