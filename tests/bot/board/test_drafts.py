"""Written specs: what is understood of a line, what is refused, and which messages are specs at all."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from stillroom_bot.board.desk import Tools
from stillroom_bot.board.files import plain
from stillroom_bot.board.lines import BadLine

from .conftest import Chat

CORPUS = sorted((Path(__file__).parents[1] / "corpus").glob("*.jsonl"))
FLUID_OUNCE = 29.5735295625
"""NIST Handbook 44, Appendix C."""
OUNCE = 28.349523125
"""NIST Handbook 44, Appendix C: avoirdupois."""


@pytest.mark.parametrize(
    ("text", "thing", "unit", "base", "substance"),
    [
        ("45 ml gin", "gin", "milliliter", 45, "gin"),
        ("gin 45ml", "gin", "milliliter", 45, "gin"),
        ("vermouth - 3 cl", "vermouth", "centiliter", 30, "vermouth"),
        ("1 1/2 oz white rum", "white rum", "fluid_ounce", 1.5 * FLUID_OUNCE, "white-rum"),
        ("¾ oz lime juice", "lime juice", "fluid_ounce", 0.75 * FLUID_OUNCE, "lime-juice"),
        ("4 oz sugar", "sugar", "ounce", 4 * OUNCE, "white-sugar"),
        ("2 dashes aromatic bitters", "aromatic bitters", "dash", 1.6, "aromatic-bitters"),
        ("- 2 x 45 ml aquavit", "aquavit", "milliliter", 90, "aquavit"),
        ("1 egg white", "egg white", "count", 1, "egg-white"),
        ("a dozen mint leaves", "mint leaves", "count", 12, "mint"),
        ("half a litre of water", "water", "liter", 500, "water"),
        ("20 drops 20% saline", "20% saline", "drop", 1, "saline"),
        ("30 g basil leaves, picked", "basil leaves", "gram", 30, "basil"),
        ("15 ml quillwort elixir", "quillwort elixir", "milliliter", 15, None),
    ],
)
def test_a_line(tools: Tools, text: str, thing: str, unit: str, base: float, substance: str | None) -> None:
    line = tools.lines.read(text, tools.kernel.units)
    assert line is not None and line.amount is not None
    assert (line.thing, line.amount.unit, line.substance) == (thing, unit, substance)
    assert line.amount.base == pytest.approx(base)


def test_what_is_said_of_a_line(tools: Tools) -> None:
    line = tools.lines.read("45 ml gin (47 %), 28.00 for 700 ml", tools.kernel.units)
    assert line is not None
    assert line.attributes["abv"].base == pytest.approx(0.47)
    assert (line.attributes["price"].value, line.attributes["size"].base) == (28, 700)
    line = tools.lines.read("100 ml lemon juice (6 % acid)", tools.kernel.units)
    assert line is not None and line.attributes["acid"].base == pytest.approx(0.06) and "abv" not in line.attributes
    line = tools.lines.read("200 ml rich syrup at 66.7 brix", tools.kernel.units)
    assert line is not None and line.attributes["sugar"].base == pytest.approx(0.667)


@pytest.mark.parametrize(
    "text",
    [
        "Shake hard with ice for 12 seconds",
        "Add 20 ml water and stir",
        "12 seconds in the tin",
        "garnish with a lime wheel",
        "Stir 20 times",
        "",
        "at 40 °C for 2 hours",
    ],
)
def test_a_step_is_no_line(tools: Tools, text: str) -> None:
    assert tools.lines.read(text, tools.kernel.units) is None


def test_what_the_glass_is_topped_up_with_has_no_amount(tools: Tools) -> None:
    line = tools.lines.read("top with soda water", tools.kernel.units)
    assert line is not None and line.amount is None and line.substance == "soda-water"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("2-3 dashes bitters", "range"),
        ("1.5 parts gin", "share"),
        ("a splash of soda", "no size"),
        ("1,250 ml sherry", "1.25 or 1250"),
        ("45 ml", "of what"),
        ("45 ml gin at 28.00", "buys"),
    ],
)
def test_a_line_that_cannot_be_kept_says_why(tools: Tools, text: str, told: str) -> None:
    with pytest.raises(BadLine, match=told):
        tools.lines.read(text.replace("at 28.00", "at $28"), tools.kernel.units)


def test_a_spec_says_what_it_makes_rests_and_keeps(tools: Tools) -> None:
    rows = [
        "500 ml water",
        "400 g sugar",
        "Makes 800 ml",
        "rests 24 h",
        "keeps 7 days",
        "Method:",
        "1. Stir.",
        "2. Bottle.",
    ]
    draft = tools.drafting.read("Rush Syrup:", list(enumerate(rows, 2)), tools.kernel.units)
    assert (draft.name, draft.problems, draft.method) == ("Rush Syrup", [], ["Stir.", "Bottle."])
    assert draft.makes and draft.rests and draft.keeps
    assert (draft.makes.base, draft.rests.base, draft.keeps.base) == (800, 24 * 3600, 7 * 24 * 3600)
    served = tools.drafting.read("Bowl", [(2, "1 l gin"), (3, "1 l water"), (4, "serves 12")], tools.kernel.units)
    assert served.makes and (served.makes.unit, served.makes.value) == ("count", 12)


def test_problems_are_named_by_line(tools: Tools) -> None:
    rows = [(2, "45 ml gin"), (3, "a splash of soda"), (4, "20 ml gin"), (5, "2 to 3 dashes bitters")]
    draft = tools.drafting.read("Rush", rows, tools.kernel.units)
    assert [p.line for p in draft.problems] == [3, 4, 5]


def questions() -> list[str]:
    """Every question and turn of the corpus."""
    found: list[str] = []
    for path in CORPUS:
        for row in path.read_text("utf-8").splitlines():
            data: dict[str, Any] = json.loads(row)
            found += [data["q"]] if "q" in data else [t["text"] for t in data.get("turns", [])]
    return found


def test_no_ordinary_question_is_taken_for_the_board(chat: Any) -> None:
    asked = questions()
    assert len(asked) > 1000
    assert [q for q in asked if chat.conversation.board.hear(q, chat.state) is not None] == []


@pytest.mark.parametrize(
    ("line", "grams"),
    [("yield 60 %", 120), ("yields 60%", 120), ("60 % yield", 120), ("loss 15 %", 170), ("15% waste", 170)],
)
def test_a_share_is_a_yield_and_no_ingredient(tools: Tools, line: str, grams: float) -> None:
    """Of 200 g that go in; the words stay as a note among the steps."""
    rows = list(enumerate(["100 g strawberries", "100 g sugar", line, "Press."], 2))
    draft = tools.drafting.read("Reed Pulp", rows, tools.kernel.units)
    assert not draft.problems and [x.thing for x in draft.lines] == ["strawberries", "sugar"]
    assert draft.makes is not None and draft.makes.base == pytest.approx(grams)
    assert draft.method == [line, "Press."]


def test_a_share_of_what_is_weighed_and_poured_is_a_note_and_asked_about(chat: Chat) -> None:
    reply = chat.say("keep Reed Cure: 1 l cucumber juice, 200 g salt; yield 90 %; strain")
    assert reply.status == "asks" and "1. yield 90 %" in reply.text and "Reed Cure makes 800 ml" in reply.text
    assert "Makes" not in reply.text


def test_what_says_both_makes_what_it_says(tools: Tools) -> None:
    rows = list(enumerate(["100 g sugar", "100 g water", "yield 60 %", "makes 150 g"], 2))
    draft = tools.drafting.read("Reed Pulp", rows, tools.kernel.units)
    assert draft.makes is not None and draft.makes.base == pytest.approx(150)


@pytest.mark.parametrize("row", ["0.5 % xanthan", "2% citric acid", "yield 120 %", "loss 100 %"])
def test_a_share_of_a_powder_is_asked_in_grams(tools: Tools, row: str) -> None:
    draft = tools.drafting.read("Reed Gel", [(2, "500 ml water"), (3, row)], tools.kernel.units)
    assert [p.line for p in draft.problems] == [3] and "%" in draft.problems[0].text


@pytest.mark.parametrize(
    ("text", "sugar"), [("100 g of Reed Pulp", 250 / 3), ("3 Reed Pulps", 300), ("1.2 kg of the reed pulp", 1000)]
)
def test_what_is_weighed_is_made_by_weight(chat: Chat, text: str, sugar: float) -> None:
    """120 g of 200 g; and no volume of it is told, for none is known."""
    chat.say("keep Reed Pulp: 100 g strawberries, 100 g sugar; yield 60 %", "yes")
    reply = chat.say(text)
    found = {v["name"]: v["value"] for v in reply.data["answer"]}
    assert found["sugar"] == pytest.approx(sugar) and "total" not in found and " ml" not in reply.text


def test_what_is_weighed_is_not_guessed_by_volume(chat: Chat) -> None:
    chat.say("keep Rush Syrup: 500 g sugar, 250 g water", "yes")
    assert "by weight" in chat.say("1.5 l of Rush Syrup").headline
    chat.say("Rush Syrup makes 560 ml")
    assert chat.say("1.12 l of Rush Syrup").data["answer"][0]["value"] == pytest.approx(1000)
    assert "by volume" in chat.say("Rush Syrup for 1 kg").headline


def test_an_export_with_a_share_comes_in_again_as_it_was(chat: Chat, tools: Tools) -> None:
    chat.say("keep Reed Pulp: 100 g strawberries, 100 g sugar; yield 60 %; press", "yes")
    text = plain(chat.state.book, tools.kernel.units)
    assert "kept already" in chat.say("import:\n" + text).headline
