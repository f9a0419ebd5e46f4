"""Reminders: offered, set, listed and cancelled in plain words; kept, fired once, late ones said to be late."""

from __future__ import annotations

import asyncio
import subprocess
import sys
from datetime import UTC, datetime, timedelta

import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from stillroom_bot.reminders import Reminder, coming, due_text
from stillroom_bot.reply import Reply
from stillroom_bot.state import State
from stillroom_bot.store import open_store
from stillroom_bot.store.reminders import LEASE_SECONDS
from stillroom_bot.terminal import chat as terminal

NOW = datetime(2026, 11, 25, 14, 0, tzinfo=UTC)
ROME = State(settings={"zone": "Europe/Rome"})


@pytest.fixture(scope="module")
def talker() -> Conversation:
    return Conversation(Kernel(), clock=lambda: NOW)


def said(talker: Conversation, *texts: str, state: State = ROME) -> tuple[Reply, State]:
    reply = None
    for text in texts:
        reply, state = talker.answer(text, state)
        state = State.from_json(state.to_json())
    assert reply is not None
    return reply, state


def due(state: State) -> list[tuple[str, str]]:
    return [(r.due.astimezone(UTC).isoformat()[:16], r.text) for r in coming(state.reminders, NOW)]


@pytest.mark.parametrize(
    ("question", "due_at"),
    [
        ("180 g of lemon peel, how much sugar for the oleo?", "2026-11-27T14:00"),  # 48 h: common practice, no source
        ("how many chargers does a full quart siphon want?", "2026-11-28T14:00"),  # 3 days: the table of keeping times
        ("milk for 3 l of punch", "2026-11-25T15:00"),  # the curd's hour: common practice, no source
        ("our cordial keeps 14 days and was made 5 days ago, days left?", "2026-12-04T14:00"),
        ("it steeps 48 h and must be ready in 60 h, in how many hours do I start at the latest?", "2026-11-26T02:00"),
    ],
)
def test_after_an_answer_with_a_time_one_is_offered(talker: Conversation, question: str, due_at: str) -> None:
    reply, state = said(talker, question)
    assert "Say “remind me”" in reply.text and state.reminders is None
    for yes in ("remind me", "yes please"):
        reply, after = said(talker, yes, state=state)
        assert reply.status == "noted" and [at for at, _ in due(after)] == [due_at]


@pytest.mark.parametrize("question", ["convert 90 min to hours", "60 ml gin at 45%, 25 ml lemon juice: abv?",
                                      "dose 0.3 % xanthan in 800 ml: how much?"])
def test_none_is_offered_where_there_is_nothing_to_wait_for(talker: Conversation, question: str) -> None:
    reply, _ = said(talker, question)
    assert reply.status == "answered" and "remind me" not in reply.text


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("remind me in 20 min to strain the milk", ("2026-11-25T14:20", "strain the milk")),
        ("Remind me to strain the oleo in 48 hours", ("2026-11-27T14:00", "strain the oleo")),
        ("remind me tomorrow at 9:30 to press limes", ("2026-11-26T08:30", "press limes")),
        ("remind me on Friday 19:00 about the foam", ("2026-11-27T18:00", "the foam")),
        ("remind me to call the dairy on 3 December at 8am", ("2026-12-03T07:00", "call the dairy")),
        ("set a reminder for 18:00: chill the glasses", ("2026-11-25T17:00", "chill the glasses")),
        ("please remind me at 14:30 to open", ("2026-11-26T13:30", "open")),
        ("remind me at 7 to open up", ("2026-11-25T18:00", "open up")),
        ("remind me at four o'clock to press limes", ("2026-11-25T15:00", "press limes")),
        ("can you remind me to press limes at four o'clock", ("2026-11-25T15:00", "press limes")),
    ],
)
def test_set_in_plain_words(talker: Conversation, text: str, expected: tuple[str, str]) -> None:
    reply, state = said(talker, text)
    assert due(state) == [expected], reply.text


