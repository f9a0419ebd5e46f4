"""The chat's time zone, said in plain words."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from stillroom_bot.state import State
from stillroom_bot.when.zones import named, now_in, zone_of

NOON = datetime(2026, 7, 1, 12, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def talker() -> Conversation:
    return Conversation(Kernel(discover=False), clock=lambda: NOON)


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("our time zone is Europe/Rome", "Europe/Rome"),
        ("time zone new york", "America/New_York"),
        ("please set the timezone to Kolkata", "Asia/Kolkata"),
        ("Time zone: america/argentina/buenos_aires.", "America/Argentina/Buenos_Aires"),
    ],
)
def test_a_zone_is_set_by_its_name_or_its_city(talker: Conversation, text: str, zone: str) -> None:
    reply, state = talker.answer(text)
    assert reply.status == "noted" and zone in reply.text
    assert zone_of(State.from_json(state.to_json()).settings).key == zone


def test_the_clock_goes_by_it_through_summer_and_winter() -> None:
    settings = {"zone": "Europe/Rome"}
    assert now_in(settings, NOON).hour == 14
    assert now_in(settings, datetime(2026, 1, 1, 12, 0, tzinfo=UTC)).hour == 13


def test_it_is_told_and_taken_back(talker: Conversation) -> None:
    _, state = talker.answer("time zone Europe/Rome")
    reply, _ = talker.answer("time zone?", state)
    assert "Europe/Rome" in reply.text and "Wednesday 14:00" in reply.text
    _, state = talker.answer("time zone back to the default", state)
    assert "zone" not in state.settings


def test_a_place_that_nobody_knows_changes_nothing(talker: Conversation) -> None:
    reply, state = talker.answer("time zone Atlantis")
    assert reply.status == "declined" and "zone" not in state.settings
    assert zone_of({"zone": "No/Such"}) == zone_of({}) == zone_of({"zone": 7})


def test_a_zone_is_only_set_where_the_message_is_about_it(talker: Conversation) -> None:
    assert named("milk") == () and talker.answer("milk for 2 l of punch in the time zone of Rome")[1].settings == {}
