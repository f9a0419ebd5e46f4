"""Numbers to variables: what speaks for each, and the best joint assignments."""

from __future__ import annotations

from bisect import insort
from dataclasses import replace

from stillroom.units import NONE

from .candidate import MASS, VOLUME, Placement, Use
from .each_of import SERVED
from .fitting import FAR_FETCHED, fitting, right_ounce
from .lines import attribute_of, columns_for, line_worth, spent
from .message import Message
from .naming import owner_names, ratio_uses, summed_at
from .profile import Slot
from .quantity import Quantity
from .together import most_together, together
from .view import LENGTH, View

FIT = 0.6
WORDS, MOST_WORDS = 0.62, 4.2
THING = 0.8
ANY_THING = 1.6
SUMMED = 3.0
FAINT, HINTED = 0.6, 0.5
ROLE, AGAINST_ROLE, MOST_WHOLE = 1.3, 0.8, 1.2
HEARD = 0.3
OUTRIGHT = 1.3
"""How clearly a clause tells of a whole that no name of a part may gainsay (``SAID`` of ``statements``)."""
OPPOSITE = {"from": "to", "to": "from"}
NEEDED = 0.7
FEW = 3
LATER, LATER_NAMED = 0.5, 0.1
UNNAMED = 0.9
NOT_EACH = 1.4
FOREIGN, FOREIGN_TO_STRENGTH, FOREIGN_UNKNOWN, ANOTHER = 1.3, 0.25, 0.35, 0.8
UNUSED, UNUSED_BARE, UNUSED_FITS = 2.0, 0.7, 0.4
CARRIED = 0.5
SAME_UNIT = 0.6
LINE, ATTRIBUTE, MIXED, WHOLE = 1.9, 1.6, 1.2, 0.5
MOST_USES, MOST_STEPS, KEEP, MOST_PLACEMENTS = 4, 400, 2.5, 6
STEPS_IN_ALL, FEWEST_STEPS = 1600, 60
"""How much is tried for one message, all its calculators together, and how much for each in any case."""
LEAST_USE = -0.8
ONE, OF_ANOTHER, ASIDE = 1.2, 0.45, 3.2
"""What stands directly after a weight is what it is a weight of, and what else stands near says less."""
UNTOLD = 0.3
"""What comes after is hardly what a number without a word for that is, where the job has one of before."""
FOR_PEOPLE = 1.6
"""``juice for 40``: people, hardly fruit."""
NO_NAMES: frozenset[str] = frozenset()
OF_ONE = frozenset({"each", "per"})
"""``1.75 a serve``: roles of what is told of one thing, which names no other number."""
Numbers = tuple[int, ...]
Attributes = tuple[tuple[int, int, str], ...]
"""Which number is which attribute of which line."""
PRONOUN = frozenset("one ones instead rather then".split())
BY_UNIT, BY_DEGREES, CELSIUS = 1.0, 1.4, 28
"""``4 degrees`` can only be Celsius: so many Fahrenheit would be ice."""
DROPPED = 0.6
"""What is told in drops or dashes is what is dosed in them, where a job has such a dose."""


def uses_of(view: View, k: int) -> list[Use]:
    """The uses of quantity ``k``, best first."""
    m = view.message
    q = m.quantities[k]
    if q.ratio is not None:
        return ratio_uses(view, k)
    if q.factor:
        return []
    affinity: dict[str, tuple[float, tuple[str, str] | None]] = {}
    strangers: list[tuple[float, frozenset[str], bool, bool]] = []
    for x in m.near[k]:
        meaning, slots = view.meaning_of.get(id(x.match), (None, NO_NAMES))
        if meaning is None and not x.owned:
            continue
        size = 1.0 + LENGTH * (x.match.last - x.match.first)
        names = frozenset(meaning.variables) if meaning is not None else NO_NAMES
        if meaning is not None:
            for name, row in meaning.variables.items():
                w = x.weight * size * view.agrees(row)
                if w > affinity.get(name, (0.0, None))[0]:
                    affinity[name] = (w, row)
        for name in slots - names:
            w = x.weight * size * THING
            if w > affinity.get(name, (0.0, None))[0]:
                affinity[name] = (w, None)
        if x.owned:
            neutral = (
                (not x.match.entry.substances and not x.match.entry.meanings)
                if meaning is None
                else (meaning.topic or (bool(meaning.rows) and not meaning.variables))
            )
            neutral = neutral or (meaning is None and x.match.entry.vessel)
            if not neutral and any(s not in m.stops and s not in PRONOUN for s in x.match.entry.stems):
                thing = bool(x.match.entry.substances)
                measure = meaning is None and not thing
                strangers.append((x.weight, names | slots if meaning is not None else slots, measure, thing))
    uses = []
    state = m.state(k)
    cues = m.cues[k]
    summed, named = summed_at(view, k), owner_names(view, k)
    for slot, unit, cost in fitting(q, view.profile, view.units, m, view.context):
        name = slot.name
        if not right_ounce(q, unit, slot, state, view.units):
            continue
        near, row = affinity.get(name, (0.0, None))
        if "any" in slot.things and not q.bare and _takes(view, slot, m.nouns[k]) and not _apart(view, named, slot):
            near = max(near, ANY_THING)
        if name in summed:
            near = max(near, SUMMED)
        elif summed and name in view.profile.parts:
            near *= FAINT / 2
        use = _use(view, k, q, slot, unit, cost, near, row, cues, strangers, named)
        if use is not None:
            uses.append(use)
    uses.sort(key=lambda u: -u.score)
    return uses[:MOST_USES]


