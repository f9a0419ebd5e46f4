"""A chat goes on under another key: everything that is kept of it goes along, in both databases."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from stillroom import Amount, Line
from stillroom_bot.board import KeptSpec
from stillroom_bot.board.book import Book
from stillroom_bot.reminders import Reminder
from stillroom_bot.state import State
from stillroom_bot.store import Answered, Question, open_store
from stillroom_bot.store.deeds import Deeds, Said


def spec(name: str, ml: float) -> KeptSpec:
    return KeptSpec(0, name, (Line("gin", Amount(ml, "milliliter", ml, f"{ml:g} ml")),), ())


@pytest.mark.parametrize("there", [False, True], ids=["nothing there", "something there"])
async def test_everything_that_is_kept_goes_along(url: str, there: bool) -> None:
    made = datetime.now(UTC)
    reminders = [Reminder(text, made + timedelta(hours=3), made).to_json() for text in ("strain it", "taste it")]
    async with open_store(url) as store:
        old = State({"dash": 0.6, "drop": 0.04}, {"ml": 7}, reminders=(reminders[0],))
        specs = Book().put(spec("One", 45)).put(spec("Two", 30))
        await store.keep("a", old.to_json(), 0, specs, await store.books.get("a"))
        await store.answers.put("a", Answered(5, (6,), "7 ml", None, 1))
        id = await store.buttons.add(Question("a", 17, 5, "7 ml", ("1:1",), None))
        if there:
            new = State({"dash": 0.7}, None, {"about": "syrup"}, reminders=(reminders[1],))
            await store.keep("b", new.to_json(), 0, Book().put(spec("the two", 50)), await store.books.get("b"))
            await store.answers.put("b", Answered(5, (9,), "1 ml", None, 1))
        for _ in range(2):
            await store.move("a", "b")
        kept, book = await store.look("b")
        state = State.from_json(kept.data)
        assert state.settings == ({"dash": 0.7, "drop": 0.04} if there else {"dash": 0.6, "drop": 0.04})
        assert state.last == {"ml": 7} and len(state.reminders or ()) == 1 + there
        named = [(s.name, s.lines[0].amount and s.lines[0].amount.value) for s in book.book.specs]
        assert named == ([("the two", 50), ("One", 45)] if there else [("One", 45), ("Two", 30)])
        question, answered = await store.buttons.get(id), await store.answers.get("b", -5)
        assert question and (question.chat, question.question) == ("b", -5)
        assert answered and (answered.messages, answered.text) == ((), "7 ml")
        assert ((await store.answers.get("b", 5)) is not None) == there
        assert {d.reminder.text for d in await store.reminders.take("b", made.timestamp() + 4 * 3600)} == {
            "strain it", *(["taste it"] if there else [])}
        assert not any((await store.export("a")).values())


async def test_an_answer_that_was_said_while_the_chat_moved_is_kept_where_it_went(url: str) -> None:
    async with open_store(url) as store:
        await store.keep("a", {}, 0, Book(), await store.books.get("a"))
        await store.answers.put("a", Answered(4, (5,), "our dash is 0.6", None, 1))
        await store.move("a", "b")
        await Deeds(store.database, store.inbox, 1).end(Said(None, "a", Answered(6, (7,), "7 ml", None, 1)))
        last = await store.answers.last("b")
        assert last and (last.question, last.messages, last.text) == (-6, (), "7 ml")
        assert await store.answers.get("a", 6) is None
