"""Equations set as in a book: the shape is the author's, nothing is worked out."""

from __future__ import annotations

import pytest
from stillroom.errors import FormulaError
from stillroom.pretty import pretty


@pytest.mark.parametrize(("equation", "lines"), [
    ("mass = salt + water", ["mass = salt + water"]),
    ("a = b / c", ["    b", "a = ─", "    c"]),
    ("final_volume = 2 * b * 3", ["final volume = 2⋅b⋅3"]),
    ("a = b - b", ["a = b - b"]),
    ("a = b ** 2", ["     2", "a = b"]),
    ("a = table_of(kind, t)", ["a = table of(kind, t)"]),
    ("a = m / (v * (1 - lost))", ["         m", "a = ────────────", "    v⋅(1 - lost)"]),
])
def test_set_as_it_was_written(equation: str, lines: list[str]) -> None:
    assert [x.rstrip() for x in pretty(equation).splitlines()] == lines


def test_names_may_be_given() -> None:
    assert pretty("a = b + c", {"a": "all"}) == "all = b + c"


def test_what_is_no_equation() -> None:
    with pytest.raises(FormulaError):
        pretty("a + b")
