"""A spec in what follows it: its lines changed, one of them asked about, or another spec altogether."""

from __future__ import annotations

from dataclasses import replace

from stillroom import Amount, Line
from stillroom.units import PERCENTS, Units

from .carrying import Carrying
from .context import Context
from .reading.candidate import MASS, VOLUME
from .reading.message import Message
from .reading.tokens import stem

OPENERS = frozenset(
    """and what about if make no nah nope sorry instead but ok okay same oh also actually then with fine hm hmm
again back my apologies beg pardon i meant mean rather change now switch it's its""".split()
)


class Respecifying(Carrying):
    """Reads what a message makes of the spec before it."""

    def goes_on(self, message: Message) -> bool:
        """Does a message begin or say that it goes on with what was before?"""
        words = [t.text for t in message.tokens if t.kind == "word"]
        return bool(words) and (words[0] in OPENERS or not {"instead", "meant", "sorry"}.isdisjoint(words))

    def _another_spec(self, message: Message, spec: tuple[Line, ...]) -> bool:
        """``60 ml gin and 20 ml lime juice, strength?``: a spec and a question of their own, no lines of the last."""
        of_lines = sum(self._of_line(message, k, spec) for k in range(len(message.quantities)))
        asks = any(i in message.content for a, b in message.asked.zones for i in range(a, b + 1))
        return of_lines > 1 and asks and not self.goes_on(message)

    def _spec(self, message: Message, old: tuple[Line, ...], new: tuple[Line, ...], units: Units) -> tuple[Line, ...]:
        """The old lines with the amounts and strengths that the message changes; a line is known by its thing."""
        if not old:
            return new
        lines = list(old)
        for k, q in enumerate(message.quantities):
            if q.noise or q.ratio is not None or q.per is not None or not (q.units or q.bare):
                continue
            for i, line in enumerate(lines):
                if not self._names(message, k, line) or not (q.units or _in_its_unit(message, k, line)):
                    continue
                u = q.units[-1] if q.units else line.amount.unit if line.amount else ""
                amount = Amount(q.value, u, units[u].to_base(q.value), message.words(q.first, q.last))
                if units[u].kind in PERCENTS:
                    lines[i] = replace(line, attributes={**line.attributes, "abv": amount})
                elif line.amount is not None and units[u].dimension in (MASS, VOLUME):
                    lines[i] = replace(line, amount=amount)
        return tuple(lines)

    def _line_asked(self, message: Message, context: Context) -> str | None:
        """``how much pineapple juice is that?``: one line of the spec, where each line has its answer."""
        lines = self.kernel.models[context.request.calculator].calculator.lines
        if lines is None or not lines.each or any(not q.weak for q in message.quantities):
            return None
        asked = {message.tokens[i].stem for a, b in message.asked.zones for i in range(a, b + 1)}
        named = [x.thing for x in context.request.spec if {stem(w) for w in x.thing.lower().split()} <= asked]
        return named[0] if len(named) == 1 else None

    def _of_line(self, message: Message, k: int, spec: tuple[Line, ...]) -> bool:
        q = message.quantities[k]
        return q.per is None and any(
            self._names(message, k, line) and (bool(q.units) or _in_its_unit(message, k, line)) for line in spec
        )

    def _names(self, message: Message, k: int, line: Line) -> bool:
        """Does an amount belong to a line?  ``lime peel`` is not its lime juice, ``syrup`` may be its simple syrup."""
        words = set(line.thing.lower().split())
        noun = message.nouns[k]
        own = {message.tokens[i].stem for i in range(noun[0], noun[1] + 1)} if noun else set()
        other = {t.stem for m in message.matches if noun and noun[0] <= m.first and m.last <= noun[1]
                 for t in message.tokens[m.first : m.last + 1]} - words
        if other and words - own:
            return False
        near = {
            message.tokens[i].stem
            for x in message.near[k]
            if x.weight > 1.0
            for i in range(x.match.first, x.match.last + 1)
        }
        return bool(words & (near | own))


def _in_its_unit(message: Message, k: int, line: Line) -> bool:
    """``make it 45 gin``: a plain number and a thing alone is as much of it in the unit of its line."""
    q, noun = message.quantities[k], message.nouns[k]
    plain = q.bare and not (q.weak or q.factor)
    return plain and line.amount is not None and noun is not None and noun[0] == q.last + 1
