"""Can a number fill a variable, and in which unit is it then read?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from stillroom.units import NONE, PERCENTS, Unit, Units

from .candidate import MASS, MONEY, TIME, VOLUME
from .each_of import SERVED
from .message import Message
from .numbers import PARTS
from .profile import Profile, Slot
from .quantity import MONEY_ASKED, PART, STRENGTHS, Quantity
from .shared_units import WENT

FAR_FETCHED, SHARED, AMOUNT_SHARED = 1.2, 0.45, 0.8
ELLIPTIC, STRENGTH_AT = 0.3, 0.4
AT, ALCOHOL, WEAKEST = frozenset({"at", "@"}), frozenset({"vv", "abv"}), 2
BEYOND = 1.2
APIECE = ("each", "per")
TIMED = TIME.index(1.0)
MOST_KEPT, FEW_MEASURED = 500, 100
VESSELS = frozenset("keg bottle can siphon jug tub jar bucket box case crate".split())
SMALLER, MANY = {"liter": "milliliter", "kilogram": "gram"}, 50
"""``make it a litre``, then ``sorry, 800``: so many of the larger unit are of the smaller one."""


def fitting(
    q: Quantity, profile: Profile, units: Units, message: Message, context: Mapping[str, tuple[str, float]]
) -> list[tuple[Slot, str, float]]:
    """The variables of a calculator that a quantity can fill, with the unit and what that costs.

    What a number with a unit can fill is always the same, and so is kept with the profile.
    """
    settled = bool(q.units) and not q.unsized
    key = (q.units, q.per[0] if q.per else "")
    found = profile.fitting.get(key) if settled else None
    if found is None:
        often = q.per is not None and units[q.per[0]].dimension == TIME and profile.timed
        slots = [s for s in profile.slots.values() if not often or s.unit.dimension[TIMED]]
        found = [(slot, unit, cost) for slot in slots for unit, cost in fits(q, slot, units, message, context)]
        if settled and len(profile.fitting) < MOST_KEPT:
            profile.fitting[key] = found
    return found


def any_role(q: Quantity) -> bool:
    """May a number be any variable's, as it has no unit of a size?"""
    return not q.units or bool(q.unsized)


def roles_of(q: Quantity, profile: Profile, units: Units, message: Message) -> frozenset[str]:
    """The roles of the variables that a quantity can fill; of a number without a unit, those of all variables."""
    if any_role(q):
        return profile.all_roles
    key = (q.units, q.per[0] if q.per else "")
    found = profile.fitting_roles.get(key)
    if found is None:
        found = frozenset(slot.variable.role for slot, _, _ in fitting(q, profile, units, message, {}))
        if len(profile.fitting_roles) < MOST_KEPT:
            profile.fitting_roles[key] = found
    return found


def fits(
    q: Quantity, slot: Slot, units: Units, message: Message, context: Mapping[str, tuple[str, float]]
) -> Iterator[tuple[str, float]]:
    """The units in which a quantity can be read as a variable, each with what that costs."""
    v, unit = slot.variable, slot.unit
    if q.ratio is not None:
        return
    if q.unsized:
        if unit.dimension in (MASS, VOLUME):
            yield q.unsized, 0.2
        return
    if q.per is not None:
        yield from _rates(q, slot, units)
        return
    for u in q.units:
        said = units[u]
        if u == PART:
            continue
        if said.adjustable and unit.kind == "count" and said.words[0] in v.words:
            yield "count", 0.0
        elif said.dimension == unit.dimension != NONE:
            yield u, 0.0
        elif said.kind in PERCENTS or unit.kind in PERCENTS:
            if _percent_fits(said, unit):
                yield ("percent_wv" if said.name == "percent" and unit.kind == "wv" else u), 0.0
        elif said.dimension == unit.dimension == NONE and (said.kind == unit.kind or said.name == unit.name):
            yield u, 0.0
    if q.bare and unit.kind in PERCENTS and id(q) in message.elliptic and not _a_sum(q, message):
        yield from ((u, ELLIPTIC) for u in message.elliptic[id(q)] if _percent_fits(units[u], unit))
    elif q.bare:
        for u, cost in _bare(q, slot, units, message, context):
            yield u, cost + (BEYOND if _beyond(q, u, slot, units) else 0.0)


def _measured_count(slot: Slot) -> bool:
    """Is a count one of measures, and not of whole things (1.65 units of alcohol)?"""
    return slot.variable.whole == "" and bool(slot.variable.named_by) and not slot.things


def _beyond(q: Quantity, unit: str, slot: Slot, units: Units) -> bool:
    """Is a bare number more than can be (``700`` before a strength)?"""
    high = slot.variable.high
    return high is not None and units[unit].to_base(q.value) > slot.unit.to_base(high)


def _rates(q: Quantity, slot: Slot, units: Units) -> Iterator[tuple[str, float]]:
    assert q.per is not None
    below = units[q.per[0]]
    for u in q.units:
        top = units[u]
        dimension = tuple(a - b for a, b in zip(top.dimension, below.dimension, strict=True))
        if dimension == slot.unit.dimension and not (dimension == NONE and slot.unit.kind == "vv"):
            poured = dimension == NONE and len(q.units) > 1
            yield f"{u} / {q.per[0]}", FAR_FETCHED if poured else 0.05 if slot.unit.kind == "wv" else 0.0
        elif dimension != NONE and tuple(-d for d in dimension) == slot.unit.dimension:
            yield f"{q.per[0]} / {u}", 0.1
        elif top.dimension == slot.unit.dimension and (below.dimension == TIME or slot.variable.role in APIECE):
            yield u, 0.6


