"""A plan for a service of the example book, checked by hand, and a label for every spec in it.

For Friday 19:00, 40 Marsh Light, 500 ml Sallow Foam and 25 Clear Otter:

    sorrel cordial   40 × 20 + 350 = 1150 ml of a spec that makes 820: times 1.402439
                     water 701.2, sugar 631.1, leaves 84.15, citric acid 25.24, malic acid 8.415
    otter milk       25 × 90 = 2250 ml of 2600: times 0.865385
                     chicory rum 865.4, lemon juice 519.2, rush syrup 692.3, milk 519.2
    chicory rum      865.4 of 660: times 1.311189: rum 917.8, chicory 27.53
    rush syrup       692.3 of 560: times 1.236264: sugar 618.1, water 309.1
    to buy           gin 40 × 45 = 1800 / 700 = 2.6: 3; rum 917.8 / 700 = 1.3: 2; sugar 631.1 + 618.1 = 1249 g;
                     limes 40 × 25 / 30 = 33.3: 34; lemons 519.2 / 45 = 11.5: 12; milk 519.2 / 1000: 1;
                     one charger for 500 ml in a 0.5 l siphon
    starts           foam 19:00 - 3 h = 16:00, cordial 16:00 - 4 h = 12:00, milk 19:00 - 12 h = 07:00, syrup then,
                     chicory rum 07:00 - 12 h = 19:00 the day before

Juice of a fruit: the table of fruit yields; one charger for half a litre: common practice, no source.
"""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest
from stillroom import Kernel
from stillroom_bot.board import Book
from stillroom_bot.board.desk import tools_of
from stillroom_bot.board.files import read_file
from stillroom_bot.conversation import Conversation
from stillroom_bot.state import State

from .conftest import Shelf

BOOK = Path(__file__).parents[3] / "bot" / "examples" / "quillwort.txt"
NOW = datetime(2026, 11, 23, 9, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def talker() -> Conversation:
    return Conversation(Kernel(), clock=lambda: NOW)


@pytest.fixture(scope="module")
def book(talker: Conversation, shelf: Shelf) -> Book:
    tools = tools_of(talker.kernel, talker.reader, lambda: NOW, talker.refusals)
    made = Book()
    for spec in read_file(BOOK.read_text("utf-8"), tools.drafting, talker.kernel.units, Book()):
        made = made.put(spec)
    return shelf.through(made)


def test_a_service_of_the_example_book(talker: Conversation, book: Book) -> None:
    state = State(settings={"zone": "Europe/Rome"}, book=book)
    reply, _ = talker.answer("Friday 19:00, 40 marsh light, 500 ml sallow foam, 25 clear otter", state)
    assert reply.headline.endswith("First: Chicory Rum, by Thursday 26 November, 19:00.")
    tasks = {line.partition(". ")[2].partition(",")[0]: line for line in reply.body[:7]}
    assert list(tasks) == ["Chicory Rum", "Rush Syrup", "Otter Milk", "Sorrel Cordial", "Sallow Foam", "Marsh Light",
                           "Clear Otter"]
    for name, amount, start, lines in (
        ("Chicory Rum", "865.4 ml", "Thursday 26 November, 19:00", "917.8 ml rum, 27.5 g roasted chicory."),
        ("Rush Syrup", "692.3 ml", "Friday 27 November, 07:00", "618.1 g sugar, 309.1 ml water."),
        ("Otter Milk", "2.25 l", "Friday 27 November, 07:00",
         "865.4 ml Chicory Rum, 519.2 ml lemon juice, 692.3 ml Rush Syrup, 519.2 ml whole milk."),
        ("Sorrel Cordial", "1.15 l", "Friday 27 November, 12:00",
         "701.2 ml water, 631.1 g sugar, 84.1 g sorrel leaves, 25.2 g citric acid, 8.41 g malic acid."),
        ("Sallow Foam", "500 ml", "Friday 27 November, 16:00", "350 ml Sorrel Cordial, 150 ml water, 4 g gelatine."),
    ):
        assert f"{name}, {amount}: start by {start}" in tasks[name] and tasks[name].endswith(lines), tasks[name]
    buy = dict(line.removeprefix("• ").partition(" (")[0].split(": ", 1) for line in reply.body if line.startswith("•"))
    expected = {"gin": "3 bottles of 700 ml", "rum": "2 bottles of 700 ml", "sugar": "1.25 kg", "lime": "34",
                "lemon": "12", "whole milk": "1 bottle of 1000 ml", "N2O chargers": "1",
                "sorrel leaves": "84.1 g", "gelatine": "4 g"}
    assert {k: buy.get(k) for k in expected} == expected
    assert "water" not in buy


def test_every_spec_of_the_example_book_gets_a_label(talker: Conversation, book: Book) -> None:
    assert len(book.specs) >= 10
    for spec in book.specs:
        reply, _ = talker.answer(f"label for {spec.name}", State(settings={"zone": "UTC"}, book=book))
        assert reply.status == "noted" and reply.headline.startswith(f"Label for {spec.name}: use by"), reply.text
        assert len(reply.attachments) == 1 and "No strength on it" not in reply.text, reply.text
    milk, _ = talker.answer("label for otter milk", State(settings={"zone": "UTC"}, book=book))
    assert "Allergens: milk." in milk.text
