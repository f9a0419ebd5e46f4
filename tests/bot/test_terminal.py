"""The terminal's parts, with a stand-in conversation: lines in, lines out, a conversation that is kept."""

from __future__ import annotations

import io
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from stillroom import Calculator, Kernel, choice, var
from stillroom_bot.reply import Reply
from stillroom_bot.state import State
from stillroom_bot.terminal.ask import ask, shown
from stillroom_bot.terminal.catalogue import catalogue
from stillroom_bot.terminal.chat import chat
from stillroom_bot.terminal.jsonl import LONGEST_LINE, ask_lines, chat_lines
from stillroom_bot.terminal.loaded import loaded
from stillroom_bot.terminal.solving import solve_lines

KEYS = ["status", "question", "calculator", "answer", "values", "assumptions", "cautions", "ignored", "steps",
        "sources", "asks", "text"]


class Counter:
    """Answers the first word as a status, and says how many messages the chat had before."""

    def answer(self, text: str, state: State | None = None) -> tuple[Reply, State]:
        state = state or State()
        if text == "boom":
            raise ValueError("a secret detail")
        if text == "nan":
            return Reply("answered", text, "nan", data={"answer": [{"name": "x", "value": float("nan")}]}), state
        status = text.split()[0] if text.split()[0] in ("asks", "noted", "declined") else "answered"
        n = (state.last or {}).get("n", 0)
        buttons = ("1:1", "2:1") if status == "asks" else ()
        return Reply(status, text, f"{n} before", buttons=buttons, working=("n = n + 1",)), state.but(last={"n": n + 1})


def _refuse(name: str) -> None:
    raise AssertionError(f"{name} is no JSON")


def lines_of(run, data: bytes) -> list[dict]:
    out = io.StringIO()
    run(Counter(), io.BytesIO(data), out)
    printed = out.getvalue()
    assert printed.isascii() and (not printed or printed.endswith("\n"))
    rows = [json.loads(line, parse_constant=_refuse) for line in printed.splitlines()]
    assert all(list(row) == KEYS for row in rows)
    return rows


@pytest.mark.parametrize(("line", "question", "status"), [
    (b"5 ml", "5 ml", "answered"),
    (b'"5 ml\\nof \\u00bd"', "5 ml\nof ½", "answered"),
    (b"asks 5", "asks 5", "asks"),
    ("½ l à 20 °C\r".encode(), "½ l à 20 °C", "answered"),
    (b"42", "42", "answered"),
    (b'{"a": 1}', '{"a": 1}', "answered"),
    (b'"half a string', '"half a string', "answered"),
    (b'"\\ud800 5 ml"', "\ud800 5 ml", "answered"),
    (b"[" * 5000, None, "declined"),
    (b"", "", "declined"),
    (b"   ", "   ", "declined"),
    (b'""', "", "declined"),
    (b"\xff\xfe 5 ml", "\ufffd\ufffd 5 ml", "declined"),
    (b"boom", "boom", "declined"),
    (b"nan", "nan", "declined"),
    (b"x" * 5000, None, "declined"),
    (b"x" * (LONGEST_LINE + 1), None, "declined"),
    (b"x" * (3 * LONGEST_LINE), None, "declined"),
])
def test_each_line_is_one_object_and_none_ends_the_reading(line: bytes, question: str | None, status: str) -> None:
    rows = lines_of(ask_lines, b"first\n" + line + b"\nlast")
    assert [r["status"] for r in rows] == ["answered", status, "answered"]
    assert question is None or rows[1]["question"] == question
    assert "secret detail" not in rows[1]["text"] and "Traceback" not in rows[1]["text"]
    assert [r["text"] for r in rows if r["status"] == "answered"][-1] == "0 before", "questions are independent"


def test_no_line_no_object() -> None:
    assert lines_of(ask_lines, b"") == [] and lines_of(chat_lines, b"") == []


def test_each_line_is_flushed() -> None:
    class Watched(io.StringIO):
        flushed: list[int] = []  # noqa: RUF012

        def flush(self) -> None:
            self.flushed.append(self.getvalue().count("\n"))

    out = Watched()
    ask_lines(Counter(), io.BytesIO(b"a\nb\nc\n"), out)
    assert out.flushed == [1, 2, 3]


