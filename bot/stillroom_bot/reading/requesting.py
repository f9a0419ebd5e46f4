"""A candidate made into the request that it stands for: amounts in units, lines of a spec, the units of the answers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from stillroom import Amount, Line, Request
from stillroom.substances import Substance
from stillroom.units import NONE, Unit, Units

from .candidate import MASS, TIME, VOLUME, Candidate, Use
from .fitting import priced
from .lexicon import Lexicon
from .message import Message
from .nameless import nameless
from .quantity import PART, Quantity

ANSWERS = "answers"
"""Where a chat's swaps of units say which family it wants its answers in (``us`` or ``metric``)."""
SAME_SIZE = 0.01


@dataclass(slots=True)
class Reading:
    """One way to read a message: the request, its score, and what it left out.

    ``asks`` are things that must be asked before it can be solved: the size of a splash, which way round
    a ratio goes, which of two numbers was meant.  ``unsaid`` are the numbers whose unit was not said, by the unit
    that they are read in.
    """

    request: Request
    score: float
    candidate: Candidate
    ignored: list[str] = field(default_factory=list)
    asks: list[tuple[str, tuple[str, ...]]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    unsaid: dict[str, dict[str, None]] = field(default_factory=dict)


class Requesting:
    """Makes requests with the vocabulary of one kernel."""

    lexicon: Lexicon

    def reading(
        self,
        c: Candidate,
        m: Message,
        units: Units,
        sizes: Mapping[str, float],
        system: Mapping[str, str],
        now: str | None = None,
    ) -> Reading:
        """The request of a candidate."""
        r = Reading(Request(c.model.id), c.score, c)
        given: dict[str, Amount] = {}
        things: dict[str, str] = {}
        rows = dict(c.rows)
        for u in c.uses:
            q = m.quantities[u.quantity]
            if (row := _row_of_size(c, u, q, units)) is not None:
                rows[row[0]] = row[1]
                continue
            amount = self._amount(q, u.unit, u.inverse, units, system, m, r)
            if amount is None:
                continue
            if u.times != 1.0:
                amount = replace(
                    amount,
                    value=amount.value * u.times,
                    base=amount.base * u.times,
                    said=f"{u.times:g} × {amount.said}",
                )
            given[u.variable] = amount
            if u.unordered:
                v = c.model.variables[u.variable]
                assert v.ratio is not None
                a, b = (c.model.variables[n].title for n in v.ratio)
                x, y = q.ratio or (q.value, 1.0)
                r.asks.append((u.variable, (f"{x:g} {a} to {y:g} {b}", f"{y:g} {a} to {x:g} {b}")))
            noun = m.nouns[u.quantity]
            if noun is not None:
                things[u.variable] = m.words(*noun)
        spec = self._spec(c, m, units, system, r)
        wanted = list(c.wanted)
        if spec and c.model.calculator.lines and c.model.calculator.lines.each:
            named = [x.thing for x in spec for a, b in m.asked.zones if self._inside(m, x.thing, a, b)]
            wanted = [*dict.fromkeys(named)] or wanted
        if self._parts_of_nothing(c, spec, given, wanted, units):
            r.asks.append((PART, ()))
        request_units = self._units(c, m, wanted, units, system)
        r.request = Request(
            c.model.id,
            given,
            rows,
            tuple(wanted),
            spec,
            request_units,
            dict(sizes),
            things={**things, **self._mentioned(m)},
            now=now,
        )
        r.ignored = self._ignored(c, m)
        r.notes += [f"{', '.join(n)} {'is' if len(n) == 1 else 'are'} read as {_spoken(units[u])}"
                    for u, n in r.unsaid.items()]
        return r

    def _parts_of_nothing(
        self, c: Candidate, spec: tuple[Line, ...], given: Mapping[str, Amount], wanted: list[str], units: Units
    ) -> bool:
        """``2 gin, 1 vermouth for 20 people``: is an amount wanted of a spec in parts, and no size known of any?  That
        so much of a thing is there tells the size of a part, but not of a serve."""
        said = (*(a.unit for a in given.values()), *(x.amount.unit for x in spec if x.amount and x.amount.unit != PART))
        if not any(x.amount and x.amount.unit == PART for x in spec) or any(
            units[u].dimension in (MASS, VOLUME) for u in said
        ):
            return False
        kinds = [c.model.unit[n].kind if n in c.model.unit else "" for n in wanted]
        stock = (a.unit for x in spec for a in x.attributes.values())
        if any(u in units and units[u].dimension in (MASS, VOLUME) for u in stock):
            return "count" in kinds
        return not wanted or any(n not in c.model.unit or c.model.unit[n].dimension in (MASS, VOLUME) for n in wanted)

    def _mentioned(self, m: Message) -> dict[str, str]:
        """The substances that the message names, whether or not they are amounts of anything."""
        ids = dict.fromkeys(s.id for x in m.matches for s in x.entry.substances[:1])
        return {"mentioned": ";".join(ids), "said": m.text[:400]} if m.text else {}

    def _inside(self, m: Message, thing: str, a: int, b: int) -> bool:
        zone = m.words(a, b).lower()
        return bool(thing) and thing.lower() in zone

    def _amount(
        self, q: Quantity, unit: str, inverse: bool, units: Units, system: Mapping[str, str], m: Message, r: Reading
    ) -> Amount | None:
        said = m.words(q.first, q.last)
        if q.ratio is not None:
            value = q.ratio[1] / q.ratio[0] if inverse else q.ratio[0] / q.ratio[1]
            return Amount(value, "dimensionless", value, said)
        if q.unsized:
            unit = q.unsized
            if not units[unit].sized:
                r.asks.append((unit.replace("_", " "), ()))
                return None
        if q.per is not None and " / " in unit:
            top, bottom = unit.split(" / ")
            over, under = (q.value, q.per[1]) if top in q.units else (q.per[1], q.value)
            top, bottom = system.get(top, top), system.get(bottom, bottom)
            base = units[top].factor * over / (units[bottom].factor * under)
            rate = units[f"{top} / {bottom}"]
            return Amount(rate.from_base(base), rate.name, base, said)
        unit = system.get(unit, unit)
        if q.other is not None:
            r.asks.append(("amount", tuple(f"{x:g} {units[unit].symbol}".strip() for x in (q.value, q.other))))
        if (q.bare and not q.implied and units[unit].dimension != NONE) or q.noted:
            r.unsaid.setdefault(unit, {})[f"{q.value:g}"] = None
        return Amount(q.value, unit, units[unit].to_base(q.value), said)

    def _spec(self, c: Candidate, m: Message, units: Units, system: Mapping[str, str], r: Reading) -> tuple[Line, ...]:
        lines = []
        for k in c.lines:
            q, noun = m.quantities[k], m.once(nameless).get(k) or m.nouns[k]
            assert noun is not None
            words = m.words(*noun)
            unit = self._line_unit(q, noun, m, units)
            amount = self._amount(q, unit, False, units, system, m, r)
            if priced(q, m) or q.units == ("currency",):
                lines.append(self._spent(c, q, words, m, units))
                continue
            if amount is not None and q.times is not None and q.times[0] in c.unused:
                amount = replace(amount, value=amount.value * q.times[1], base=amount.base * q.times[1])
            attributes: dict[str, Amount] = {}
            for j, owner, name in c.line_uses:
                if owner == k:
                    attributes |= self._attribute(c, m.quantities[j], name, unit, m, units)
            best = max(
                (x for x in m.matches if x.first >= noun[0] and x.last <= noun[1] and x.entry.substances),
                key=lambda x: x.last - x.first,
                default=None,
            )
            lines.append(Line(words, amount, attributes, _telling(best.entry.substances, c) if best else None))
        return self._stocked(lines, c)

    def _spent(self, c: Candidate, q: Quantity, thing: str, m: Message, units: Units) -> Line:
        """A line of which only the cost is known: one of it, bought at that price."""
        spec = c.model.calculator.lines
        assert spec is not None
        said, one = m.words(q.first, q.last), Amount(1.0, "count", 1.0, "")
        price = Amount(q.value, "currency", units["currency"].to_base(q.value), said)
        found = {n: price if unit == "currency" else one for n, unit in spec.columns.items() if n != "amount"}
        return Line(thing, one, found, None)

    def _attribute(
        self, c: Candidate, q: Quantity, name: str, own: str, m: Message, units: Units
    ) -> dict[str, Amount]:
        """An attribute of a line; a price ``per litre`` tells the size that it buys as well."""
        spec = c.model.calculator.lines
        assert spec is not None
        said, column = m.words(q.first, q.last), spec.columns[name]
        fits = [u for u in q.units if column == "amount" and units[u].dimension == units[own].dimension]
        u = fits[0] if fits else q.units[0] if q.units else column
        found = {name: Amount(q.value, u, units[u].to_base(q.value), said)}
        size = next((n for n, x in spec.columns.items() if x == "amount" and n in spec.needs), None)
        if q.per is not None and size is not None:
            found[size] = Amount(q.per[1], q.per[0], units[q.per[0]].to_base(q.per[1]), said)
        return found

    def _stocked(self, lines: list[Line], c: Candidate) -> tuple[Line, ...]:
        """The same thing twice is what there is of it and what one takes: the larger is the stock."""
        spec = c.model.calculator.lines
        stock = (
            next((n for n, unit in spec.columns.items() if n != "amount" and unit == "amount"), None) if spec else None
        )
        by_thing: dict[str, list[Line]] = {}
        for x in lines:
            by_thing.setdefault(x.substance or x.thing.lower(), []).append(x)
        if (
            stock is None
            or not any(len(v) == 2 for v in by_thing.values())
            or any(x.amount is None for v in by_thing.values() for x in v)
        ):
            return tuple(lines)
        merged = []
        for pair in by_thing.values():
            small, *more = sorted(pair, key=lambda x: x.amount.base if x.amount else 0.0)
            if len(more) == 1 and more[0].amount is not None:
                small = replace(small, attributes={**small.attributes, stock: more[0].amount})
            merged.append(small)
        return tuple(merged)

    def _line_unit(self, q: Quantity, noun: tuple[int, int], m: Message, units: Units) -> str:
        if q.bare:
            return "count"
        if len(q.units) > 1 and "ounce" in q.units:
            states = {
                s.state for x in m.matches if x.first >= noun[0] and x.last <= noun[1] for s in x.entry.substances
            }
            return "ounce" if states and states <= {"dry"} else "fluid_ounce"
        return q.units[0]

    def _units(
        self, c: Candidate, m: Message, wanted: list[str], units: Units, system: Mapping[str, str]
    ) -> dict[str, str]:
        """The unit of each answer: the one asked for, else one of the family that the question used."""
        chosen: dict[str, str] = {}
        family = {units[u.unit].system for u in c.uses if u.unit in units} - {"", "bar"}
        prefers = system.get(ANSWERS, "")
        parts = m.once(nameless)
        lines = {m.words(*(parts.get(k) or m.nouns[k] or (0, -1))): m.quantities[k] for k in c.lines}
        for name in wanted:
            if name not in c.model.variables:
                q = lines.get(name)
                if q is None or not q.units:
                    continue
                for spelled in m.asked.units:
                    for u in spelled:
                        if units[u].dimension == units[q.units[0]].dimension or (
                            len(q.units) > 1 and units[u].dimension == VOLUME
                        ):
                            chosen.setdefault(name, system.get(u, u))
                continue
            own = c.model.unit[name]
            for spelled in m.asked.units:
                for u in spelled:
                    unit = units[u]
                    if unit.dimension == own.dimension and (
                        own.dimension != NONE or unit.kind == own.kind or unit.kind == "vv" == own.kind
                    ):
                        chosen.setdefault(name, system.get(u, u))
            times = {u.unit for u in c.uses if u.unit in units and units[u.unit].dimension == TIME}
            if own.dimension == TIME and len(times) == 1:
                chosen.setdefault(name, *times)
            if name not in chosen and own.dimension in (VOLUME, MASS) and prefers != "metric":
                said = {
                    units[u.unit].name for u in c.uses if u.unit in units and units[u.unit].dimension == own.dimension
                }
                if (family == {"us"} and said) or (prefers == "us" and own.dimension == VOLUME):
                    unit_name = "fluid_ounce" if own.dimension == VOLUME else "ounce"
                    chosen[name] = system.get(unit_name, unit_name)
        parted = [k for k in c.lines if m.quantities[k].units[:1] == (PART,)]
        if parted:
            others = {*c.lines, *(k for k, _, _ in c.line_uses)} - {*parted}
            told = (*(u.unit for u in c.uses), *(u for k in sorted(others) for u in m.quantities[k].units))
            whole = next((u for u in told if u in units and units[u].dimension == VOLUME), "")
            chosen = {**{m.words(*(m.nouns[k] or (0, -1))): whole for k in parted if whole}, **chosen}
        return chosen

    def _ignored(self, c: Candidate, m: Message) -> list[str]:
        ignored = []
        used = {u.quantity for u in c.uses} | set(c.lines) | {k for k, _, _ in c.line_uses}
        for k, q in enumerate(m.quantities):
            if k not in used and q.noise != "asked" and not q.weak:
                before = m.tokens[q.first - 1].text + " " if q.noise == "reference" and q.first else ""
                ignored.append(before + m.words(q.first, q.last))
        nouns = {i for k in used if (n := m.nouns[k]) for i in range(n[0], n[1] + 1)}
        for i in m.content:
            if i not in c.covered and i not in nouns and not self.lexicon.known(m.tokens[i].stem):
                ignored.append(m.words(i, i))
        return ignored


def _telling(known: Sequence[Substance], c: Candidate) -> str:
    """Of the things that go by one name (several plugins'), the one whose row tells the job most, else the first."""
    spec = c.model.calculator.lines
    columns = set(spec.fills.values()) if spec else set()
    return max(known, key=lambda s: sum(s.number(x) is not None for x in columns)).id


def _row_of_size(c: Candidate, u: Use, q: Quantity, units: Units) -> tuple[str, str] | None:
    """``a quart`` of a siphon's size: the row that is called by that unit and is of another size, and its choice."""
    if q.value != 1 or not q.units or u.unit not in units:
        return None
    called = {w.casefold() for w in (*units[u.unit].words, units[u.unit].name)}
    for name, choice in c.model.choices.items():
        column = choice.fills.get(u.variable)
        if column is None:
            continue
        for row in choice.rows.values():
            if any(w.split()[0] in called and len(w.split()) > 1 for w in row.words):
                size = c.model.unit[u.variable].to_base(float(row.values[column]))
                same = abs(size - units[u.unit].to_base(1.0)) < SAME_SIZE * size
                return None if same else (name, row.id)
    return None


def _spoken(unit: Unit) -> str:
    """The unit as one reads it out."""
    return "money" if unit.name == "currency" else unit.symbol or unit.name.replace("_", " ")
