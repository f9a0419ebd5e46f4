"""The example book: an invented bar's, at least ten specs, read without a problem, some within others."""

from __future__ import annotations

from pathlib import Path

from stillroom_bot.board import Book
from stillroom_bot.board.desk import Tools
from stillroom_bot.board.files import read_file

from .conftest import Chat

BOOK = Path(__file__).parents[3] / "bot" / "examples" / "quillwort.txt"


def test_the_example_book(chat: Chat, tools: Tools) -> None:
    specs = read_file(BOOK.read_text("utf-8"), tools.drafting, tools.kernel.units, Book())
    assert len(specs) >= 10
    chat.say("import:\n" + BOOK.read_text("utf-8"))
    book = chat.state.book
    within = {x.thing for s in book.specs for x in s.lines if book.named(x.thing)}
    assert len(within) >= 2 and "Marsh Light" in within
    for spec in book.specs:
        for question in ("three of the {}", "strength of the {}", "cost of the {}"):
            reply = chat.say(question.format(spec.name))
            assert reply.status == "answered", (spec.name, question, reply.text)
