"""Every calculator's examples, asked in plain words, give the answers that stand beside them."""

from __future__ import annotations

import re
from functools import cache

import pytest
import stillroom_bar
from stillroom import Kernel
from stillroom_bot.conversation import Conversation

NOT_READ_YET = {
    "cost_of_spec": "the size of the bottle that each line comes from is not read from a sentence",
}
SPELLED = {"ml": "milliliter"}


@cache
def conversation() -> Conversation:
    kernel = Kernel(discover=False)
    kernel.add("bar", stillroom_bar)
    return Conversation(kernel)


def examples() -> list[object]:
    cases: list[object] = []
    for calculator in stillroom_bar.stillroom_calculators():
        reason = NOT_READ_YET.get(calculator.name)
        marks = [pytest.mark.xfail(reason=reason, strict=True)] if reason else []
        cases += [
            pytest.param(question, answer, id=f"{calculator.name}-{n}", marks=marks)
            for n, (question, answer) in enumerate(calculator.examples)
        ]
    return cases


def rounding(number: str) -> float:
    """Half a step of the last digit that is given."""
    return 0.5 * 10.0 ** -len(number.partition(".")[2])


def test_every_calculator_has_an_example() -> None:
    assert not [c.name for c in stillroom_bar.stillroom_calculators() if not c.examples]


@pytest.mark.parametrize(("question", "answer"), examples())
def test_the_answer_is_the_one_that_stands_beside_it(question: str, answer: str) -> None:
    said = re.fullmatch(r"(-?[\d.]+) (\S.*)", answer)
    assert said, f"{answer!r} is no number with a unit"
    number, unit_name = said.groups()
    talk = conversation()
    reply = talk.answer(question)[0].to_json()
    assert reply["status"] == "answered", reply["text"]
    first = reply["answer"][0]
    units = talk.kernel.units
    wanted, given = units[SPELLED.get(unit_name, unit_name)], units[first["unit"]]
    assert wanted.dimension == given.dimension, reply["text"]
    value = wanted.from_base(given.to_base(first["value"]))
    assert value == pytest.approx(float(number), rel=1e-9, abs=1.02 * rounding(number)), reply["text"]
