"""The last request once more: in another unit, for so many times as much, with what was picked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from stillroom import Amount, Answer, Kernel, Request

from .context import Context
from .reading.candidate import MASS, MONEY, VOLUME, Candidate
from .reading.deciding import Outcome, solve
from .reading.message import Message
from .reading.reader import Reader, Reading

CERTAIN = 9.0
AMOUNTS = (MASS, VOLUME, MONEY)
TIMES = {"double": 2.0, "twice": 2.0, "triple": 3.0, "treble": 3.0, "halve": 0.5, "half": 0.5, "quadruple": 4.0}
PRONOUNS = frozenset("that this it those them these".split())


def factor_of(message: Message) -> float | None:
    """``double it``, ``half of that``, ``for 3 of them``: by how much the whole job is to be scaled."""
    words = [t.text for t in message.tokens]
    live = [q for q in message.quantities if not q.noise]
    pronoun = any(w in PRONOUNS for w in words)
    for q in live:
        after = words[q.last + 1 : q.last + 4]
        if (
            q.bare
            and (
                after[:2] in (["of", "them"], ["of", "those"], ["of", "these"], ["of", "that"])
                or (after[:1] in (["times"], ["x"]) and len(words) < 7)
            )
            and len(live) == 1
        ):
            return q.value
        if q.bare and len(live) == 1 and pronoun and 0 < q.value < 1 and len(words) < 8:
            return q.value
        if q.bare and len(live) == 1 and q.first and words[q.first - 1] in ("x", "times") and len(words) < 7:
            return q.value
    if len(words) <= 8 and not [q for q in live if not (q.bare and q.value == 0.5)]:
        for w in words:
            if w in TIMES and (pronoun or w in ("double", "triple", "treble", "halve", "quadruple")):
                return TIMES[w]
    return None


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

    def _scaled(self, message: Message, context: Context, factor: float) -> Outcome | None:
        old = context.request
        model = self.kernel.models[old.calculator]

        def scaled(a: Amount) -> Amount:
            return replace(a, value=a.value * factor, base=a.base * factor, said=f"{factor:g} × {a.said or a.value}")

        grows = {n for n in old.given if model.unit[n].dimension in AMOUNTS or model.unit[n].kind == "count"}
        names = {n for n in grows if model.variables[n].role not in ("each", "per")} or grows
        given = {n: scaled(a) if n in names else a for n, a in old.given.items()}
        if not names and old.spec:
            return self._repeat(
                replace(old, spec=tuple(replace(x, amount=scaled(x.amount)) if x.amount else x for x in old.spec))
            )
        counted = self._count(context, factor)
        return counted if counted is not None else self._repeat(replace(old, given=given)) if names else None

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
                return self._repeat(
                    replace(context.request, given={**context.request.given, name: Amount(factor, "count", factor)})
                )
        return None

    def picked(self, request: Request) -> Outcome:
        """The outcome of a request that was offered as a choice."""
        return self._repeat(request)

    def again(self, context: Context, sizes: Mapping[str, float], system: Mapping[str, str]) -> Outcome:
        """The last question once more, with the chat's measures as they are now."""
        units = self.kernel.units.adjusted(sizes)

        def anew(a: Amount) -> Amount:
            unit = system.get(a.unit, a.unit)
            return replace(a, unit=unit, base=units[unit].to_base(a.value))

        old = context.request
        chosen = {n: system.get(u, u) for n, u in old.units.items()}
        return self._repeat(
            replace(old, given={n: anew(a) for n, a in old.given.items()}, units=chosen, sizes=dict(sizes))
        )

    def _in_unit(self, message: Message, context: Context, system: Mapping[str, str]) -> Outcome | None:
        """A unit alone: the last question once more, answered in it."""
        old = context.request
        model = self.kernel.models[old.calculator]
        chosen = dict(old.units)
        for name in old.wanted:
            dimension = model.unit[name].dimension if name in model.unit else None
            for spelled in message.asked.units:
                for u in spelled:
                    if dimension is None or self.kernel.units[u].dimension == dimension:
                        chosen[name] = system.get(u, u)
        return self._repeat(replace(old, units=chosen)) if chosen != dict(old.units) else None


_NOBODY = Candidate(None, (), {}, (), 0.0, False, {})  # type: ignore[arg-type]