def _apart(view: View, named: frozenset[str], slot: Slot) -> bool:
    """``1 pint of milk``, where milk is a part of the job: does the noun name another variable of the same measure?"""
    slots = view.profile.slots
    return slot.name not in named and any(
        slots[n].unit.dimension == slot.unit.dimension for n in named if n in slots
    )


def _takes(view: View, slot: Slot, noun: tuple[int, int] | None) -> bool:
    """Is a noun a thing of a slot that takes any: not another thing than the row that names it?"""
    if noun is None or not slot.variable.named_by:
        return noun is not None
    choice = slot.variable.named_by[0]
    if choice not in view.rows:
        return True
    return any(
        noun[0] <= x.first and x.last <= noun[1] and meaning.rows.get(choice) == view.rows[choice]
        for x, meaning, _ in view.mine
    )


def _use(
    view: View,
    k: int,
    q: Quantity,
    slot: Slot,
    unit: str,
    cost: float,
    near: float,
    row: tuple[str, str] | None,
    cues: dict[str, float],
    strangers: list[tuple[float, frozenset[str], bool, bool]],
    named: frozenset[str],
) -> Use | None:
    v, name, bare, read = slot.variable, slot.name, q.bare, view.units[unit]
    noun = view.message.nouns[k]
    weighed = bool(q.units) and read.dimension == MASS
    own = named if weighed else frozenset()
    role = cues.get(v.role, 0.0) if v.role else 0.0
    if q.bare and v.role == "each":
        role = max(role, cues.get("per", 0.0))
    if own and name not in own:
        near, role = near * OF_ANOTHER, role * (OF_ANOTHER if v.role == "need" else 1.0)
    elif weighed and not own and "any" in slot.things and _of_another_thing(view, k, slot):
        near *= OF_ANOTHER
    if bare and noun is not None and _named_by_unit(view, noun, unit):
        cold = unit == "degree_Celsius" and q.value < CELSIUS
        noun, near, strangers = None, max(near, BY_DEGREES if cold else BY_UNIT), []
    if bare and slot.things and noun is not None and near < FAINT and view.message.tokens[noun[0]].stem in SERVED:
        return None
    if v.role == "since" and not q.since:
        return None
    before = view.context.get(name)
    if bare and cost >= FAR_FETCHED and near < 1.3 and before is None and role < 0.9:
        return None
    if bare and slot.unit.kind == "count" and "fruit" in slot.things and near < FAINT and noun is None:
        cost += FOR_PEOPLE * (view.message.tokens[q.first - 1].text == "for" and q.first > 0)
    if bare and before is None and read.dimension in (MASS, VOLUME) and near < FAINT and role < HINTED:
        return None
    if bare and before is not None and read.dimension != NONE and near < FAINT and noun:
        return None
    if before is not None and not (bare and cost >= FAR_FETCHED and near < FAINT and unit != before[0]):
        cost -= before[1] + (SAME_UNIT if unit == before[0] else 0.0)
    if name in view.profile.wholes and cues.get("whole", 0.0) >= OUTRIGHT:
        near = max(near, FAINT)
    score = FIT - cost + WORDS * min(near, MOST_WORDS) + ROLE * role - (CARRIED if q.carried else 0.0)
    if v.role in OPPOSITE and role < 0.9:
        against = cues.get(OPPOSITE[v.role], 0.0)
        if v.role == "from" and near < FAINT:
            against = max(against, NEEDED * cues.get("need", 0.0))
        score -= AGAINST_ROLE * against
    whole = min(cues.get("whole", 0.0), MOST_WHOLE) if view.profile.wholes else 0.0
    if not named.isdisjoint(view.profile.parts) and named.isdisjoint(view.profile.wholes) and near < SUMMED:
        whole *= cues.get("whole", 0.0) >= OUTRIGHT
    if whole:
        score += ROLE * whole * (name in view.profile.wholes)
        score -= AGAINST_ROLE * whole * (name in view.profile.parts)
        role = max(role, whole if name in view.profile.wholes else 0.0)
    faint = near < FAINT and role < FAINT
    if q.aside and (view.profile.spec is None or view.message.once(whole_told)):
        score -= ASIDE
    if v.show and view.units[v.show].adjustable and q.units:
        score += DROPPED if read.adjustable else -DROPPED / 2
    if q.weak and q.value == 1 and slot.unit.kind == "count":
        asked = view.message.asked
        score -= ONE * (2 if any(a <= q.first <= b for a, b in (*asked.zones, *asked.rest)) else 1)
    held = cues.get("per", 0.0) if bare and q.value == int(q.value) else 0.0
    if max(cues.get("each", 0.0), held) >= 1.0 and v.role not in ("each", "per") and not q.strength:
        score -= NOT_EACH
    if (slot.unit.kind == "percent" or v.shy) and faint:
        score -= UNNAMED
    score -= (
        0.0
        if before is not None
        else (LATER if faint else LATER_NAMED) * min(2, slot.before_percent if "percent" in q.units else slot.before)
    )
    if name in view.profile.afters and role < FAINT / 2 and before is None:
        score -= UNTOLD
    if near < FAINT:
        foreign = [w for w, names, *_ in strangers if name not in names]
        another = any(measure for _, names, measure, _ in strangers if name not in names)
        if foreign and before is not None and noun is not None and (bare or another):
            return None
        if foreign and not (bare and v.role in OF_ONE and role >= 1.0):
            if before is not None and not q.strength:
                score -= before[1] * 0.7
            score -= (FOREIGN_TO_STRENGTH if q.strength or q.per else FOREIGN) * min(1.0, max(foreign) / 2.6)
            if slot.things and not (q.strength or q.per) and "any" not in slot.things:
                score -= ANOTHER * any(w >= 2 and ns and thing for w, ns, _, thing in strangers if name not in ns)
        elif noun is not None and not q.strength and not q.per:
            score -= FOREIGN_UNKNOWN
    return Use(k, name, unit, score, row, evidence=near)