def test_what_may_be_two_times_is_asked(talker: Conversation) -> None:
    reply, state = said(talker, "remind me tomorrow at 7 to open up")
    assert reply.status == "asks" and len(reply.buttons) == 2 and state.reminders is None
    assert due(said(talker, "19:00", state=state)[1]) == [("2026-11-26T18:00", "open up")]
    reply, state = said(talker, "remind me on 03/04 at 9am to renew the licence")
    assert len(reply.buttons) == 2
    assert due(said(talker, reply.buttons[0], state=state)[1]) == [("2027-04-03T07:00", "renew the licence")]
    reply, state = said(talker, "remind me Wednesday to order ice")  # on a Wednesday
    assert reply.status == "asks" and len(reply.buttons) == 4


def test_a_day_alone_asks_for_the_time(talker: Conversation) -> None:
    reply, state = said(talker, "remind me Friday to order ice")
    assert reply.status == "asks"
    assert due(said(talker, "12:00", state=state)[1]) == [("2026-11-27T11:00", "order ice")]


@pytest.mark.parametrize("text", ["remind me yesterday to weep", "remind me in 900 days to smile"])
def test_the_past_and_the_far_are_refused(talker: Conversation, text: str) -> None:
    reply, state = said(talker, text)
    assert reply.status == "declined" and not state.reminders


def test_listed_and_cancelled(talker: Conversation) -> None:
    three = [f"remind me in {n} h to {what}" for n, what in ((3, "strain the milk"), (1, "press limes"), (2, "chill"))]
    reply, state = said(talker, *three, "what reminders do I have?")
    assert [line[:2] for line in reply.body[:3]] == ["1.", "2.", "3."] and "press limes" in reply.body[0]
    assert [t for _, t in due(said(talker, "cancel reminder 2", state=state)[1])] == ["press limes", "strain the milk"]
    for text, left in (("cancel the first", ["chill", "strain the milk"]),
                       ("drop the last one", ["press limes", "chill"])):
        assert [t for _, t in due(said(talker, text, state=state)[1])] == left
    assert len(due(said(talker, "forget the reminder about the milk", state=state)[1])) == 2
    assert said(talker, "cancel the reminder", state=state)[0].status == "asks"
    _, after = said(talker, "cancel all reminders", state=state)
    assert due(after) == [] and said(talker, "reminders?", state=after)[0].headline == "There are no reminders."

def test_cancelled_by_a_word_of_theirs(talker: Conversation) -> None:
    """A number answers by its place in the list, though another one says “1 h”."""
    some = ("how much milk to clarify 2.4 l of punch?", "remind me", "remind me in 20 min to strain the milk",
            "remind me friday 9:00 to press limes")
    reply, state = said(talker, *some, "cancel the lime one")
    assert "press limes" in reply.headline and len(due(state)) == 2
    reply, state = said(talker, "cancel the one about milk", state=state)
    assert reply.status == "asks" and len(reply.buttons) == 2 and due(state)
    reply, state = said(talker, "1", state=state)
    assert reply.headline.startswith("Cancelled: strain the milk") and len(due(state)) == 1
    reply, state = said(talker, "cancel the lemon one", state=state)
    assert "reminder" not in reply.headline.lower() and len(due(state)) == 1, "that is of no reminder"


@pytest.mark.parametrize("when", ["friday 10:30", "on friday at 10:30"])
def test_the_time_may_be_said_after_the_matter(talker: Conversation, when: str) -> None:
    reply, state = said(talker, "remind me to call the ice man")
    assert reply.status == "asks" and not due(state)
    reply, state = said(talker, when, state=state)
    assert reply.status == "noted" and "10:30" in reply.headline and due(state)[0][1] == "call the ice man"
    _, state = said(talker, "remind me to call the ice man", "how much salt for 1 l of 20% saline?", "friday 10:30")
    assert not due(state), "it was asked about something else since"


def test_a_late_one_says_so() -> None:
    reminder = Reminder("strain the oleo", NOW, NOW - timedelta(hours=48))
    assert due_text(reminder, NOW + timedelta(seconds=20)) == "Reminder: strain the oleo"
    assert "2 h 10 min late" in due_text(reminder, NOW + timedelta(minutes=130))
    assert Reminder.from_json(reminder.to_json()) == reminder


