"""The last request once more: in another unit, for so many times as much, with what was picked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from stillroom import Amount, Answer, Kernel, Line, Request

from .context import Context
from .reading.candidate import MASS, VOLUME, Candidate
from .reading.deciding import Outcome, solve
from .reading.each_of import SERVED
from .reading.message import Message
from .reading.reader import Reader, Reading
from .reading.said import one_asked
from .scaling import AMOUNTS, Factor, counts_of, scaled_amount, sets_to_scale
from .settings import PLAIN

CERTAIN = 9.0
CLOSE = 1e-6
MANY_OF_THEM = 10
"""``50 of them``, after a spec for 36, are so many drinks, and not so many times 36."""


class Again:
    """Repeats a request with one thing changed."""

    def __init__(self, kernel: Kernel, reader: Reader):
        self.kernel, self.reader = kernel, reader

    def _repeat(self, request: Request) -> Outcome:
        model = self.kernel.models[request.calculator]
        candidate = Candidate(model, (), {}, request.wanted, CERTAIN, False, {})
        return Outcome(Reading(request, CERTAIN, candidate), self._solve(request), CERTAIN)

    def _solve(self, request: Request) -> Answer:
        return solve(self.kernel, Reading(request, 0.0, _NOBODY))

    def _scaled(self, context: Context, factor: Factor) -> Outcome | None:
        """The job so many times: its count where it has one, else its amounts, so that the answer grows with them."""
        old = context.request
        model = self.kernel.models[old.calculator]
        counts = counts_of(model, frozenset(old.given)) if old.spec else []
        if counts:
            name, a = counts[0], old.given[counts[0]]
            said = replace(a, value=factor.value, base=factor.value, said=f"{factor.value:g}")
            anew = factor.absolute or factor.value >= MANY_OF_THEM
            return self._with({name: said if anew else scaled_amount(a, factor.value)}, old)
        tried = [
            self._with({n: scaled_amount(old.given[n], factor.value) for n in names}, old)
            for names in sets_to_scale(model, context)
        ]
        if (counted := self._count(context, factor.value)) is not None:
            tried.insert(0, counted)
        if old.spec:
            tried.append(self._repeat(replace(old, spec=tuple(_scaled_line(x, factor.value) for x in old.spec))))
        return next((o for o in tried if self._grew(o, context, factor.value)), tried[-1] if tried else None)

    def _one_served(self, message: Message, context: Context, system: Mapping[str, str]) -> Outcome | None:
        """``and per drink in oz?`` of a spec that is made for many: the same for one."""
        served = all(message.tokens[i].stem in SERVED for i in message.content)
        old = context.request
        counted = bool(old.spec) and bool(counts_of(self.kernel.models[old.calculator], frozenset(old.given)))
        if context.open or message.quantities or not (one_asked(message) and served and counted):
            return None
        one = self._scaled(context, Factor(1.0, absolute=True))
        if one is None or not message.asked.units:
            return one
        return self._in_unit(message, replace(context, request=one.reading.request), system)

    def _asked_of(self, scaled: Outcome, message: Message) -> Outcome:
        """``double it, so how much water now?``: the scaled job, asked for what the message names."""
        request = scaled.reading.request
        model = self.kernel.models[request.calculator]
        named = [
            n
            for a, b in message.asked.zones
            for x in message.matches
            if a <= x.first and x.last <= b and (meaning := x.entry.meanings.get(model.id)) is not None
            for n in meaning.variables
            if n not in request.given and model.unit[n].dimension in AMOUNTS
        ]
        if not named or set(named) & set(request.wanted):
            return scaled
        other = self._repeat(replace(request, wanted=(named[0],)))
        return other if other.answer.status == "answered" else scaled

    def _with(self, given: Mapping[str, Amount], old: Request) -> Outcome:
        return self._repeat(replace(old, given={**old.given, **given}))

    def _grew(self, outcome: Outcome, context: Context, factor: float) -> bool:
        """Is the answer so many times what it was (an amount), or at least the same (a strength)?"""
        if outcome.answer.status != "answered" or not context.result:
            return False
        name, base, _ = context.result[0]
        unit = outcome.reading.candidate.model.unit.get(name)
        grows = unit is None or unit.dimension in (MASS, VOLUME) or unit.kind == "count" or unit.name == "currency"
        now = next((v.base for v in outcome.answer.answer if v.name == name), 0.0)
        return not grows or abs(now - factor * base) <= CLOSE * abs(factor * base) + (unit is not None and
                                                                                      unit.kind == "count")

    def _count(self, context: Context, factor: float) -> Outcome | None:
        """A job without an amount, done so many times: a count that it may take."""
        model = self.kernel.models[context.request.calculator]
        for name in model.variables:
            if (
                model.unit[name].kind == "count"
                and name not in context.request.wanted
                and model.variables[name].default == 1
                and name not in context.request.given
            ):
                return self._with({name: Amount(factor, "count", factor)}, context.request)
        return None

    def picked(self, request: Request) -> Outcome:
        """The outcome of a request that was offered as a choice."""
        return self._repeat(request)

    def again(self, context: Context, sizes: Mapping[str, float], system: Mapping[str, str]) -> Outcome:
        """The last question once more, with the chat's measures as they are now."""
        units = self.kernel.units.adjusted(sizes)

        def anew(a: Amount) -> Amount:
            usual = PLAIN.get(a.unit, a.unit)
            unit = system.get(usual, usual)
            return replace(a, unit=unit, base=units[unit].to_base(a.value))

        old = context.request
        chosen = {n: system.get(PLAIN.get(u, u), PLAIN.get(u, u)) for n, u in old.units.items()}
        return self._repeat(
            replace(old, given={n: anew(a) for n, a in old.given.items()}, units=chosen, sizes=dict(sizes))
        )

    def same_asked(self, message: Message, context: Context) -> bool:
        """After a measure's size: is nothing new asked (``so how many drops is it now?`` of an answer in drops)?"""
        before = {u for _, _, u in context.result}
        return not message.quantities and all(before & set(spelled) for spelled in message.asked.units)

    def _in_unit(self, message: Message, context: Context, system: Mapping[str, str]) -> Outcome | None:
        """A unit alone: the last question once more, answered in it."""
        old = context.request
        model = self.kernel.models[old.calculator]
        chosen = dict(old.units)
        for name in old.wanted or tuple(n for n, _, _ in context.result):
            dimension = model.unit[name].dimension if name in model.unit else self._measured(name, context)
            for spelled in message.asked.units:
                for u in spelled:
                    if dimension is None or self.kernel.units[u].dimension == dimension:
                        chosen[name] = system.get(u, u)
        if chosen == dict(old.units) and not old.spec:
            asked = [system.get(u, u) for spelled in message.asked.units for u in spelled]
            measured = {n: own.dimension for n, own in model.unit.items() if n not in old.given}
            chosen.update({n: u for n, d in measured.items() for u in asked
                           if self.kernel.units[u].dimension == d and d in (MASS, VOLUME)})
        return self._repeat(replace(old, units=chosen)) if chosen != dict(old.units) else None


    def _measured(self, name: str, context: Context) -> tuple[float, ...] | None:
        """What a line of a spec is measured in."""
        unit = next((u for n, _, u in context.result if n == name), "")
        return self.kernel.units[unit].dimension if unit in self.kernel.units else None


def _scaled_line(line: Line, factor: float) -> Line:
    return replace(line, amount=scaled_amount(line.amount, factor)) if line.amount else line


_NOBODY = Candidate(None, (), {}, (), 0.0, False, {})  # type: ignore[arg-type]