def whole_told(m: Message) -> bool:
    """``9 litres in all (70 guests)``: is it said how much there shall be, whoever comes?"""
    return any(q.units and not q.noise and m.cues[k].get("whole", 0.0) >= HEARD for k, q in enumerate(m.quantities))


def _of_another_thing(view: View, k: int, slot: Slot) -> bool:
    """``5 g of acid from grapefruit juice``: is it a weight of another thing than the row that names the slot?"""
    noun = view.message.nouns[k]
    if noun is None or not slot.variable.named_by or _takes(view, slot, noun):
        return False
    heads = (x.match for x in view.message.near[k] if x.owned and x.match.last == noun[1])
    return any(x.entry.substances or x.entry.meanings for x in heads)


def _named_by_unit(view: View, noun: tuple[int, int], unit: str) -> bool:
    """``3 degrees`` of a temperature that was given in °C before."""
    return noun[0] == noun[1] and view.message.tokens[noun[0]].stem == unit.split("_")[0].lower()


def live(message: Message) -> list[int]:
    """The numbers of a message that have to be something."""
    return [k for k, q in enumerate(message.quantities) if not q.noise and not q.rejected]


class Placing:
    """What a message's numbers may be to one calculator; ``most`` is what they can come to together."""

    def __init__(self, view: View):
        self.view = view
        quantities = view.message.quantities
        spec = view.profile.spec
        self.live = live(view.message)
        if spec is not None:
            self.live.sort(key=lambda k: quantities[k].strength)
        self.options = {k: uses_of(view, k) for k in self.live}
        self.worths = {k: line_worth(view, k) if spec is not None else None for k in self.live}
        sums = spec is not None and all(spent(view, k) for k, worth in self.worths.items() if worth is not None)
        own = {k for k, worth in self.worths.items() if spec is not None and not (sums and worth is not None)}
        self.columns = {k: columns_for(view, k) if k in own else () for k in self.live}
        lines = tuple(j for j in self.live if self.worths[j] is not None)
        for k in self.live:
            self.options[k] = _not_of_a_line(view, k, self.options[k], self.columns[k], lines)
        self.idle = {k: left_over(quantities[k], self.options[k]) for k in self.live}
        self.hope = _hopes(self.live, self.options, self.worths, self.columns, self.idle)
        self.together = most_together(view.profile, len(self.live), any(q.money for q in quantities))
        self.most = self.hope[0] + self.together

    def best(self, least: float) -> list[Placement]:
        """The best joint assignments of the message's numbers, each variable filled once, best first.

        None that would score less than ``least`` is looked for; where there are too many ways to try them all, what is
        tried at last are those that can be better than the best of the first.
        """
        view, live, hope, worths, columns = self.view, self.live, self.hope, self.worths, self.columns
        quantities, spec = view.message.quantities, view.profile.spec
        found: list[Placement] = []
        least -= self.together
        top, steps = least + KEEP, 0
        most = min(MOST_STEPS, max(FEWEST_STEPS, STEPS_IN_ALL - view.message.steps))
        if hope[0] < least:
            return found

        def walk(
            i: int, score: float, uses: tuple[Use, ...], lines: Numbers, told: Attributes, unused: Numbers
        ) -> None:
            nonlocal top, steps
            steps += 1
            if steps > most or score + hope[i] < top - KEEP:
                return
            if i == len(live):
                if (
                    spec is not None
                    and not view.has_spec
                    and (len(lines) < spec.minimum if lines else not any(u.variable in spec.sums for u in uses))
                ):
                    return
                mixed = MIXED * sum(worths[u.quantity] is not None for u in uses) if lines else 0.0
                score = score + together(view, uses) - mixed
                found.append(Placement(score, uses, lines, told, unused))
                top = max(top, score)
                return
            k = live[i]
            q = quantities[k]
            taken = {u.variable for u in uses}
            for u in self.options[k]:
                if u.variable not in taken and u.score > LEAST_USE:
                    if q.times is not None and q.times[0] in unused and not _of_one_served(view, u, q.times[0]):
                        u = replace(u, times=q.times[1])
                    walk(i + 1, score + u.score, (*uses, u), lines, told, unused)
            worth = worths[k]
            if worth is not None:
                walk(i + 1, score + worth, uses, (*lines, k), told, unused)
            if columns[k] and (a := attribute_of(view, k, columns[k], lines, told)) is not None:
                walk(i + 1, score + ATTRIBUTE, uses, lines, (*told, (k, *a)), unused)
            walk(i + 1, score - self.idle[k], uses, lines, told, (*unused, k))

        walk(0, 0.0, (), (), (), ())
        if steps > most:
            top, most = top + KEEP, 2 * most
            walk(0, 0.0, (), (), (), ())
        view.message.steps += min(steps, most)
        found.sort(key=lambda f: -f.score)
        return found[:MOST_PLACEMENTS]


