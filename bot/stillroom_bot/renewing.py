"""What a follow-up asks for: something else than before, or the same under new conditions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from stillroom import Amount, Kernel, Request
from stillroom.model import Model

from .carrying import with_quantities
from .reading.clauses import SENTENCE_ENDS
from .reading.lexicon import Match, Meaning
from .reading.message import Message
from .reading.profile import Profile
from .reading.said import Said, totals_said
from .reading.wanting import AT_THE_END, NONE_OF

CONDITIONS = frozenset("for with if from using at when in to after instead".split())
"""Words after which a follow-up names what changes, and not what it asks (``and for rich syrup?``)."""
QUESTIONS = frozenset({"much", "many", "time", "strength", "temperature", "pieces"})
ANOTHER_SUBJECT = (
    ("new", "thing"), ("new", "question"), ("new", "job"), ("new", "subject"), ("new", "topic"), ("new", "one"),
    ("different", "job"), ("different", "question"), ("different", "thing"), ("different", "subject"),
    ("something", "else"), ("another", "thing"), ("another", "question"), ("another", "job"), ("another", "subject"),
    ("next", "job"), ("next", "question"), ("next", "thing"), ("next", "one"), ("separate", "question"),
    ("unrelated", "question"), ("other", "job"), ("change", "of", "subject"), ("changing", "the", "subject"),
)
FIRST_WORDS = 6
TOO_MUCH = frozenset("instead rather than too little bit strong weak much".split())
SAME, NEAR = 1e-9, 2.0
Result = tuple[tuple[str, float, str], ...]
"""What was found last: the name, the value on the base unit, and the unit of each."""


def changes_subject(message: Message) -> bool:
    """Does a message say at its beginning that it is about something else (``new thing: ...``, ``next job,``)?"""
    words = tuple(t.text for t in message.tokens[:FIRST_WORDS])
    marked = any(t.text in (":", ",", ".", "-", ";", "\n") for t in message.tokens[: FIRST_WORDS + 1])
    return marked and any(
        words[i : i + len(phrase)] == phrase for phrase in ANOTHER_SUBJECT for i in range(len(words))
    )


def old_taken_back(message: Message, given: Mapping[str, Amount]) -> Message:
    """``42 instead, we find 46 a little strong``: what was said before, said again beside what takes its place."""
    words = {t.text for t in message.tokens}
    live = [q for q in message.quantities if q.bare and not (q.noise or q.weak or q.rejected)]
    if len(live) < 2 or words.isdisjoint(TOO_MUCH):
        return message
    old = [q for q in live if any(abs(q.value - a.value) < SAME for a in given.values())]
    near = [q for q in live for o in old if q not in old and o.value / NEAR <= q.value <= NEAR * o.value]
    if len(old) != 1 or len(near) != 1:
        return message
    return with_quantities(message, [replace(q, rejected=True) if q is old[0] else q for q in message.quantities])


def none_of(message: Message, model: Model, result: Result) -> Result:
    """``how big can it be with no waste``: the last result, and naught of what is said to be none now."""
    denied = {
        name
        for m in message.matches
        if m.first and message.tokens[m.first - 1].text in NONE_OF and (meaning := m.entry.meanings.get(model.id))
        for name in meaning.variables
    }
    return tuple((name, 0.0 if name in denied else base, unit) for name, base, unit in result)


class Asks:
    """What one message asks of the job before."""

    def __init__(self, kernel: Kernel, message: Message, old: Request, profile: Profile):
        self.kernel, self.message, self.old, self.profile = kernel, message, old, profile
        self.how = message.asked.how

    def plainly(self, names: frozenset[str]) -> bool:
        """Are these variables really asked for, and not merely named with a row that changes, or with a unit?"""
        m = self.message
        if m.asked.units and not any(self.in_unit(n) for n in self.old.wanted):
            return any(self.in_unit(n) for n in names)
        if names & (self.profile.wholes.keys() | self.profile.totals) and totals_said(m):
            return True
        if not m.content:
            return bool(self.how)
        if self._empty_question():
            return False
        if m.once(Said).ending and any(self.profile.slots[n].variable.role in AT_THE_END for n in names):
            return True
        for a, b in (*m.asked.zones, *m.asked.rest):
            end = b if self.how else self._condition(a, b)
            for match in m.matches:
                meaning = match.entry.meanings.get(self.profile.id)
                if meaning is not None and a <= match.first and match.last <= end:
                    asked = names & meaning.variables.keys()
                    if self._of_a_phrase(match):
                        continue
                    if asked and (self.how or not self._redescribes(match, asked)):
                        return True
        return bool(self.how & QUESTIONS)

    def _of_a_phrase(self, match: Match) -> bool:
        """``max fill?``: does a word belong to a longer name that another job has for what it finds?"""
        return any(
            x.first <= match.first
            and match.last <= x.last
            and x.last - x.first > match.last - match.first
            and self.profile.id not in x.entry.meanings
            and any(m.variables for m in x.entry.meanings.values())
            for x in self.message.matches
        )

    def _empty_question(self) -> bool:
        """``Grapefruit instead of pineapple. How much then?``: does the question itself name nothing?"""
        words = [t.text for t in self.message.tokens]
        how = words.index("how") if "how" in words else 0
        start = next((i + 1 for i in range(how - 1, -1, -1) if words[i] in SENTENCE_ENDS), 0)
        end = next((i for i in range(start, len(words)) if words[i] in SENTENCE_ENDS), len(words))
        return start > 0 and not any(start <= i < end for i in self.message.content)

    def in_unit(self, name: str) -> bool:
        """Can a variable be answered in a unit that is asked for?"""
        model = self.kernel.models[self.old.calculator]
        return name in model.unit and any(
            self.kernel.units[u].dimension == model.unit[name].dimension
            for spelled in self.message.asked.units
            for u in spelled
        )

    def _condition(self, a: int, b: int) -> int:
        """The last token of a zone before a word that begins a condition."""
        for i in range(max(0, a - 1), b + 1):
            if self.message.tokens[i].text in CONDITIONS:
                return i - 1
        return b

    def _redescribes(self, match: Match, names: frozenset[str] | set[str]) -> bool:
        """``rich syrup``, ``orange juice``: a new row for what was given, and nothing asked by that."""
        for other in self.message.matches:
            meaning = other.entry.meanings.get(self.profile.id)
            if meaning is None or other.first > match.last + 1 or other.last < match.first - 1:
                continue
            for choice in self._changed(meaning):
                if not self._named_anew(choice, names):
                    return True
        return False

    def _changed(self, meaning: Meaning) -> list[str]:
        return [c for c, r in meaning.rows.items() if self.old.choices.get(c) != r]

    def _named_anew(self, choice: str, names: frozenset[str] | set[str]) -> bool:
        """``UK units?``: the row names what is asked, and nothing that was given."""
        by_row = {n for n, v in self.profile.model.variables.items() if v.named_by and v.named_by[0] == choice}
        return bool(by_row & names) and not by_row & self.old.given.keys()