def _bare(
    q: Quantity, slot: Slot, units: Units, message: Message, context: Mapping[str, tuple[str, float]]
) -> Iterator[tuple[str, float]]:
    unit = slot.unit
    named = any(t.kind == "word" and t.text not in message.stops for t in message.tokens[q.last + 1 : q.last + 2])
    again = bool(context) and not any(u and units[u].dimension == MONEY for u, _ in context.values())
    money = priced(q, message) and not (named and _measured_count(slot)) and not again
    if (unit.dimension != MONEY and money) or (q.weak and unit.kind != "count"):
        return
    if unit.kind != "count" and unit.dimension != MONEY and unit.dimension != NONE and _of_vessels(q, message):
        return
    at = not named and _at(q, message)
    if at and unit.kind == "count":
        return
    for u in q.shared:
        said = units[u]
        if said.dimension == unit.dimension and (
            said.dimension != NONE or said.kind == unit.kind or (unit.kind in PERCENTS and _percent_fits(said, unit))
        ):
            strength = said.dimension == NONE or not any(o in STRENGTHS for o in q.shared)
            yield u, SHARED if said.dimension == NONE else AMOUNT_SHARED if strength else FAR_FETCHED
    before = context.get(slot.name, ("", 0.0))[0]
    if before and units[before].dimension != NONE:
        yield SMALLER.get(before, before) if q.value >= MANY else before, 0.4
    elif unit.kind == "count" and (q.value == int(q.value) or (_measured_count(slot) and q.value < FEW_MEASURED)):
        yield "count", 0.0
    elif unit.dimension == NONE and unit.kind in ("", "ratio"):
        yield unit.name, FAR_FETCHED if slot.variable.ratio or unit.kind == "ratio" else 0.3
    elif unit.dimension == MONEY and not _counted_beside_money(q, message):
        yield slot.variable.unit, 0.4 if priced(q, message) else FAR_FETCHED
    elif unit.kind in PERCENTS and unit.dimension == NONE and 0 < q.value < 1 and _share(q, message):
        yield "dimensionless", 0.2
    elif unit.dimension not in (MASS, VOLUME, TIME) and not _pieces(q, slot, message):
        strength = at and unit.kind in ALCOHOL and WEAKEST <= q.value < 100
        yield before or slot.variable.unit, STRENGTH_AT if strength else FAR_FETCHED


def _percent_fits(said: Unit, unit: Unit) -> bool:
    if said.kind == "percent":
        return unit.kind in PERCENTS
    return said.kind == unit.kind or (unit.kind == "percent" and said.name in ("percent_ww", "percent_vv"))


def priced(q: Quantity, message: Message) -> bool:
    """Is a bare number written as money is (24.50), and not what came ``out`` or ``back``?"""
    text = message.tokens[q.first].text
    if any(t.text in WENT for t in message.tokens[q.last + 1 : q.last + 2]):
        return False
    return len(text) > 3 and text[-3] in ".," and text[-2:].isdigit() and q.first == q.last


def _a_sum(q: Quantity, message: Message) -> bool:
    """``listed at 16.80 with 20 % tax, ingredients 2.80: pour cost?``: written as money is, where money is asked."""
    return priced(q, message) and any(t.stem in MONEY_ASKED for t in message.tokens)


def _counted_beside_money(q: Quantity, message: Message) -> bool:
    """``12 drinks``, where sums of money are told as such: a count, and no price."""
    after = message.tokens[q.last + 1 : q.last + 2]
    return any(t.stem in SERVED for t in after) and any(o.money for o in message.quantities)


def _of_vessels(q: Quantity, message: Message) -> bool:
    """``2 kegs``: so many of them, and no degrees."""
    return any(t.stem in VESSELS for t in message.tokens[q.last + 1 : q.last + 2])


def _at(q: Quantity, message: Message) -> bool:
    """``330 ml at 5``, ``50 ml of 37.5``: a strength or a price, and no count of anything."""
    before = message.tokens[q.first - 1].text if q.first else ""
    return before in AT or (before == "of" and any(o.last == q.first - 2 and not o.bare for o in message.quantities))


def _pieces(q: Quantity, slot: Slot, message: Message) -> bool:
    """``4 leaves``, ``3 beans``: so many of something, and no dose or strength of it."""
    after = message.tokens[q.last + 1 : q.last + 2]
    own = {"degree", *slot.variable.words}
    return any(t.kind == "word" and t.text != t.stem and t.stem not in own for t in after)


def _share(q: Quantity, message: Message) -> bool:
    """Is a bare number a part of something: ``a quarter of its volume``, ``half the weight``, ``a tenth gets lost``?"""
    after = [t.text for t in message.tokens[q.last + 1 : q.last + 2]]
    parted = any(t.text in PARTS or t.kind == "fraction" for t in message.tokens[q.first : q.last + 1])
    return parted or after in (["of"], ["the"], ["its"], ["as"]) or message.tokens[q.last].text == "of"


def right_ounce(q: Quantity, unit: str, slot: Slot, state: str, units: Units) -> bool:
    """An ounce of a dry thing is a weight, of anything poured a measure."""
    if "ounce" not in q.units or len(q.units) < 2 or q.per is not None:
        return True
    state = state or slot.variable.state
    return (state == "dry") == (units[unit].dimension == MASS) if state else True