def _of_one_served(view: View, u: Use, count: int) -> bool:
    """``110 serves at 35 ml``: is an amount put where the amount of one is meant, and so many are served?"""
    noun = view.message.nouns[count]
    each = view.profile.slots[u.variable].variable.role == "each"
    return each and noun is not None and view.message.tokens[noun[0]].stem in SERVED


def _not_of_a_line(
    view: View, k: int, uses: list[Use], columns: tuple[str, ...], lines: tuple[int, ...]
) -> list[Use]:
    """``gin at 43 %, red bitter at 25 %``: what stands in a line's own phrase is told of the line, not of the whole."""
    if len(lines) < 2 or attribute_of(view, k, columns, lines) is None:
        return uses
    told = [
        replace(u, score=min(u.score, ATTRIBUTE - WHOLE - (u.variable not in columns)))
        if u.variable in columns or u.evidence < FAINT
        else u
        for u in uses
    ]
    return sorted(told, key=lambda u: -u.score)


def left_over(q: Quantity, options: list[Use]) -> float:
    """What it costs to leave a quantity out: the more, the better it would have fitted."""
    if q.weak or q.aside:
        return 0.0
    fits = UNUSED_FITS * (1 + min(options[0].score, 2.5)) if options and options[0].score > 0.2 else 0.0
    return (UNUSED_BARE if q.bare or q.implied else UNUSED) + fits


def _hopes(
    live: list[int],
    options: dict[int, list[Use]],
    worths: dict[int, float | None],
    columns: dict[int, tuple[str, ...]],
    idle: dict[int, float],
) -> list[float]:
    """The most that the quantities from each on can still add, each variable being filled once."""
    hope = [0.0] * (len(live) + 1)
    if len(live) <= FEW:
        for i in range(len(live) - 1, -1, -1):
            k = live[i]
            left = -idle[k]
            worth, used = worths[k], options[k]
            best = used[0].score if used else left
            hope[i] = hope[i + 1] + max(left, worth or left, ATTRIBUTE if columns[k] else left, best)
        return hope
    slots = len({u.variable for uses in options.values() for u in uses})
    base, gains = 0.0, list[float]()
    for i in range(len(live) - 1, -1, -1):
        k = live[i]
        other = max(-idle[k], worths[k] or -idle[k], ATTRIBUTE if columns[k] else -idle[k])
        base += other
        best = max((u.score for u in options[k]), default=other)
        if best > other:
            insort(gains, other - best)
        hope[i] = base - sum(gains[:slots])
    return hope
