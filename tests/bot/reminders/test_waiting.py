"""``When is it ready?`` and ``how long does it keep?``: of the answer before or a kept spec, from now or another start.

Now is Wednesday 25 November 2026, 15:00 in Rome.  48 h for peel sugar, an hour for the curd of a milk punch: common
practice, no source.  3 days at most for a foam base, 14 to 30 days for others: the table of keeping times.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from stillroom_bot.reminders import coming
from stillroom_bot.reply import Reply
from stillroom_bot.state import State

NOW = datetime(2026, 11, 25, 14, 0, tzinfo=UTC)
ROME = State(settings={"zone": "Europe/Rome"})
ROMAN = timezone(timedelta(hours=1))
PEEL = "180 g of lemon peel, how much sugar for the oleo?"
MILK = "milk for 3 l of punch"
FOAM = "how many chargers for two fills of a 1 l siphon?"
KEEP = "keep Sorrel Cordial: 500 ml water, 450 g sugar; makes 800 ml; rests 4 h; keeps 7 days; strain"


@pytest.fixture(scope="module")
def talker() -> Conversation:
    return Conversation(Kernel(), clock=lambda: NOW)


def said(talker: Conversation, *texts: str, state: State = ROME) -> tuple[Reply, State]:
    reply = None
    for text in texts:
        reply, after = talker.answer(text, state)
        state = State.from_json(after.to_json()).but(book=after.book)
    assert reply is not None
    return reply, state


@pytest.mark.parametrize(
    ("text", "when"),
    [
        ("when is it ready?", "Friday 27 November, 15:00"),
        ("when will the oleo be ready?", "Friday 27 November, 15:00"),
        ("when can I strain it?", "Friday 27 November, 15:00"),
        ("ready when?", "Friday 27 November, 15:00"),
        ("how long does it have to stand?", "Friday 27 November, 15:00"),
        ("and when is it ready if I start at 18:00?", "Friday 27 November, 18:00"),
        ("if I start tomorrow at 9 am when is it ready?", "Saturday 28 November, 09:00"),
        ("started yesterday at 16:00, when is it ready?", "Thursday 26 November, 16:00"),
        ("I made it this morning at 8:30, when can I use it?", "Friday 27 November, 08:30"),
        ("when is it ready, started on Tuesday at 17:00", "Thursday 26 November, 17:00"),
    ],
)
def test_peel_sugar_is_ready_after_48_hours(talker: Conversation, text: str, when: str) -> None:
    reply, state = said(talker, PEEL, text)
    assert reply.status == "answered" and reply.headline == f"Ready on {when}", reply.text
    assert reply.data["answer"][0]["value"] == 48 and "common practice" in reply.text
    _, state = said(talker, "remind me", state=state)
    (reminder,) = coming(state.reminders, NOW)
    told = reminder.due.astimezone(ROMAN).strftime("%A %-d %B, %H:%M")
    assert told == when and reminder.text == "Peel sugar is ready"


def test_what_has_been_ready_for_long_offers_nothing(talker: Conversation) -> None:
    reply, state = said(talker, PEEL, "started on Sunday at 10:00, when is it ready?")
    assert reply.headline == "It has been ready since Tuesday 24 November, 10:00" and "remind me" not in reply.text
    reply, _ = said(talker, "remind me", state=state)
    assert reply.status == "asks"


@pytest.mark.parametrize(
    ("texts", "when"),
    [
        ([MILK, "when is it ready?"], "15:00 + 1 h"),
        ([f"{MILK}, let it rest 20 minutes", "when can I strain it?"], "15:00 + 20 min"),
        ([f"{MILK}, let it rest 20 minutes", "remind me"], "15:00 + 20 min"),
        ([MILK, "remind me"], "15:00 + 1 h"),
    ],
)
def test_the_curd_is_ready_when_its_answer_says_so(talker: Conversation, texts: list[str], when: str) -> None:
    """An hour, as the steps of the answer have it, or what the question says; reminder and answer are one."""
    reply, _ = said(talker, *texts)
    due = {"15:00 + 1 h": "16:00", "15:00 + 20 min": "15:20"}[when]
    assert f"Wednesday 25 November, {due}" in reply.headline
    answer, _ = said(talker, texts[0])
    assert when != "15:00 + 1 h" or "for an hour" in answer.text


@pytest.mark.parametrize(
    ("texts", "until"),
    [
        ([FOAM, "how long does it keep?"], "Saturday 28 November"),
        ([FOAM, "how long will the foam keep"], "Saturday 28 November"),
        ([FOAM, "until when is it good?"], "Saturday 28 November"),
        ([FOAM, "when does it go off?"], "Saturday 28 November"),
        ([FOAM, "use by?"], "Saturday 28 November"),
        (["gelatine foam at 0.8% for 400 g of cordial", "how long does it keep?"], "Friday 27 November, 15:00"),
        ([MILK, "how long does it keep?"], "Friday 25 December"),
        ([MILK, "keep how long"], "Friday 25 December"),
        (["2 litres of rich syrup, sugar?", "how long does it keep"], "Sunday 24 January"),
        ([PEEL, "how long does it last?"], "Wednesday 2 December"),
        ([PEEL, "how long does it keep if I make it on Friday?"], "Friday 4 December"),
        (["how much salt for 250 ml of 20% saline?", "how long does it keep?"], "Sunday 24 January"),
        (["1.5 l of rich syrup: how much sugar and water?", "how long does it keep?"], "Sunday 24 January"),
    ],
)
def test_how_long_it_keeps(talker: Conversation, texts: list[str], until: str) -> None:
    """A gelatine foam of cordial keeps as the foam does, two days, and not as the cordial, a fortnight."""
    reply, state = said(talker, *texts)
    assert reply.headline == f"Good until {until}", reply.text
    assert "food code" in reply.text
    _, state = said(talker, "remind me", state=state)
    assert coming(state.reminders, NOW)[0].due > NOW + timedelta(days=1)


def test_of_a_kept_spec(talker: Conversation) -> None:
    _, state = said(talker, KEEP, "yes")
    for texts in (["Sorrel Cordial for 2 litres", "when is it ready?"], ["when is the sorrel cordial ready?"]):
        assert said(talker, *texts, state=state)[0].headline == "Ready on Wednesday 25 November, 19:00"
    reply, _ = said(talker, "how long does the Sorrel Cordial keep if we start on Friday at 10:00?", state=state)
    assert reply.headline == "Good until Friday 4 December"


def test_what_stands_within_it_is_named(talker: Conversation) -> None:
    keep = "keep Marsh Punch: 500 ml rum, 300 ml Sorrel Cordial; rests 12 h"
    _, state = said(talker, KEEP, "yes", keep, "yes")
    reply, _ = said(talker, "when is the marsh punch ready?", state=state)
    assert reply.headline == "Ready on Thursday 26 November, 03:00"
    assert "Sorrel Cordial in it stands 4 h before that" in reply.text


def test_after_so_much_of_what_rests_a_reminder_is_offered(talker: Conversation) -> None:
    reply, state = said(talker, KEEP, "yes", "2 litres of sorrel cordial")
    assert "It stands 4 h. Say “remind me” to be told in 4 h." in reply.text
    reply, _ = said(talker, "remind me", state=state)
    assert "Wednesday 25 November, 19:00" in reply.headline and "Sorrel Cordial is ready" in reply.headline


def test_an_hour_that_may_be_two_is_asked_for(talker: Conversation) -> None:
    reply, state = said(talker, PEEL, "when is it ready if I begin at 7?")
    assert reply.status == "asks" and reply.buttons == ("Thursday 26 November, 07:00", "Wednesday 25 November, 19:00")
    assert said(talker, "7 pm", state=state)[0].headline == "Ready on Friday 27 November, 19:00"


def test_a_day_without_an_hour_is_asked_for(talker: Conversation) -> None:
    reply, state = said(talker, PEEL, "started on Tuesday, when is it ready?")
    assert reply.status == "asks" and reply.buttons == ("09:00", "12:00", "17:00")
    assert said(talker, "09:00", state=state)[0].headline == "Ready on Thursday 26 November, 09:00"


@pytest.mark.parametrize(
    ("texts", "why"),
    [
        (["bring 700 ml of spirit at 60% down to 40%: how much water?", "how long does it keep?"], "keeps"),
        (["how much salt for 250 ml of 20% saline?", "when is it ready?"], "has to stand"),
    ],
)
def test_a_time_that_nobody_knows_is_not_made_up(talker: Conversation, texts: list[str], why: str) -> None:
    reply, _ = said(talker, *texts)
    assert reply.status == "declined" and "I know no time" in reply.text and why in reply.text


@pytest.mark.parametrize(
    "text",
    [
        "how long does lime juice keep?",
        "when do I start peel sugar to have it on Saturday at 18:00?",
        "cordial made on 20 November, keeps 14 days, use by?",
        "how long do I steep vanilla?",
    ],
)
def test_what_has_a_thing_of_its_own_is_a_question_as_ever(talker: Conversation, text: str) -> None:
    fresh, _ = said(talker, text)
    after, _ = said(talker, PEEL, text)
    assert fresh.status == "answered" and after.headline == fresh.headline


def test_a_day_that_may_be_today_or_a_week_ago_is_asked_for(talker: Conversation) -> None:
    """It is Wednesday."""
    reply, state = said(talker, "cordial made on Wednesday, keeps 14 days, use by?")
    assert reply.status == "asks" and reply.buttons == ("Wednesday 25 November", "Wednesday 18 November")
    assert "Use by Wednesday 2 December" in said(talker, "Wednesday 18 November", state=state)[0].text
