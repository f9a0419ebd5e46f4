"""A book as a file: what goes out comes in again just so, and what is not sound is refused whole, by line."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from stillroom import Amount, Line
from stillroom_bot.board import Book, KeptSpec
from stillroom_bot.board.desk import Tools
from stillroom_bot.board.files import BadFile, plain, read_file
from stillroom_bot.board.schema import book_json
from stillroom_bot.cli import main

from .conftest import Chat

RICH = """import:
Rush Syrup
500 g sugar (1.20 for 1 kg)
250 ml water
makes 560 ml
keeps 14 days

Heron
45 ml gin at 47 % (28.00 for 700 ml)
1/3 oz lime juice
3 dashes bitters
100 ml lemon juice (6 % acid)
12 mint leaves
20 ml Rush Syrup
top with soda water
serves 2
rests 24 h
Shake, strain.
Garnish with mint."""


def _base(amount: Amount | None) -> float:
    return amount.base if amount else 0.0


def read(text: str, tools: Tools, book: Book | None = None) -> list[Any]:
    return read_file(text, tools.drafting, tools.kernel.units, book or Book())


def test_a_book_goes_out_and_comes_in_just_so(bar: Chat, tools: Tools) -> None:
    assert bar.say(RICH).status == "noted", bar.say(RICH).text
    book, files = bar.state.book, bar.say("export the book").attachments
    assert [a.name for a in files] == ["book.json", "book.txt"]
    for file in files:
        again = read(file.content.decode(), tools)
        assert [s.name for s in again] == ["Basil Cordial", "Marsh Light", "Rush Syrup", "Heron"]
        for spec, was in zip(again, book.specs, strict=True):
            assert (spec.method, [x.thing for x in spec.lines]) == (was.method, [x.thing for x in was.lines])
            for x, y in zip(spec.lines, was.lines, strict=True):
                assert _base(x.amount) == pytest.approx(_base(y.amount), rel=1e-8), x
                assert {n: a.base for n, a in x.attributes.items()} == pytest.approx(
                    {n: a.base for n, a in y.attributes.items()}
                ), (file.name, x)
                assert x.substance == y.substance
            for name in ("makes", "rests", "keeps"):
                a, b = getattr(spec, name), getattr(was, name)
                assert (a and (a.unit, a.base)) == (b and (b.unit, b.base)), (file.name, name)
    assert "just so" in bar.say("import:\n" + files[0].content.decode()).text


def test_an_import_is_undone_as_a_whole(bar: Chat) -> None:
    bar.say(RICH)
    assert len(bar.names) == 4
    bar.say("undo")
    assert bar.names == ["Basil Cordial", "Marsh Light"]


PLAIN = "Sedge\n45 ml gin\n2-3 dashes bitters\n\n\nRush\na splash of soda\n1,250 ml water\n\nSEDGE\n10 ml gin\n"
JSON: dict[str, Any] = {
    "format": "stillroom book",
    "version": 1,
    "specs": [{"name": "Sedge", "lines": [{"thing": "gin", "amount": {"value": 45, "unit": "milliliter"}}]}],
}


def test_each_problem_of_a_plain_file_is_named_by_its_line(tools: Tools) -> None:
    with pytest.raises(BadFile) as caught:
        read(PLAIN, tools)
    assert [p.line for p in caught.value.problems] == [3, 7, 8, 10]


@pytest.mark.parametrize(
    ("path", "value", "told"),
    [
        (("format",), "other", "stillroom book"),
        (("version",), 2, "version"),
        (("specs",), "none", "specs"),
        (("specs", 0), 7, "object"),
        (("specs", 0, "name"), "", "name"),
        (("specs", 0, "name"), "x" * 61, "name"),
        (("specs", 0, "lines"), [], "lines"),
        (("specs", 0, "colour"), "red", "colour"),
        (("specs", 0, "method"), "shake", "method"),
        (("specs", 0, "keeps"), {"value": 3, "unit": "gram"}, "keeps"),
        (("specs", 0, "makes"), {"value": True, "unit": "liter"}, "makes"),
        (("specs", 0, "lines", 0, "thing"), 5, "thing"),
        (("specs", 0, "lines", 0, "abv"), 147, "abv"),
        (("specs", 0, "lines", 0, "amount", "value"), -1, "above 0"),
        (("specs", 0, "lines", 0, "amount", "value"), float("nan"), "above 0"),
        (("specs", 0, "lines", 0, "amount", "unit"), "furlong", "no unit"),
        (("specs", 0, "lines", 0, "amount", "unit"), "second", "second"),
        (("specs", 0, "lines", 0, "price"), {"value": 3}, "price"),
    ],
)
def test_what_the_schema_does_not_allow_is_refused(tools: Tools, path: tuple[Any, ...], value: Any, told: str) -> None:
    data = json.loads(json.dumps(JSON))
    assert len(read(json.dumps(data), tools)) == 1
    at = data
    for key in path[:-1]:
        at = at[key]
    at[path[-1]] = value
    with pytest.raises(BadFile, match=told):
        read(json.dumps(data, indent=1), tools)


def test_problems_of_json_are_named_by_line(tools: Tools) -> None:
    text = json.dumps({**JSON, "specs": [JSON["specs"][0], {"name": "Rush", "lines": []}]}, indent=1)
    with pytest.raises(BadFile) as caught:
        read(text, tools)
    assert text.split("\n")[caught.value.problems[0].line - 1].strip() == '"name": "Rush",'
    with pytest.raises(BadFile, match="line 2: this is no JSON"):
        read('{"format": 1,\n nonsense}', tools)
    with pytest.raises(BadFile, match="no JSON"):
        read("[" * 200_000, tools)


def test_a_circle_in_a_file_is_refused(bar: Chat) -> None:
    reply = bar.say("import:\nRush\n10 ml Sedge\n10 ml gin\n\nSedge\n10 ml Rush\n10 ml gin")
    assert reply.status == "declined" and "hold itself" in reply.text and len(bar.names) == 2
    assert "hold itself" in bar.say("import:\nBasil Cordial\n10 ml Marsh Light\n500 ml water").text


def test_the_command_line_exports_and_imports(
    bar: Chat, tools: Tools, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delenv("STILLROOM_DATABASE", raising=False)
    monkeypatch.setenv("STILLROOM_DATA", str(tmp_path / "data"))
    file, out = tmp_path / "book.json", tmp_path / "out.txt"
    file.write_text(json.dumps(book_json(bar.state.book)))
    assert main(["book", "import", str(file)]) == 0 and "Imported 2 specs" in capsys.readouterr().out
    assert main(["book", "export", str(out)]) == 0 and out.read_text() == plain(bar.state.book, tools.kernel.units)
    assert main(["book", "export", str(out)]) == 69 and "there already" in capsys.readouterr().err
    (tmp_path / "bad.txt").write_text(PLAIN)
    assert main(["book", "import", str(tmp_path / "bad.txt")]) == 2
    told = capsys.readouterr().err
    assert "Nothing is imported" in told and "bad.txt:3:" in told and "bad.txt:10:" in told
    (tmp_path / "worse.txt").write_text("Sedge\n45 ml gin\n\nReed\n10 ml water\n20 ml methanol\nLight the foxglove.\n")
    assert main(["book", "import", str(tmp_path / "worse.txt")]) == 2
    told = capsys.readouterr().err
    assert "worse.txt:6: Methanol" in told and "worse.txt:7:" in told and "worse.txt:2:" not in told
    worse = {**JSON, "specs": [*JSON["specs"], {**JSON["specs"][0], "name": "Reed", "method": ["Add methanol."]}]}
    (tmp_path / "worse.json").write_text(json.dumps(worse))
    assert main(["book", "import", str(tmp_path / "worse.json")]) == 2 and "Reed: Meth" in capsys.readouterr().err
    assert main(["book", "export", "-"]) == 0 and "Sedge" not in capsys.readouterr().out
    (tmp_path / "bytes.txt").write_bytes(b"\xff\xfe\x00")
    assert main(["book", "import", str(tmp_path / "bytes.txt")]) == 2
    assert main(["book", "import", str(tmp_path / "nowhere.txt")]) == 69


def test_all_that_is_kept_goes_out_as_data(bar: Chat) -> None:
    bar.say("our dash is 1 ml")
    reply = bar.say("export my data")
    data = json.loads(reply.attachments[0].content)
    assert bar.state.errand == "export" and data["state"]["settings"] == {"size:dash": 1}
    assert Book.from_json(data["book"]) == bar.state.book


def test_what_is_exported_is_written_as_one_writes_it(tools: Tools) -> None:
    units = tools.kernel.units

    def line(value: float, unit: str, thing: str) -> Line:
        return Line(thing, Amount(value, unit, units[unit].to_base(value)))

    lines = (line(2, "dash", "bitters"), line(1, "drop", "20% saline"), line(3, "ounce", "honey"))
    book = Book().put(KeptSpec(0, "Reed", lines, keeps=Amount(7, "day", 604800)))
    text = plain(book, units)
    assert text == "Reed\n2 dashes bitters\n1 drop 20% saline\n3 oz by weight honey\nkeeps 7 days\n"
    again = read_file(text, tools.drafting, units, Book())[0]
    assert [(a.value, a.unit) for x in again.lines if (a := x.amount)] == [(2, "dash"), (1, "drop"), (3, "ounce")]


def test_a_circle_is_named_among_other_faults(tools: Tools) -> None:
    with pytest.raises(BadFile) as e:
        read_file("Reed\n20 ml Reed\n20 ml gin\n\nRush\n20 parts gin\n", tools.drafting, tools.kernel.units, Book())
    assert [p.line for p in e.value.problems] == [1, 6]
