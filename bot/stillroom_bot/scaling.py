"""``double it``, ``half of that``, ``x50``: the whole job for so many times as much."""

from __future__ import annotations

from dataclasses import dataclass

from stillroom import Amount
from stillroom.model import Model
from stillroom.units import NONE

from .context import Context
from .reading.candidate import MASS, MONEY, VOLUME
from .reading.message import Message
from .reading.quantity import Quantity

AMOUNTS = (MASS, VOLUME, MONEY)
MULTIPLES = {
    "double": 2.0,
    "doubled": 2.0,
    "doubling": 2.0,
    "twice": 2.0,
    "triple": 3.0,
    "tripled": 3.0,
    "treble": 3.0,
    "thrice": 3.0,
    "quadruple": 4.0,
    "halve": 0.5,
    "halved": 0.5,
    "halving": 0.5,
    "half": 0.5,
}
NEEDS_MORE = frozenset({"half", "twice", "thrice"})
"""Multiples that scale only beside a pronoun or a word for the whole job (``half a litre`` does not)."""
PRONOUNS = frozenset("that this it those them these".split())
WHOLE_JOB = frozenset("batch batches lot lots recipe quantity quantities amount amounts everything size job".split())
OF_THEM = frozenset({"of"})
PLURALS = frozenset("them those these that it batches".split())
LONGEST_ORDER = 8


@dataclass(frozen=True, slots=True)
class Factor:
    """``value`` times as much; ``absolute`` counts from one batch (``x50``), not from what was asked last."""

    value: float
    absolute: bool = False


def factor_of(message: Message) -> Factor | None:
    """By how much a message scales the job before (``double it``, ``half of that``, ``for 3 of them``, ``x50``)."""
    words = [t.text for t in message.tokens]
    live = [q for q in message.quantities if not q.noise and not _multiple(q, words)]
    pronoun = any(w in PRONOUNS or w in WHOLE_JOB for w in words)
    if len(live) == 1 and live[0].bare and (said := _counted(live[0], words, pronoun)) is not None:
        return said
    if sum(w[0].isalnum() for w in words) <= LONGEST_ORDER and not [q for q in live if not (q.bare and q.value == 0.5)]:
        for w in words:
            if w in MULTIPLES and (pronoun or w not in NEEDS_MORE):
                return Factor(MULTIPLES[w])
    return None


def _multiple(q: Quantity, words: list[str]) -> bool:
    return q.weak and q.first == q.last and words[q.first] in MULTIPLES


def _counted(q: Quantity, words: list[str], pronoun: bool) -> Factor | None:
    """``3 of them``, ``4 times that``, ``x50``, ``a third of it``."""
    after = words[q.last + 1 : q.last + 4]
    if after[:1] == ["of"] and (after[1:2] or [""])[0] in PLURALS | {"those"}:
        return Factor(q.value)
    if after[:1] in (["times"], ["x"]) and len(words) < 7:
        return Factor(q.value, absolute=not pronoun)
    if q.first and words[q.first - 1] in ("x", "times") and len(words) < 7:
        return Factor(q.value, absolute=not pronoun)
    part = 0 < q.value < 1 and not (q.first == q.last and "." in words[q.first])
    return Factor(q.value) if pronoun and part and len(words) < LONGEST_ORDER else None


def scaled_amount(a: Amount, factor: float) -> Amount:
    """So many times an amount, said as such."""
    return Amount(a.value * factor, a.unit, a.base * factor, f"{factor:g} × {a.said or a.value}")


def counts_of(model: Model, given: frozenset[str]) -> list[str]:
    """The given numbers that say how often a spec is made: serves, or a plain factor."""
    return [
        n
        for n in model.variables
        if n in given and model.variables[n].ratio is None and model.unit[n].dimension == NONE
        and model.unit[n].kind in ("count", "")
    ]


def sets_to_scale(model: Model, context: Context) -> list[frozenset[str]]:
    """Which given amounts to multiply, the most likely first: those of the whole job, all, those of one serve."""
    grows = frozenset(
        n
        for n in context.request.given
        if model.unit[n].dimension in AMOUNTS or model.unit[n].kind == "count"
    )
    each = frozenset(n for n in grows if model.variables[n].role in ("each", "per"))
    money = frozenset(n for n in grows if model.unit[n].dimension == MONEY)
    tried = (grows - each, grows - each - money, each, grows)
    return list(dict.fromkeys(s for s in tried if s))
