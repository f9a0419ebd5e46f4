"""A chat's own measures and habits: said alone, said inside a question, and taken back.

The usual sizes are the conventions of the README: a drop 0.05 ml (USP <1101>), a dash 0.8 ml and a
barspoon 5 ml (common practice, no source); ounces by NIST Handbook 44 and the UK Weights and Measures Act.
"""

from __future__ import annotations

import pytest
from stillroom_bot.conversation import Conversation
from stillroom_bot.state import State

US_OUNCE, IMPERIAL_OUNCE = 29.5735295625, 28.4130625


def first(talk: Conversation, text: str, state: State) -> float:
    """The first number of the answer, in the unit that was asked for."""
    reply, _ = talk.answer(text, state)
    assert reply.status == "answered", reply.text
    value: float = reply.to_json()["answer"][0]["value"]
    return value


SET_AND_BACK = [
    ("our dasher gives 0.6 ml a dash", "10 dashes in ml?", 6.0, "back to the normal dash", 8.0),
    ("a dash here is 0.9 ml", "10 dashes in ml?", 9.0, "forget our dash", 8.0),
    ("one dash is 1 ml for us", "10 dashes in ml?", 10.0, "back to the usual dash", 8.0),
    ("a barspoon holds 4 ml in this house", "6 barspoons in ml?", 24.0, "forget our barspoon", 30.0),
    ("my pipette does 32 drops per ml", "2 ml in drops?", 64.0, "back to the usual drop", 40.0),
    ("I counted 50 drops in 2 ml", "4 ml in drops?", 100.0, "back to the usual drop", 80.0),
    ("we pour 30 ml ounces", "2 oz in ml?", 60.0, "use us ounces again", 2 * US_OUNCE),
    ("our ounce is 30 ml", "2 oz in ml?", 60.0, "use us ounces again", 2 * US_OUNCE),
    ("imperial ounces from now on please", "2 fl oz in ml?", 2 * IMPERIAL_OUNCE, "back to US ounces", 2 * US_OUNCE),
]


@pytest.mark.parametrize(("said", "question", "own", "back", "usual"), SET_AND_BACK)
def test_a_measure_is_set_and_taken_back(
    talk: Conversation, said: str, question: str, own: float, back: str, usual: float
) -> None:
    reply, state = talk.answer(said)
    assert reply.status == "noted", reply.text
    assert first(talk, question, state) == pytest.approx(own)
    reply, state = talk.answer(back, state)
    assert reply.status == "noted", reply.text
    assert first(talk, question, state) == pytest.approx(usual)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("how many drops in 4 ml if 1 ml is 22 drops", 4 * 22),
        ("at 24 drops to the ml, how much is 60 drops in ml", 60 / 24),
        ("5 ml in drops at 26 drops per ml", 5 * 26),
        ("this dropper gives thirty drops a mil, how many drops make a mil and a half", 30 * 1.5),
        ("Counted: 25 drops to the ml. What's 40 of 'em in ml?", 40 / 25),
        ("dropper 25 drops/mL, 50 mL bottle, 5 drops a drink. Drinks?", 50 * 25 / 5),
    ],
)
def test_a_size_inside_a_question_is_for_that_question(talk: Conversation, text: str, value: float) -> None:
    reply, state = talk.answer(text)
    assert reply.to_json()["answer"][0]["value"] == pytest.approx(value), reply.text
    assert not state.settings
    assert first(talk, "1 ml in drops?", State()) == pytest.approx(20)


def test_a_follow_up_keeps_the_size_of_its_question(talk: Conversation) -> None:
    _, state = talk.answer("with 30 drops per ml, how many drops is 1.5 ml?")
    assert first(talk, "and 2 ml?", state) == pytest.approx(60)
    _, state = talk.answer("my dropper does 25 drops per ml", state)
    assert first(talk, "and 2 ml?", state) == pytest.approx(50)


@pytest.mark.parametrize(
    "text",
    [
        "4 drops in 60 ml per serve, 30 serves",
        "20 drops in ml?",
        "6 drops of 20 % saline in a 120 ml drink: what salt percent is the glass?",
        "2 dashes per 90 ml",
        "I counted 75 drops in 2.5 ml, how big is one drop?",
    ],
)
def test_a_dose_is_no_size(talk: Conversation, text: str) -> None:
    settled = talk.settings.settle(text, {})
    assert (settled.text, settled.settings, settled.own) == (text, {}, {})


def test_a_setting_answers_the_question_before_it_again(talk: Conversation) -> None:
    _, state = talk.answer("40 drops in ml?")
    reply, _ = talk.answer("I counted my dropper, it gives 25 drops per ml. So how much now?", state)
    assert reply.to_json()["answer"][0]["value"] == pytest.approx(40 / 25), reply.text


def test_answers_come_in_the_units_that_the_chat_wants(talk: Conversation) -> None:
    """1 l of 60 % with as much water as makes it 40 % is 1.5 l of it, by the strength alone."""
    question = "1 litre of 60 % rum to 40 %, final volume?"
    for said, unit, value in (
        ("answer in ounces from now on", "fluid_ounce", 1500 / US_OUNCE),
        ("metric please", "milliliter", 1500.0),
    ):
        reply, state = talk.answer(said)
        assert reply.status == "noted", reply.text
        answer = talk.answer(question, state)[0].to_json()["answer"][0]
        assert (answer["unit"], answer["value"]) == (unit, pytest.approx(value))


def test_a_message_may_end_in_one(talk: Conversation) -> None:
    assert talk.answer("our siphon is a 1 litre one")[0].status in ("asks", "answered", "noted")
