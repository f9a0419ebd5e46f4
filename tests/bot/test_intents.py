"""What is heard before the reader takes no question that is one: every question of the corpus is left to it."""

from __future__ import annotations

import json
import subprocess
import sys
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
REMINDERS, STARTS = ("can you remind me",), ("when do i start",)
"""How messages of the corpus begin or end that are no questions of measure, and are wishes that we grant; the
calendar works the second kind out with the conversation's help."""


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
    every = [q for q in questions() if not q.lower().endswith(STARTS)]
    taken = [q for q in every if intents.hear(intents.Talk(q, State(book=book), kernel, lambda: NOW, _never))]
    assert len(every) > 2000
    assert [q for q in taken if not q.lower().startswith(REMINDERS)] == []


@pytest.mark.parametrize("text", [
    "remind me in 99999999999999999999 days to x", "remind me on 9999-12-31 23:59 to x", "remind me at 25:99",
    "plan 9999-12-31 23:59, 4 gin sour", "plan 0001-01-01 00:00, 4 gin sour", "Friday 19:00, 0 gin sour",
    "Friday 19:00, 99999999999999999 gin sour", "plan Friday 19:00: 3 kg gin sour, 2 l gin sour",
    "label for lime cordial made 9999-12-31", "label for lime cordial, keeps 99999999999 days", "label for \u202e🍋",
    "labels for lime cordial, 0 on a sheet", "9999 labels for lime cordial", "label for lime cordial called 漢字",
    "plot the strength of 0 l at 30 % against water", "plot the strength of 2 l at 300 % against ice",
    "time zone ../../etc/passwd", "cancel reminder 99", "label for " + "x" * 59 + ", keeps 3 days, 65 on a sheet",
])
def test_what_nobody_can_mean_gets_a_sentence(text: str) -> None:
    ml = Amount(50, "milliliter", 50)
    book = Book().put(KeptSpec(0, "Gin sour", (Line("gin", ml), Line("lime juice", ml))))
    talk = intents.Talk(text, State(settings={"zone": "America/New_York"}, book=book), Kernel(), lambda: NOW, _never)
    heard = intents.hear(talk)
    if heard is not None:
        reply, state = heard
        assert reply.status in ("declined", "asks", "noted") and reply.headline and not state.reminders
        assert State.from_json(state.to_json()).to_json() == state.to_json()


def test_what_draws_is_imported_only_when_it_is_asked_for() -> None:
    code = """
import sys
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
talker = Conversation(Kernel())
def heavy(): return sorted({"PIL", "reportlab", "matplotlib"} & set(sys.modules))
for text in ("how many fl oz in 750 ml?", "remind me in 20 min to strain", "label: 5 g salt", "time zone?"):
    talker.answer(text)
print(heavy())
talker.answer("label for lime cordial")
print(heavy())
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.split("\n")[:2] == ["[]", "['PIL', 'reportlab']"]
