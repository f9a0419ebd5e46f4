"""Which variables the names beside a number mean: the two terms of a ratio, the parts of a sum, what is weighed."""

from __future__ import annotations

from .candidate import Use
from .exchanged import OTHER
from .lexicon import Match
from .neighbours import CLAUSE, QUESTION
from .view import View

FIT = 1.1
MISNAMED, TOLD = 2.5, 0.8
NEAR, MOST_NEAR, NAMED_TERMS = 0.35, 3.0, 1.5
AT = frozenset({"at", "@", "with"})


def owner_names(view: View, k: int) -> frozenset[str]:
    """The variables that the thing directly after quantity ``k`` names, by its last word (``8 g CO2 cartridges``)."""
    noun, q = view.message.nouns[k], view.message.quantities[k]
    if noun is None or noun[0] <= q.last:
        return frozenset()
    heads = (_names_of(view, x.match) for x in view.message.near[k] if x.owned and x.match.last == noun[1])
    return frozenset().union(*heads)


def summed_at(view: View, k: int) -> set[str]:
    """The wholes whose parts are named together beside quantity ``k`` (``10 litres of punch and milk``)."""
    wholes, m = view.profile.wholes, view.message
    if not wholes or not m.pairs:
        return set()
    q = m.quantities[k]
    low = m.quantities[k - 1].last if k else -1
    high = m.quantities[k + 1].first if k + 1 < len(m.quantities) else len(m.tokens)
    found: set[str] = set()
    for a, b in m.pairs:
        if not (low < a.first and b.last < high) or not (
            q.last < a.first <= q.last + 6 or b.last < q.first <= b.last + 6
        ):
            continue
        between = range(q.last + 1, a.first) if q.last < a.first else range(b.last + 1, q.first)
        if any(m.tokens[i].text in CLAUSE or m.tokens[i].text in QUESTION for i in between):
            continue
        if b.last < q.first and _of_one(view, k, a, b):
            continue
        if _told_apart(view, k, b):
            continue
        left, right = _names_of(view, a), _names_of(view, b)
        found |= {
            w for w, parts in wholes.items() if any(x in left and y in right and x != y for x in parts for y in parts)
        }
    return found


def _told_apart(view: View, k: int, b: Match) -> bool:
    """``60 ml of base and soda at 4 volumes, for 2.5 in the glass``: is the last of a pair told with a number of its
    own, of a kind that is told again for both together?"""
    numbers = view.message.quantities
    own = numbers[k + 1] if k + 1 < len(numbers) and numbers[k].last < b.first else None
    return (
        own is not None
        and own.first == b.last + 2
        and view.message.tokens[b.last + 1].text in AT
        and bool(own.units)
        and any(q.units == own.units for q in numbers[k + 2 :])
    )


def _of_one(view: View, k: int, a: Match, b: Match) -> bool:
    """Is quantity ``k`` of one of a pair, said again (``sugar and water, 500 g of sugar``)?"""
    noun = view.message.nouns[k]
    if noun is None or noun[0] <= view.message.quantities[k].last:
        return False
    said = tuple(t.stem for t in view.message.tokens[noun[0] : noun[1] + 1])
    return said in (a.entry.stems, b.entry.stems)


def _names_of(view: View, match: Match) -> frozenset[str]:
    meaning, slots = view.meaning_of.get(id(match), (None, frozenset()))
    return slots | frozenset(meaning.variables if meaning is not None else ())


def ratio_uses(view: View, k: int) -> list[Use]:
    """A ratio read by the names of its terms, else in the job's own order."""
    m = view.message
    q = m.quantities[k]
    assert q.ratio is not None
    uses = []
    for name, slot in view.profile.slots.items():
        pair = slot.variable.ratio
        if not pair:
            continue
        left, right = _which(view, q.names[0], pair), _which(view, q.names[1], pair)
        near = 0.0
        for x in m.near[k]:
            meaning = view.meaning_of.get(id(x.match), (None, frozenset()))[0]
            if meaning is not None and (meaning.topic or any(n in meaning.variables for n in (name, *pair))):
                near = max(near, x.weight)
        base = FIT + NEAR * min(near, MOST_NEAR) + (view.context[name][1] if name in view.context else 0.0)
        base -= 0.1 * slot.before
        if slot.variable.role in ("from", "to"):
            base += TOLD * (m.cues[k].get(slot.variable.role, 0.0) - m.cues[k].get(OTHER[slot.variable.role], 0.0))
        if left is not None and left == right:
            uses.append(Use(k, name, "dimensionless", base + NAMED_TERMS - MISNAMED, unordered=True))
        elif left == pair[1] or right == pair[0]:
            other = _another(view, q.names[1], right, pair[0]) or _another(view, q.names[0], left, pair[1])
            uses.append(Use(k, name, "dimensionless", base + NAMED_TERMS - MISNAMED * other, inverse=True))
        elif left == pair[0] or right == pair[1]:
            other = _another(view, q.names[1], right, pair[1]) or _another(view, q.names[0], left, pair[0])
            uses.append(Use(k, name, "dimensionless", base + NAMED_TERMS - MISNAMED * other))
        elif q.names[0] and q.names[1] and left is None and right is None:
            uses.append(Use(k, name, "dimensionless", base - 1.2, unordered=True))
        else:
            against = not slot.variable.habit or (q.ratio[0] < q.ratio[1]) != slot.variable.rising
            uses.append(Use(k, name, "dimensionless", base, unordered=against and q.ratio[0] != q.ratio[1]))
    uses.sort(key=lambda u: -u.score)
    return uses


def _another(view: View, span: tuple[int, int] | None, found: str | None, name: str) -> bool:
    """Is a term named that is another thing than the one that the job has there (``malic to tartaric``, not water)?"""
    slot = view.profile.slots.get(name)
    if span is None or found is not None or slot is None or "any" in slot.things:
        return False
    return any(span[0] <= x.first and x.last <= span[1] and x.entry.substances for x in view.message.matches)


def _which(view: View, span: tuple[int, int] | None, pair: tuple[str, str]) -> str | None:
    if span is None:
        return None
    for match, meaning, slots in view.mine:
        if match.first >= span[0] and match.last <= span[1]:
            for name in pair:
                if name in meaning.variables or name in slots:
                    return name
    return None