def test_lines_of_a_chat_share_a_conversation() -> None:
    said = [("a", "x"), ("b", "x"), ("a", "x"), ("a", "boom"), ("a", "x"), (7, "x"), ("7", "x")]
    data = "\n".join(json.dumps({"chat": c, "text": t}) for c, t in said).encode()
    assert [r["text"].split()[0] for r in lines_of(chat_lines, data)] == ["0", "0", "1", "Something", "2", "0", "1"]


@pytest.mark.parametrize("line", [
    "", "x", "[]", '"x"', "{}", '{"chat": "a"}', '{"chat": 1.5, "text": "x"}', '{"chat": "a", "text": 5}',
    '{"chat": null, "text": "x"}', '{"chat": true, "text": "x"}', '{"chat": "a", "text": ""}',
    '{"chat": "a", "text": "x"',
])
def test_a_line_that_is_no_message_is_declined(line: str) -> None:
    good = '{"chat": "a", "text": "x"}'
    rows = lines_of(chat_lines, f"{good}\n{line}\n{good}\n".encode())
    assert [r["status"] for r in rows] == ["answered", "declined", "answered"]
    assert rows[2]["text"] == "1 before"


@pytest.mark.parametrize(("question", "status"), [
    ("5 ml", 0), ("noted x", 0), ("asks x", 1), ("declined x", 2), ("boom", 2),
])
def test_the_status_of_one_question(question: str, status: int, capsys: pytest.CaptureFixture[str]) -> None:
    assert ask(Counter(), question) == status
    assert ask(Counter(), question, as_json=True) == status
    printed = capsys.readouterr()
    assert list(json.loads(printed.out[printed.out.index("{"):])) == KEYS and printed.err == ""


def test_the_working_is_printed_below_the_answer(capsys: pytest.CaptureFixture[str]) -> None:
    class Explaining(Counter):
        def why(self, text: str, state: State) -> str:
            return f"because of {text}"

    ask(Counter(), "5 ml", why=True)
    ask(Explaining(), "5 ml", why=True)
    assert capsys.readouterr().out == "0 before\n\nn = n + 1\n0 before\n\nbecause of 5 ml\n"


def test_choices_are_shown_unless_the_text_names_them() -> None:
    assert shown(Reply("asks", "", "Which?", buttons=("1:1", "2:1"))) == "Which?\n(1:1 / 2:1)"
    assert shown(Reply("asks", "", "1:1 or 2:1?", buttons=("1:1", "2:1"))) == "1:1 or 2:1?"


def talk(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], text: str,
         fresh: bool = False) -> list[str]:
    monkeypatch.setattr("sys.stdin", io.StringIO(text))
    assert chat(Counter(), fresh) == 0
    return capsys.readouterr().out.splitlines()


