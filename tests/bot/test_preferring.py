"""Two calculators for one question: it is asked back, unless an operator said which goes first."""

from __future__ import annotations

import pytest
from stillroom import Calculator, Kernel, var
from stillroom.policy import Policy
from stillroom_bot.conversation import Conversation

QUESTION = "how much wax for a 100 ml candle?"


def wax(dose: float, words: str = "") -> Calculator:
    """Wax for a candle, so much a millilitre."""
    return Calculator("candle", "Wax for a candle", var("wax", "gram"), var("candle", "milliliter"),
                      var("density", "gram / milliliter", default=dose), equations=["wax = density * candle"],
                      words=words)


def answered(**prefer: tuple[str, ...]) -> tuple[str, str | None]:
    kernel = Kernel(discover=False, policy=Policy(prefer=prefer))
    for name, dose in (("one", 0.9), ("two", 0.8)):
        assert not kernel.add(name, wax(dose)).errors
    reply = Conversation(kernel).answer(QUESTION)[0]
    return reply.status, reply.calculator


def test_without_a_preference_it_asks() -> None:
    assert answered()[0] == "asks"


@pytest.mark.parametrize(("first", "other"), [("one", "two"), ("two", "one")])
def test_the_preferred_one_answers(first: str, other: str) -> None:
    assert answered(**{first: (other,)}) == ("answered", f"{first}.candle")


def test_the_preferred_one_answers_though_the_other_knows_more_of_the_words() -> None:
    def of(**prefer: tuple[str, ...]) -> str | None:
        kernel = Kernel(discover=False, policy=Policy(prefer=prefer))
        for name, calculator in (("one", wax(0.9)), ("two", wax(0.8, "candle, wax, ml candle"))):
            assert not kernel.add(name, calculator).errors
        return Conversation(kernel).answer(QUESTION)[0].calculator

    assert of() == "two.candle"
    assert of(one=("two",)) == "one.candle"


def test_a_preference_for_somebody_else_changes_nothing() -> None:
    assert answered(three=("one", "two"))[0] == "asks"
