"""Numbers of a follow-up that are told of something else than what the job before would take them for."""

from __future__ import annotations

from .reading.candidate import Candidate
from .reading.message import Message

MORE_OR_LESS = {"more": 1.0, "extra": 1.0, "less": -1.0, "fewer": -1.0}
TOLD = frozenset({"is", "=", ":"})


def told_of_another(message: Message, c: Candidate) -> bool:
    """``carton is 1.5 l``, ``ratio 0.8``: is a number told, in so many words, of something else than it is put to?"""
    t = message.tokens
    for u in (u for u in c.uses if u.evidence <= 0 and not message.quantities[u.quantity].strength):
        i = message.quantities[u.quantity].first - 1
        being = i > 0 and t[i].text in TOLD
        names = [x.entry.meanings for x in message.matches if x.last == i - being and not x.entry.substances]
        own = {n for meanings in names if (m := meanings.get(c.model.id)) for n in m.variables}
        if u.variable not in own and (own or (being and any(m.variables for x in names for m in x.values()))):
            return True
    return False


def less_of_another(c: Candidate, message: Message, k: int) -> bool:
    """``10 ml less syrup`` of a drink that is all that the job knows: less of something else."""
    after = message.quantities[k].last + 1
    if after >= len(message.tokens) or message.tokens[after].text not in MORE_OR_LESS:
        return False
    things = [x for x in message.matches if x.first == after + 1 and x.entry.substances]
    return bool(things) and all(c.model.id not in x.entry.meanings for x in things)
