"""Numbers as lines of a spec: an amount directly followed by a thing, and what is said of that thing."""

from __future__ import annotations

from stillroom.units import NONE, PERCENTS

from .candidate import MASS, MONEY, VOLUME
from .fitting import _percent_fits, priced
from .nameless import nameless
from .quantity import PART, Quantity
from .view import View

KNOWN, UNKNOWN, COUNTED, NAMELESS = 1.9, 1.5, 0.9, 1.5
NEARBY = 8
WHOLES = frozenset("target total batch yield volume size final container fill".split())
"""What stands before the amount of the whole (``TARGET: 5 L``)."""
IN_ALL = (["in", "all"], ["in", "total"], ["all", "told"])
APART = frozenset({",", ";", "\n", ".", "+"})


def line_worth(view: View, k: int) -> float | None:
    """What speaks for quantity ``k`` being a line, or None if it cannot be one.

    Parts are lines only where a calculator adds its lines up: by themselves they measure nothing.
    """
    m = view.message
    q, noun = m.quantities[k], m.nouns[k]
    if k in m.once(nameless):
        return NAMELESS
    if noun is not None and noun[1] < q.first and m.tokens[noun[1]].stem in WHOLES:
        return None
    if noun is not None and [t.text for t in m.tokens[noun[1] + 1 : noun[1] + 3]] in IN_ALL:
        return None
    if noun is None or q.ratio is not None or q.per is not None or q.carried:
        return None
    if spent(view, k):
        return KNOWN
    if q.money or (q.units == (PART,) and not (view.profile.spec and view.profile.spec.sums)):
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


def spent(view: View, k: int) -> bool:
    """``bitters 0.06`` in a spec of prices: is quantity ``k`` what a thing costs in it, whatever its amount?"""
    m, spec = view.message, view.profile.spec
    q, noun = m.quantities[k], m.nouns[k]
    if spec is None or noun is None or "currency" not in spec.columns.values() or "amount" not in spec.columns.values():
        return False
    written = priced(q, m) if q.bare else q.units == ("currency",)
    named = any(noun[0] <= x.first and x.last <= noun[1] and x.entry.substances for x in m.matches)
    return written and named and q.per is None


def columns_for(view: View, k: int) -> tuple[str, ...]:
    """The attributes of a line that quantity ``k`` could be.

    A strength, a price, the bottle that a price buys (``at $28 for a 700 ml bottle``), gas in volumes: whatever
    the columns of the calculator are measured in.
    """
    spec, q = view.profile.spec, view.message.quantities[k]
    if spec is None or q.ratio is not None or (q.weak and not q.units):
        return ()
    return tuple(n for n, unit in spec.columns.items() if n != "amount" and _is_column(view, q, n, unit))


def attribute_of(
    view: View, k: int, columns: tuple[str, ...], lines: tuple[int, ...], taken: tuple[tuple[int, int, str], ...] = ()
) -> tuple[int, str] | None:
    """The line and attribute, of the ``columns`` that it could be, that quantity ``k`` belongs to.

    It stands in the line's own phrase; each attribute is given once a line.
    """
    owner = _owner(view, k, lines)
    if owner is None:
        return None
    given = {n for _, o, n in taken if o == owner}
    return next(((owner, n) for n in columns if n not in given), None)


def _is_column(view: View, q: Quantity, name: str, unit_name: str) -> bool:
    """Can a number be an attribute of a line that is measured so (``amount``: as the line is)?"""
    spec = view.profile.spec
    if unit_name == "amount":
        sized = bool(q.units) and not (q.unsized or q.per or q.strength)
        return sized and spec is not None and name in spec.needs and view.units[q.units[-1]].dimension in (MASS, VOLUME)
    if unit_name not in view.units:
        return False
    unit = view.units[unit_name]
    if unit.dimension == MONEY and q.bare:
        return priced(q, view.message)
    for u in q.units or q.shared:
        said = view.units[u]
        if unit.kind in PERCENTS:
            fits = q.per is None and _percent_fits(said, unit)
        else:
            fits = said.dimension == unit.dimension and said.kind == unit.kind
            fits = fits and (said.dimension != NONE or said.kind != "")
        if fits:
            return True
    return False


def _owner(view: View, k: int, lines: tuple[int, ...]) -> int | None:
    m = view.message
    q = m.quantities[k]
    best, ends = None, q.last + 1 == len(m.tokens) or m.tokens[q.last + 1].text == "\n"
    apart = APART - {","} if ends and any(t.text == "\n" for t in m.tokens) else APART
    for j in lines:
        if abs(j - k) > NEARBY:
            continue
        p = m.quantities[j]
        between = range(min(p.last, q.last) + 1, max(p.first, q.first))
        if (
            len(between) <= NEARBY
            and not any(m.tokens[i].text in apart for i in between)
            and (best is None or abs(j - k) < abs(best - k))
        ):
            best = j
    return best
