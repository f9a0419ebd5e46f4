"""Conversations as tables: what is said, and the number, the question, the refusal or the nod that must come back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import pytest
from stillroom.units import Units
from stillroom_bot.conversation import Conversation
from stillroom_bot.state import State

FLOZ = 29.5735295625  # NIST Handbook 44, Appendix C
OZ = 28.349523125  # the same, avoirdupois
PINT, IMPERIAL_PINT = 473.176473, 568.26125  # the same; UK Weights and Measures Act 1985
ETHANOL = 0.78924  # g/ml at 20 °C, OIML R 22
SALINE_20 = 1.1478  # g/ml, a fifth of salt by mass at 20 °C: Poradnik fizykochemiczny, WNT 1974


class Told(NamedTuple):
    """A message and the first number of its answer, in a unit; ``tol`` is relative."""

    text: str
    value: float
    unit: str
    tol: float = 0.005


class Asks(NamedTuple):
    """A message that is asked back about: one of these words must be in the question."""

    text: str
    words: tuple[str, ...]


class Noted(NamedTuple):
    """A message that sets something, thanks or asks for nothing; ``words`` must be in the reply."""

    text: str
    words: str = ""


class Declined(NamedTuple):
    """A message that gets no number; ``words`` of the reason must be in the reply."""

    text: str
    words: str = ""


Turn = Told | Asks | Noted | Declined


def base(units: Units, value: float, unit: str) -> float:
    """A value on its base unit, percent and counts as they are."""
    return units[unit].to_base(value) if unit in units else value


def holds(talk: Conversation, turns: Sequence[Turn]) -> None:
    """Say all of a conversation, and check each reply."""
    state = State()
    for turn in turns:
        reply, state = talk.answer(turn.text, state)
        said = (turn.text, reply.text)
        if isinstance(turn, Told):
            assert reply.status == "answered", said
            first = reply.to_json()["answer"][0]
            got, wanted = (base(talk.kernel.units, *x) for x in ((first["value"], first["unit"]), turn[1:3]))
            assert got == pytest.approx(wanted, rel=turn.tol), (turn.text, first)
        elif isinstance(turn, Asks):
            assert reply.status == "asks", said
            assert any(w in reply.text.lower() for w in turn.words), said
        else:
            assert reply.status == ("noted" if isinstance(turn, Noted) else "declined"), said
            assert turn.words in reply.text, said


def gives(talk: Conversation, said: str, value: float, unit: str = "", before: str = "") -> None:
    """One message, alone or after another, and the first number of its answer, in the very unit."""
    state = talk.answer(before)[1] if before else State()
    reply, _ = talk.answer(said, state)
    answer = reply.to_json()["answer"]
    assert answer, reply.text
    assert answer[0]["value"] == pytest.approx(value, rel=5e-3)
    assert not unit or answer[0]["unit"] == unit


def measures(talk: Conversation, said: str, value: float, unit: str) -> None:
    """One message, alone, and the first number of its answer, in any unit of the same measure."""
    reply, _ = talk.answer(said)
    answer = reply.to_json()["answer"]
    assert answer, reply.text
    told, units = answer[0], talk.kernel.units
    assert units[told["unit"]].dimension == units[unit].dimension
    assert units[told["unit"]].to_base(told["value"]) == pytest.approx(units[unit].to_base(value), rel=5e-3)
