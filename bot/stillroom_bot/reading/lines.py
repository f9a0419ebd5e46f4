"""Numbers as lines of a spec: an amount directly followed by a thing, and what is said of that thing."""

from __future__ import annotations

from stillroom.units import PERCENTS

from .candidate import MASS, MONEY, VOLUME
from .fitting import _percent_fits
from .view import View

KNOWN, UNKNOWN, COUNTED = 1.9, 1.5, 0.9
NEARBY = 6
APART = frozenset({",", ";", "\n", ".", "+"})


def line_worth(view: View, k: int) -> float | None:
    """What speaks for quantity ``k`` being a line, or None if it cannot be one."""
    m = view.message
    q, noun = m.quantities[k], m.nouns[k]
    if noun is None or q.ratio is not None or q.money or q.per is not None or q.carried:
        return None
    if q.units and not q.unsized and view.units[q.units[0]].dimension not in (MASS, VOLUME):
        return None
    substance = False
    for match in m.matches:
        if match.first >= noun[0] and match.last <= noun[1]:
            if match.entry.vessel:
                return None
            substance = substance or bool(match.entry.substances)
            meaning = match.entry.meanings.get(view.id)
            if meaning is not None and meaning.variables and not match.entry.substances:
                return None
    if q.bare:
        return COUNTED if substance and m.state(k) != "liquid" else None
    return KNOWN if substance else UNKNOWN


def attribute_of(view: View, k: int, lines: tuple[int, ...]) -> tuple[int, str] | None:
    """The line and attribute (strength, price) that quantity ``k`` belongs to: it stands in the line's own phrase."""
    spec, q = view.profile.spec, view.message.quantities[k]
    if spec is None or q.ratio is not None:
        return None
    for name, unit_name in spec.columns.items():
        if name == "amount" or unit_name not in view.units:
            continue
        unit = view.units[unit_name]
        for u in q.units or q.shared:
            said = view.units[u]
            if (
                (unit.kind in PERCENTS and _percent_fits(said, unit))
                or said.dimension == unit.dimension == MONEY
                or (said.kind == unit.kind == "ratio")
            ):
                owner = _owner(view, k, lines)
                if owner is not None:
                    return owner, name
    return None


def _owner(view: View, k: int, lines: tuple[int, ...]) -> int | None:
    m = view.message
    q = m.quantities[k]
    best = None
    for j in lines:
        p = m.quantities[j]
        between = range(min(p.last, q.last) + 1, max(p.first, q.first))
        if (
            len(between) <= NEARBY
            and not any(m.tokens[i].text in APART for i in between)
            and (best is None or abs(j - k) < abs(best - k))
        ):
            best = j
    return best
