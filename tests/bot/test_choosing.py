"""A choice is taken by its label, its place, or what sets it apart; anything else is no choice."""

from __future__ import annotations

import pytest
from stillroom_bot.choosing import pick

TWO = ("solute mass, with strength 10 %, water 400 g", "solute mass, with strength 10 %, mass 400 g")
RATIOS = ("1 sugar to 2 peel", "2 sugar to 1 peel")
ONE = ("mass, with dose 400 g/l, spirit 2 l",)


@pytest.mark.parametrize(
    ("text", "labels", "place"),
    [
        (TWO[1], TWO, 1),
        ("The mass.", TWO, 1),
        ("water", TWO, 0),
        ("the first", TWO, 0),
        ("2", TWO, 1),
        ("the latter please", TWO, 1),
        ("2 sugar to 1 peel", RATIOS, 1),
        ("yes", ONE, 0),
        ("yes that's right", ONE, 0),
    ],
)
def test_a_choice_is_taken(text: str, labels: tuple[str, ...], place: int) -> None:
    assert pick(text, labels) == labels[place]


@pytest.mark.parametrize(
    ("text", "labels"),
    [
        ("400 g", TWO),
        ("solute mass", ("solute mass, by weight", "solute mass, by volume")),
        ("strength", TWO),
        ("yes", TWO),
        ("the third", TWO),
        ("no", ONE),
        ("", TWO),
        ("agar for 2 litres at 0.8 %, how much would that be then please", TWO),
    ],
)
def test_what_is_no_choice_is_left_alone(text: str, labels: tuple[str, ...]) -> None:
    assert pick(text, labels) is None
