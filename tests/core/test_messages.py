"""Requests and amounts survive JSON; whatever else comes that way is refused."""

from __future__ import annotations

import dataclasses
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stillroom import Amount, Line, Request
from stillroom.errors import RequestError

from .samples import BRINE, TEA, ask, kernel_of

TEXT = st.text(max_size=12)
NUMBERS = st.floats(allow_nan=False, allow_infinity=False)
AMOUNTS = st.builds(Amount, NUMBERS, TEXT, NUMBERS, TEXT)
LINES = st.builds(Line, TEXT, st.none() | AMOUNTS, st.dictionaries(TEXT, AMOUNTS, max_size=2), st.none() | TEXT)
REQUESTS = st.builds(
    Request,
    TEXT,
    st.dictionaries(TEXT, AMOUNTS, max_size=3),
    st.dictionaries(TEXT, TEXT, max_size=2),
    st.lists(TEXT, max_size=3).map(tuple),
    st.lists(LINES, max_size=2).map(tuple),
    st.dictionaries(TEXT, TEXT, max_size=2),
    st.dictionaries(TEXT, NUMBERS, max_size=2),
    st.dictionaries(TEXT, AMOUNTS, max_size=2),
    st.dictionaries(TEXT, TEXT, max_size=2),
    st.none() | TEXT,
)


@given(REQUESTS)
def test_a_request_survives_json(request_: Request) -> None:
    assert Request.from_json(json.loads(json.dumps(request_.to_json()))) == request_


@given(LINES)
def test_a_line_survives_json(line: Line) -> None:
    assert Line.from_json(json.loads(json.dumps(line.to_json()))) == line


BAD_REQUESTS: list[Any] = [
    {},
    [],
    "text",
    5,
    None,
    {"calculator": "a", "given": 5},
    {"calculator": "a", "given": {"x": 1}},
    {"calculator": "a", "given": {"x": {"value": "many", "unit": "g", "base": 1}}},
    {"calculator": "a", "spec": [1]},
    {"calculator": "a", "sizes": {"drop": "big"}},
    {"calculator": "a", "spec": [{"thing": "gin"}]},
    {"calculator": "a", "given": {"x": {"value": float("nan"), "unit": "g", "base": 1}}},
    {"calculator": "a", "given": {"x": {"value": 1, "unit": "g", "base": float("inf")}}},
]


@pytest.mark.parametrize("data", BAD_REQUESTS, ids=str)
def test_what_is_no_request_is_refused(data: Any) -> None:
    with pytest.raises(RequestError):
        Request.from_json(data)


def test_messages_cannot_be_changed() -> None:
    amount = Amount(1, "gram", 1)
    with pytest.raises(dataclasses.FrozenInstanceError):
        amount.value = 2  # type: ignore[misc]


def test_an_answer_is_plain_data() -> None:
    answer = ask(kernel_of(TEA), "tea", {"water": (1.5, "liter")}, "leaf")
    data = json.loads(json.dumps(answer.to_json()))
    assert data["status"] == "answered" and data["calculator"] == "tea.tea"
    assert data["answer"] == [{"name": "leaf", "value": 12.0, "unit": "gram", "origin": "found"}]
    assert {v["name"]: v["origin"] for v in data["values"]} == {"leaf": "found", "water": "given", "dose": "assumed"}
    asks = ask(kernel_of(BRINE), "brine", {"strength": (10, "percent_ww")}, "salt").to_json()
    assert (asks["status"], asks["missing"], asks["answer"]) == ("asks", [["water"], ["brine"]], [])
