"""Cases from a table, and comparisons with what an answer says."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from stillroom.testing import Case, assert_case, assert_says, cases, examples

from .samples import BRINE, INK, TEA, ask, kernel_of

KERNEL = kernel_of(TEA, BRINE, INK)
TABLE = """question,calculator,given,wanted,answer,rel,source
,tea.tea,water = 1.5 liter,leaf,12 gram,,by hand: 8 x 1.5
,tea.tea,water = 1500 ml; dose = 10 gram / liter,leaf,leaf: 0.015 kilogram,1e-9,by hand: 10 x 1.5
,ink.ink,kind = iron; volume = 100 ml,mass,120 g,,by hand: 1.2 x 100
,brine.brine,strength = 20 %,salt,asks,,by definition
,ink.ink,kind = lead; volume = 1 ml,mass,declined,,by definition
how much tea?,,,,12 gram,,by hand
"""
STEEPED = ask(KERNEL, "tea", {"water": (1.5, "liter")}, "leaf")


@pytest.fixture
def table(tmp_path: Path) -> Path:
    (tmp_path / "cases.csv").write_text(TABLE)
    return tmp_path / "cases.csv"


def answers(question: str) -> Mapping[str, Any]:
    return {"status": "answered", "text": "", "values": [],
            "answer": [{"name": "leaf", "value": 12.0 if question == "how much tea?" else 13.0, "unit": "gram"}]}


def test_every_row_of_a_table_is_tried(table: Path) -> None:
    read = cases(table)
    assert [c.place for c in read] == [f"cases.csv, line {n}" for n in range(2, 8)]
    for case in read:
        assert_case(case, KERNEL, answers)
    assert str(read[0]) == "tea.tea leaf from water = 1.5 liter" and str(read[-1]) == "how much tea?"


@pytest.mark.parametrize(("case", "sentence"), [
    (Case("13 gram", "s", calculator="tea.tea", given="water = 1.5 liter", place="x, line 2"),
     "x, line 2: tea.tea  from water = 1.5 liter: leaf: 12 gram is not 13 gram"),
    (Case("12 gram", "s", question="how much ink?", place="x, line 3"),
     "x, line 3: how much ink.: leaf: 13 gram is not"),
    (Case("asks", "s", calculator="tea.tea", given="water = 1 l"), "its status is answered, not asks"),
    (Case("1 gram", "s", calculator="brine.brine", given="strength = 20 %", wanted="salt"),
     "it asks back instead of answering"),
])
def test_a_wrong_row_is_told_with_its_place(case: Case, sentence: str) -> None:
    with pytest.raises(AssertionError, match=sentence):
        assert_case(case, KERNEL, answers)


@pytest.mark.parametrize(("row", "sentence"), [
    ("a,,,,,,s", "line 2: the answer is missing"), ("a,,,,1 gram,,", "line 2: the source is missing"),
    (",,,,1 gram,,s", "line 2: say either a question or a calculator"),
    ("q,tea.tea,,,1 gram,,s", "line 2: say either a question or a calculator"),
])
def test_a_row_that_says_too_little(row: str, sentence: str, tmp_path: Path) -> None:
    (tmp_path / "cases.csv").write_text(TABLE.partition("\n")[0] + "\n" + row + "\n")
    with pytest.raises(ValueError, match=sentence):
        cases(tmp_path / "cases.csv")


def test_a_column_that_nobody_knows(tmp_path: Path) -> None:
    (tmp_path / "cases.csv").write_text("question,anwser\n")
    with pytest.raises(ValueError, match="no column is called anwser"):
        cases(tmp_path / "cases.csv")


@pytest.mark.parametrize(("case", "sentence"), [
    (Case("1 gram", "s", calculator="tea.tea", given="water"), "'water' is no 'name = value'"),
    (Case("a lot", "s", calculator="tea.tea", given="water = 1 l"), "'a lot' is no number with a unit"),
    (Case("1 gram", "s", question="q"), "needs somebody to ask"),
])
def test_what_cannot_be_read_is_an_error_not_a_failure(case: Case, sentence: str) -> None:
    with pytest.raises(ValueError, match=sentence):
        assert_case(case, KERNEL)


@pytest.mark.parametrize("said", ["12 gram", "12 g", "0.012 kilogram", "leaf: 12 gram", "leaf: 12 g; water: 1.5 l",
                                  "dose = 8 gram / liter", "12.4 g"])
def test_what_an_answer_says(said: str) -> None:
    if said == "12.4 g":
        with pytest.raises(AssertionError):
            assert_says(STEEPED, said)
    else:
        assert_says(STEEPED, said)


def test_a_value_may_be_off_by_half_its_last_digit() -> None:
    third = ask(KERNEL, "tea", {"water": (1, "liter"), "leaf": (1 / 3, "gram")}, "dose")
    assert_says(third, "0.33 gram / liter")
    for said, rel in (("0.34 gram / liter", None), ("0.33 gram / liter", 1e-3)):
        with pytest.raises(AssertionError):
            assert_says(third, said, rel=rel)


def test_what_it_does_not_say() -> None:
    with pytest.raises(AssertionError, match="there is no salt among leaf, water, dose"):
        assert_says(STEEPED, "salt: 1 gram")
    with pytest.raises(AssertionError, match="measure different things"):
        assert_says(STEEPED, "12 liter")


def test_examples_are_cases() -> None:
    assert [(c.question, c.answer, c.place) for c in examples(KERNEL, "tea")] == [
        ("how much tea for 1.5 l?", "12 gram", "tea.tea, example 1")]
    assert len(examples(KERNEL)) == 1
