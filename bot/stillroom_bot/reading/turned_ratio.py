"""``how many parts water to one part salt?``: a ratio that is asked for in the other order than the job's own."""

from __future__ import annotations

from dataclasses import replace

from stillroom import Answer, Value

from .candidate import Candidate
from .lexicon import Match
from .message import Message
from .profile import Profile

TO = frozenset({"to", "per", ":", "for"})
BETWEEN = TO | frozenset("one 1 a the each every of part parts".split())
MOST_BETWEEN = 4


def in_order_asked(answer: Answer, c: Candidate, profile: Profile, message: Message) -> Answer:
    """The answer with a ratio turned round, and called by its two things, where the order that was asked is the other.

    The values stay as the job has them.
    """
    if answer.status != "answered" or not profile.ratios or len(answer.answer) != 1:
        return answer
    told = answer.answer[0]
    variable = c.model.variables.get(told.name)
    pair = variable.ratio if variable is not None else None
    if pair is None or not told.base or told.origin != "found" or not _asked(pair[1], pair[0], profile, message):
        return answer
    name, turned = f"{pair[1]} to {pair[0]}".replace("_", " "), 1 / told.base
    return replace(answer, answer=(Value(name, turned, told.unit, told.origin, turned),))


def _asked(first: str, second: str, profile: Profile, message: Message) -> bool:
    """Does the question name the one thing of a ratio, and the other directly after it?"""
    tokens = message.tokens
    zones = message.asked.zones
    for x in message.matches:
        if not any(a <= x.first <= b for a, b in zones) or first not in _names(x, profile):
            continue
        for y in message.matches:
            between = [t.text for t in tokens[x.last + 1 : y.first]]
            if (
                0 < len(between) <= MOST_BETWEEN
                and not TO.isdisjoint(between)
                and BETWEEN.issuperset(between)
                and second in _names(y, profile)
            ):
                return True
    return False


def _names(x: Match, profile: Profile) -> set[str]:
    """The variables that a match names, by its words or as a thing."""
    meaning = x.entry.meanings.get(profile.id)
    things = {n for n, s in profile.slots.items() if s.things & x.entry.kinds}
    return things | (set(meaning.variables) if meaning is not None else set())
