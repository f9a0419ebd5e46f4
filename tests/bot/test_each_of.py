"""One amount that is said once for a list of things; the sums beside each are worked out by hand."""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from stillroom_bot.state import State

CASES = [
    ("30 ml each of 42 % rye, 20 % bitter and 16 % vermouth: abv?", (42 + 20 + 16) / 3, "percent"),
    ("Even parts: two ounces each of a 40 % rum, a 30 % liqueur and a 17 % wine. ABV undiluted?", 29.0, "percent"),
    ("equal parts of 45 % gin, 25 % bitter and 17 % vermouth, abv before ice?", 29.0, "percent"),
    ("20 ml each of lemon juice, gin and honey syrup, for 12 people, total in ml?", 720.0, "milliliter"),
]


@pytest.mark.parametrize(("text", "value", "unit"), CASES)
def test_an_amount_for_each_of_a_list(talk: Conversation, text: str, value: float, unit: str) -> None:
    reply, _ = talk.answer(text, State())
    assert reply.status == "answered", reply.text
    first = reply.to_json()["answer"][0]
    assert (first["value"], first["unit"]) == (pytest.approx(value, rel=1e-6), unit)


def test_equal_parts_of_plain_things_stay_a_ratio(talk: Conversation) -> None:
    reply, _ = talk.answer("equal parts sugar and water, 500 g of sugar: how much water?", State())
    assert reply.to_json()["answer"][0]["value"] == pytest.approx(500.0)