@pytest.mark.parametrize(
    ("question", "span", "told"),
    [("milk for 3 l of punch", "1 h", "for an hour unless you say otherwise"),
     ("milk for 3 l of punch, it stands 20 min", "20 min", "rest 20 min")])
def test_the_milk_stands_as_long_as_the_answer_says(talker: Conversation, question: str, span: str, told: str) -> None:
    reply, _ = said(talker, question)
    assert told in reply.text and f"Say “remind me” to be told in {span}." in reply.text


def _state(*reminders: Reminder) -> dict[str, object]:
    return State(reminders=tuple(r.to_json() for r in reminders)).to_json()


async def test_kept_through_a_restart_and_fired_once(url: str) -> None:
    now = NOW.timestamp()
    first, second = (Reminder(f"n {n}", NOW + timedelta(minutes=n), NOW) for n in (1, 2))
    async with open_store(url) as store:
        assert await store.chats.put("telegram:1", _state(first, second), 0, now) == 1
        assert await store.reminders.take("telegram:", now + 59) == []
    async with open_store(url) as store, open_store(url) as other:
        found = await asyncio.gather(*(s.reminders.take("telegram:", now + 61) for s in (store, other, store, other)))
        taken = [due for some in found for due in some]
        assert [(d.chat, d.reminder) for d in taken] == [("telegram:1", first)]
        await store.reminders.done(taken[0], now + 62)
        assert await store.chats.put("telegram:1", _state(first, second), 1, now + 63) == 2
        assert await store.reminders.take("telegram:", now + 119) == []
        assert len(await other.reminders.take("telegram:", now + 3600)) == 1


async def test_what_a_worker_died_over_is_given_out_again(url: str) -> None:
    now = NOW.timestamp()
    async with open_store(url) as store:
        await store.chats.put("telegram:1", _state(Reminder("x", NOW + timedelta(minutes=1), NOW)), 0, now)
        assert len(await store.reminders.take("telegram:", now + 61)) == 1
        assert await store.reminders.take("telegram:", now + 61 + LEASE_SECONDS / 2) == []
        assert len(await store.reminders.take("telegram:", now + 62 + LEASE_SECONDS)) == 1


async def test_a_cancelled_one_and_a_forgotten_chat_stay_silent(url: str) -> None:
    now = NOW.timestamp()
    soon = Reminder("x", NOW + timedelta(minutes=1), NOW)
    async with open_store(url) as store:
        await store.chats.put("telegram:1", _state(soon), 0, now)
        await store.chats.put("telegram:1", _state(), 1, now + 5)
        await store.chats.put("telegram:2", _state(soon), 0, now)
        await store.chats.put("terminal", _state(soon), 0, now)
        await store.forget("telegram:2")
        assert await store.reminders.take("telegram:", now + 600) == []
        found = await store.reminders.take("terminal", now + 600)
        assert [d.chat for d in found] == ["terminal"]
        await store.reminders.done(found[0], now + 600)
        await store.purge(now + 30 * 86400)
        await store.chats.put("terminal", _state(soon), 1, now + 30 * 86400)
        assert await store.reminders.take("terminal", now + 31 * 86400) == []


async def test_the_terminal_says_it_at_the_next_prompt(url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("STILLROOM_DATABASE", url)
    made = datetime.now(UTC) - timedelta(hours=4)
    async with open_store(url) as store:
        late = Reminder("strain the oleo", made + timedelta(hours=1), made)
        await store.chats.put(terminal.KEY, _state(late), 0, made.timestamp())
    for times in (1, 0):
        done = await asyncio.to_thread(
            subprocess.run, [sys.executable, "-m", "stillroom_bot.cli", "chat"], input="thanks\n", text=True,
            capture_output=True, check=True)
        assert done.stdout.count("3 h late") == times and done.stdout.count("strain the oleo") == times
