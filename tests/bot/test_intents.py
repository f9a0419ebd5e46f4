"""What is heard before the reader takes no question that is one: every question of the corpus is left to it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from stillroom import Amount, Kernel, Line
from stillroom_bot import intents
from stillroom_bot.board import Book, KeptSpec
from stillroom_bot.reply import Reply
from stillroom_bot.state import State

CORPUS = Path(__file__).parent / "corpus"
NOW = datetime(2026, 11, 25, 14, 0, tzinfo=UTC)
REMINDERS = ("can you remind me",)
"""How messages of the corpus begin that are no questions of measure, and are wishes that we grant."""


def questions() -> Iterator[str]:
    for file in sorted(CORPUS.glob("*.jsonl")):
        for line in file.read_text("utf-8").splitlines():
            row = json.loads(line)
            yield from [row["q"]] if "q" in row else [turn["text"] for turn in row["turns"]]


def _never(text: str, state: State) -> tuple[Reply, State]:
    raise AssertionError("an intent asked the conversation")


@pytest.mark.parametrize("kept", [False, True])
def test_no_question_is_taken_from_the_reader(kept: bool) -> None:
    kernel = Kernel(discover=False)
    ml = Amount(50, "milliliter", 50)
    names = ("Gin sour", "Lime cordial", "Milk punch", "Simple syrup", "Saline") if kept else ()
    book = Book()
    for name in names:
        book = book.put(KeptSpec(0, name, (Line("gin", ml), Line("lime juice", ml))))
    every = list(questions())
    taken = [q for q in every if intents.hear(intents.Talk(q, State(book=book), kernel, lambda: NOW, _never))]
    assert len(every) > 2000
    assert [q for q in taken if not q.lower().startswith(REMINDERS)] == []
