"""The kin of a job: calculators that could go on with all that it was given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cached_property

from stillroom import Amount, Request
from stillroom.model import Model

from .context import Context
from .reading.deciding import Outcome
from .reading.message import Message
from .respecifying import Respecifying

KIN_ASKED, MOST_KIN = 2.0, 6
PUT_IN = ("into", "with")
"""Roles of what is put into something."""


class Kindred(Respecifying):
    """Finds those that may be asked what the job before cannot tell."""

    def forbidden(self, message: Message, context: Context, cover: Mapping[str, float]) -> list[Outcome]:
        """``can I put four in it?``: no, where that breaks a limit of what was spoken of; else nothing is known."""
        numbers = [q for q in message.quantities if not (q.weak or q.noise or q.rejected or q.carried)]
        own = self.kernel.models[context.request.calculator]
        kept = {n: a for n, a in context.request.given.items() if own.unit[n].kind != "count"}
        old = replace(context.request, given=kept, wanted=())
        for id in [own.id, *self._kin(replace(context, request=old), cover)] if len(numbers) == 1 else ():
            model, q = self.kernel.models[id], numbers[0]
            starts = tuple(x.reason.split("{")[0] for x in model.calculator.limits if x.action == "refuse")
            for name, v in model.variables.items():
                unit = self.kernel.units[q.units[0] if q.units else "count"]
                of_a_kind = model.unit[name].kind == unit.kind and model.unit[name].dimension == unit.dimension
                if name in kept or v.role not in PUT_IN or not of_a_kind:
                    continue
                said = Amount(q.value, unit.name, unit.to_base(q.value), message.words(q.first, q.last))
                o = self._repeat(replace(old, calculator=id, given={**kept, name: said}))
                if o.answer.status == "declined" and o.answer.reason.startswith(starts):
                    return [o]
        return []

    def _kin(self, context: Context, cover: Mapping[str, float]) -> list[str]:
        """Calculators that have every variable that was given and every choice that was made, the likeliest first."""
        old = context.request
        if old.spec or not (old.given or old.choices):
            return []
        have: set[str] | None = None
        for name in (*old.given, *old.choices):
            ids = self._by_name.get(name, frozenset())
            have = set(ids) if have is None else have & ids
        own = self.kernel.models[old.calculator]
        kin = [
            id
            for id in have or ()
            if id != old.calculator
            and self._takes_over(own, self.kernel.models[id], old)
        ]
        return sorted(kin, key=lambda id: (-cover.get(id, 0.0), id))[:MOST_KIN]

    def _takes_over(self, own: Model, kin: Model, old: Request) -> bool:
        """Is every given name a variable of the same measure there, and every choice one with that row?"""
        return all(n in kin.unit and kin.unit[n].dimension == own.unit[n].dimension for n in old.given) and all(
            c in kin.choices and r in kin.choices[c].rows for c, r in old.choices.items()
        )

    @cached_property
    def _by_name(self) -> dict[str, frozenset[str]]:
        found: dict[str, set[str]] = {}
        for id, model in self.kernel.models.items():
            for name in (*model.variables, *model.choices):
                found.setdefault(name, set()).add(id)
        return {name: frozenset(ids) for name, ids in found.items()}

    def _plainly_answered(self, o: Outcome, message: Message) -> bool:
        """Is something answered that was asked for by name, and is no known word left aside?"""
        c = o.reading.candidate
        named = (i for i in message.content if i == 0 or message.tokens[i - 1].text != "how")
        known = (i for i in named if self.reader.lexicon.known(message.tokens[i].stem))
        asked = o.answer.status == "answered" and c.parts.get("asked", 0.0) >= KIN_ASKED
        return asked and all(i in c.covered for i in known)
