"""Use-by days and starting hours by the calendar; the days are counted on it by hand, 2027-03-10 being a Wednesday."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation

NOW = datetime(2027, 3, 10, 12, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def talk(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """A conversation at noon on a Wednesday."""
    return Conversation(Kernel(tmp_path_factory.mktemp("cache")), clock=lambda: NOW)


@pytest.mark.parametrize(
    ("said", "days", "line"),
    [
        ("cordial made on monday, keeps 14 days, use by?", 12, "Use by Monday 22 March."),
        ("shrub made on 3 March, keeps 10 days, use by?", 3, "Use by Saturday 13 March."),
        ("saline bottled yesterday, keeps 60 days, best before?", 59, "Use by Saturday 8 May."),
    ],
)
def test_the_day_by_which_to_use_it(talk: Conversation, said: str, days: float, line: str) -> None:
    reply, _ = talk.answer(said)
    answer = reply.to_json()["answer"][0]
    assert (answer["value"], answer["unit"]) == (pytest.approx(days), "day")
    assert line in reply.text and reply.question == said


@pytest.mark.parametrize(
    ("said", "hours", "line"),
    [
        ("when do I start peel sugar to have it on saturday at 18:00?", 30, "Begin by Thursday 11 March, 18:00."),
        ("what time do I begin an 8 hour steep for tomorrow at 16:00?", 20, "Begin by Thursday 11 March, 08:00."),
        ("when to start a 48 h infusion for saturday 6pm?", 30, "Begin by Thursday 11 March, 18:00."),
    ],
)
def test_the_hour_at_which_to_begin(talk: Conversation, said: str, hours: float, line: str) -> None:
    reply, _ = talk.answer(said)
    answer = reply.to_json()["answer"]
    assert answer, reply.text
    assert (answer[0]["value"], answer[0]["unit"]) == (pytest.approx(hours), "hour")
    assert line in reply.text


def test_too_late_to_begin(talk: Conversation) -> None:
    reply, _ = talk.answer("when do I start peel sugar to have it tomorrow at 18:00?")
    assert reply.status == "declined"
    assert "too late" in reply.text


def test_a_day_that_may_be_two_is_left_alone(talk: Conversation) -> None:
    reply, _ = talk.answer("cordial made on 3/4, keeps 14 days, use by?")
    assert "Use by" not in reply.text