def test_a_conversation_is_kept_and_taken_up(
        monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    monkeypatch.setenv("STILLROOM_DATA", str(tmp_path / "data"))
    monkeypatch.delenv("STILLROOM_DATABASE", raising=False)
    assert talk(monkeypatch, capsys, "a\n\n  \nb") == ["0 before", "1 before"]
    assert talk(monkeypatch, capsys, "c\n/why\n/quit\nnot read\n") == ["2 before", "n = n + 1"]
    assert talk(monkeypatch, capsys, "d\n", fresh=True) == ["0 before"]
    assert talk(monkeypatch, capsys, "/why\ne\n/forget\nf\n") == [
        "Nothing was asked yet.", "3 before", "Forgotten: our conversation, and your settings.", "0 before"]
    assert [p.name for p in (tmp_path / "data").iterdir() if "sqlite3" not in p.name] == []


def test_a_fresh_conversation_touches_no_folder(
        monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    monkeypatch.setenv("STILLROOM_DATA", str(tmp_path / "data"))
    assert talk(monkeypatch, capsys, "a\nb\n", fresh=True) == ["0 before", "1 before"]
    assert list(tmp_path.iterdir()) == []


TEA = Calculator(
    "tea", "Leaf for tea", var("leaf", "gram", "leaf, tea"), var("water", "liter"),
    var("dose", "gram / liter", default=8, usual=(4, 15)),
    choice("kind", [{"id": "green", "words": "green", "hot": 70, "source": "a table"}], fills={}),
    equations=["leaf = dose * water"], example=("how much tea for 1.5 l of water?", "12 gram"),
    source="common practice")


@pytest.fixture
def kernel() -> Kernel:
    made = Kernel(discover=False)
    assert made.add("teabar", TEA, "1.2").errors == []
    return made


def test_every_calculator_is_listed_with_an_example(kernel: Kernel) -> None:
    status, text = catalogue(kernel)
    assert status == 0
    assert re.fullmatch(r"teabar 1\.2\n  tea +Leaf for tea\n +e\.g\. how much tea for 1\.5 l of water\?", text)
    assert json.loads(catalogue(kernel, as_json=True)[1]) == [
        {"name": "teabar.tea", "title": "Leaf for tea", "example": "how much tea for 1.5 l of water?",
         "answer": "12 gram"}]


@pytest.mark.parametrize("name", ["tea", "teabar.tea"])
def test_a_calculator_is_told_in_full(kernel: Kernel, name: str) -> None:
    status, text = catalogue(kernel, name)
    assert status == 0
    for part in ("teabar.tea: Leaf for tea", "gram / liter; usually 4 to 15; 8 unless said", "leaf = dose⋅water",
                 "kind: green", "common practice", "a table", "how much tea for 1.5 l of water?  ->  12 gram"):
        assert part in text
    data = json.loads(catalogue(kernel, name, as_json=True)[1])
    assert [v["name"] for v in data["variables"]] == ["leaf", "water", "dose"]
    assert data["variables"][2]["usual"] == [4, 15] and data["equations"] == ["leaf = dose * water"]
    schema = json.loads(catalogue(kernel, name, schema=True)[1])
    assert schema["title"] == "teabar.tea" and {"leaf", "water"} <= schema["properties"]["given"]["properties"].keys()
    assert json.loads(catalogue(kernel, schema=True)[1])["$defs"].keys() == {"Request", "Answer", "teabar.tea"}


def test_requests_by_the_line(kernel: Kernel) -> None:
    lines = [b'{"calculator": "teabar.tea", "given": {"water": {"value": 1.5, "unit": "liter"}}, "wanted": ["leaf"], '
             b'"choices": {"kind": "green"}}', b"", b"[1]", b"no json", b'{"calculator": "teabar.coffee"}', b"[" * 9999]
    out = io.StringIO()
    solve_lines(kernel, io.BytesIO(b"\n".join(lines)), out)
    rows = [json.loads(line) for line in out.getvalue().splitlines()]
    assert [r["status"] for r in rows] == ["answered"] + ["declined"] * 4
    assert rows[0]["answer"] == [{"name": "leaf", "value": 12.0, "unit": "gram", "origin": "found"}]
    assert [r["reason"] for r in rows[1:3]] == ["A request is an object that names its calculator.",
                                                "That line is no JSON object."]
    assert "There is no calculator 'teabar.coffee'" in rows[3]["reason"]


def test_a_name_that_is_not_there_is_told_with_the_nearest(kernel: Kernel) -> None:
    assert catalogue(kernel, "teas") == (2, "There is no calculator 'teas'. Did you mean teabar.tea?")
    assert catalogue(kernel, "zzz")[0] == 2
    kernel.add("other", TEA)
    assert catalogue(kernel, "tea") == (2, "Several plugins have a 'tea': teabar.tea, other.tea.")


def test_a_plugin_with_errors_sets_the_status(kernel: Kernel) -> None:
    status, text = loaded(kernel)
    assert status == 0 and re.fullmatch(r"teabar 1\.2: 1 calculator, loaded in [\d.e-]+ ms", text)
    kernel.add("broken", object())
    status, text = loaded(kernel)
    assert status == 1 and "broken -: 0 calculators" in text and "  wrong: broken could not be loaded" in text
    rows = json.loads(loaded(kernel, as_json=True)[1])
    assert [(r["name"], bool(r["errors"])) for r in rows] == [("teabar", False), ("broken", True)]
    assert loaded(Kernel(discover=False)) == (0, "No plugin is installed.")


def test_what_was_typed_is_forgotten_with_the_rest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("STILLROOM_DATA", str(tmp_path))
    typed = tmp_path / "history"
    typed.write_text("# 2026-05-01 12:00:00\n+keep Reed: 45 ml gin, 20 ml lime juice\n")
    done = subprocess.run([sys.executable, "-m", "stillroom_bot.cli", "chat"], text=True, capture_output=True,
                          check=True, input="forget me\nyes, forget all of it\n")
    assert "Forgotten: this chat's" in done.stdout and typed.read_text() == ""
