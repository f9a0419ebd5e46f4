"""One calculator looks at one message: which of its variables do the numbers fill, and what is asked of it?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from stillroom.declare import Choice, Variable
from stillroom.model import Model
from stillroom.units import NONE, PERCENTS, Unit, Units

from .lexicon import Lexicon, Match, Meaning
from .message import Message
from .quantities import Quantity

MASS = (1.0, 0.0, 0.0, 0.0, 0.0, 0.0)
VOLUME = (0.0, 3.0, 0.0, 0.0, 0.0, 0.0)
TIME = (0.0, 0.0, 1.0, 0.0, 0.0, 0.0)
HEAT = (0.0, 0.0, 0.0, 1.0, 0.0, 0.0)
MONEY = (0.0, 0.0, 0.0, 0.0, 1.0, 0.0)

FIT = 0.6
ROLE = 1.3
NOTHING = Meaning()
LATER = 0.5
OPEN = 0.4
UNNAMED = 0.9
OPPOSITE = {"from": "to", "to": "from"}
FOREIGN = 1.3
UNUSED = 2.0
UNUSED_BARE = 0.7
MOST = 500
KEEP = 2.5
LENGTH = 0.35


@dataclass(slots=True)
class Use:
    """A quantity put to use: the variable, the unit it is read in, and what speaks for it."""

    quantity: int
    variable: str
    unit: str
    score: float
    row: tuple[str, str] | None = None
    inverse: bool = False
    evidence: float = 0.0
    unordered: bool = False
    times: float = 1.0


@dataclass(slots=True)
class Candidate:
    """One way in which a calculator can take a message."""

    model: Model
    uses: tuple[Use, ...]
    rows: dict[str, str]
    wanted: tuple[str, ...]
    score: float
    implied: bool
    parts: dict[str, float]
    lines: tuple[int, ...] = ()
    line_uses: tuple[tuple[int, int, str], ...] = ()
    unused: tuple[int, ...] = ()
    covered: frozenset[int] = frozenset()


class Viewer:
    """Looks at a message with the eyes of one calculator."""

    def __init__(self, model: Model, lexicon: Lexicon, message: Message, units: Units, cover: float):
        self.model, self.lex, self.m, self.units, self.cover = model, lexicon, message, units, cover
        self.variables: Mapping[str, Variable] = model.variables
        self.rows: dict[str, str] = {}

    @cached_property
    def mine(self) -> list[Match]:
        """The matches that mean something here."""
        id = self.model.id
        things = {t for v in self.variables.values() for t in v.things}
        return [m for m in self.m.matches if id in m.entry.meanings
                or any(s.kinds & things or "any" in things for s in m.entry.substances)]

    def candidates(self, most: int = 3) -> list[Candidate]:
        """The best few ways, best first."""
        found: list[Candidate] = []
        for rows, row_score, row_tokens in self._row_options():
            self.rows = rows
            found += self._with_rows(row_score, row_tokens)
        found.sort(key=lambda c: -c.score)
        return found[:most]

    def _with_rows(self, row_score: float, row_tokens: set[int]) -> list[Candidate]:
        found: list[Candidate] = []
        for score, uses, lines, line_uses, unused in self._assignments():
            chosen = dict(self.rows)
            for u in uses:
                if u.row and u.evidence > 0.5:
                    chosen.setdefault(*u.row)
            given = {u.variable for u in uses}
            for wanted, wanted_score, implied, more_rows in self._wanted(given, bool(lines)):
                for c, r in more_rows.items():
                    chosen.setdefault(c, r)
                covered = self._covered(row_tokens)
                blank = self._blank(covered, uses)
                open_choices = sum(c not in chosen and k.default is None for c, k in self.model.choices.items())
                total = score + row_score + wanted_score + self.cover - blank - OPEN * open_choices
                found.append(Candidate(
                    self.model, uses, dict(chosen), wanted, total, implied,
                    {"numbers": score, "choices": row_score, "asked": wanted_score, "subject": self.cover, "unread": -blank},
                    lines, line_uses, unused, covered))
        return found

    # choices -------------------------------------------------------------------------------------------------

    def _row_options(self) -> list[tuple[dict[str, str], float, set[int]]]:
        """The rows that the message names, one a choice; where two choices share a table, each way round.

        A choice with a role (a target) needs its cue.  A name inside a longer name does not count.
        """
        id = self.model.id
        places: dict[str, list[tuple[float, str, Match]]] = {}
        for match in self.mine:
            meaning = match.entry.meanings.get(id)
            for c, r in (meaning.rows if meaning else {}).items():
                if any(o is not match and o.first <= match.first and match.last <= o.last and o.last - o.first > match.last - match.first
                       and c in o.entry.meanings.get(id, NOTHING).rows for o in self.mine):
                    continue
                role = self._role(self.model.choices[c])
                cue = self._cue(match, role) if role else 0.0
                if not role or cue > 0:
                    size = match.last - match.first + 1
                    places.setdefault(c, []).append((size * (0.5 + match.entry.weight) + cue, r, match))
        options: list[tuple[float, dict[str, tuple[float, str, Match]]]] = [(0.0, {})]
        for c in sorted(places, key=lambda c: not self._role(self.model.choices[c])):
            ranked = sorted(places[c], key=lambda p: -p[0])
            grown = []
            for total, taken in options:
                spans = {(p[2].first, p[2].last) for p in taken.values()}
                free = [p for p in ranked if (p[2].first, p[2].last) not in spans] or (ranked if c not in self._sharing(places) else [])
                seen = set()
                sharing = self._sharing(places)
                others = {p[1] for d, p in taken.items() if d in sharing} if c in sharing else set()
                free = [p for p in free if p[1] not in others]
                for p in free:
                    if p[1] not in seen and len(seen) < (2 if c in sharing else 1):
                        seen.add(p[1])
                        grown.append((total + p[0], {**taken, c: p}))
                if not free:
                    grown.append((total, taken))
            options = sorted(grown, key=lambda o: -o[0])[:4]
        found = []
        for _, taken in options:
            score, tokens = 0.0, set()
            for c, p in taken.items():
                score += 0.5 + 0.3 * min(p[0], 3.0)
                tokens.update(range(p[2].first, p[2].last + 1))
                used = {(o[2].first, o[2].last) for o in taken.values()}
                others = {r for _, r, x in places[c] if r != p[1] and (x.first, x.last) not in used}
                score -= 0.35 * min(len(others), 2)
            found.append(({c: p[1] for c, p in taken.items()}, score, tokens))
        return found

    def _sharing(self, places: Mapping[str, object]) -> set[str]:
        """Choices that take their rows from the same table as another one."""
        tables = {c: frozenset(self.model.choices[c].rows) for c in places}
        return {c for c in tables if any(c != d and tables[c] & tables[d] for d in tables)}

    def _role(self, k: Choice) -> str:
        return next((w[5:] for w in k.words if w.startswith("role:")), "")

    def _cue(self, match: Match, role: str) -> float:
        cues = {"to": ("to", "like", "match", "of", "as", "up", "into", "target", "than", "instead", "for"),
                "from": ("from", "of", "in", "with"), "with": ("with", "using")}.get(role, (role,))
        for back in range(1, 4):
            i = match.first - back
            if i < 0:
                break
            if self.m.tokens[i].text in cues:
                return 1.0 / back
        after = self.m.tokens[match.last + 1].text if match.last + 1 < len(self.m.tokens) else ""
        return 0.8 if role == "to" and after in ("strength", "acidity", "level") else 0.0

    # numbers -------------------------------------------------------------------------------------------------

    def fits(self, q: Quantity, v: Variable) -> Iterator[tuple[str, float]]:
        """The units in which a quantity can be read as a variable, with what that costs."""
        unit = self.model.unit[v.name]
        if q.noise or q.rejected:
            return
        if q.ratio is not None:
            if v.ratio:
                yield "dimensionless", 0.0
            return
        if q.unsized:
            if unit.dimension in (MASS, VOLUME):
                yield q.unsized, 0.2
            return
        if q.per is not None:
            below = self.units[q.per[0]]
            for u in q.units:
                top = self.units[u]
                dimension = tuple(a - b for a, b in zip(top.dimension, below.dimension, strict=True))
                if dimension == unit.dimension and unit.kind != "wv":
                    yield f"{u} / {q.per[0]}", 0.0
                elif dimension == unit.dimension:
                    yield f"{u} / {q.per[0]}", 0.05
                elif top.dimension == unit.dimension and v.role in ("each", "per"):
                    yield u, 0.6
            return
        for u in q.units:
            said = self.units[u]
            if said.adjustable and unit.kind == "count" and said.words[0] in v.words:
                yield "count", 0.0
            elif said.dimension == unit.dimension and unit.dimension != NONE:
                if self._state_fits(said, v):
                    yield u, 0.0
            elif said.kind in PERCENTS or unit.kind in PERCENTS:
                if self._percent_fits(said, unit):
                    yield ("percent_wv" if said.name == "percent" and unit.kind == "wv" else u), 0.0
            elif said.dimension == unit.dimension == NONE and (said.kind == unit.kind or said.name == unit.name):
                yield u, 0.0
        if q.bare:
            if unit.kind == "count" and q.value == int(q.value):
                yield "count", 0.0
            elif unit.dimension == NONE and unit.kind in ("", "ratio"):
                yield unit.name, 0.3 if not v.ratio else 0.5
            elif unit.dimension == MONEY:
                yield v.unit, 0.4 if self._priced(q) else 1.2
            elif unit.kind in PERCENTS and 0 < q.value < 1 and self._share(q):
                yield "dimensionless", 0.2
            elif unit.dimension not in (MASS, VOLUME, TIME):
                yield v.unit, 1.2

    def _priced(self, q: Quantity) -> bool:
        """Is a bare number written as money is (24.50)?"""
        text = self.m.tokens[q.first].text
        return len(text) > 3 and text[-3] in ".," and text[-2:].isdigit()

    def _share(self, q: Quantity) -> bool:
        """Is a bare number a part of something: ``a quarter of its volume``, ``half the weight``?"""
        after = [t.text for t in self.m.tokens[q.last + 1:q.last + 3]]
        return after[:1] in (["of"], ["the"], ["its"], ["as"]) or self.m.tokens[q.last].text in ("of", "half")

    def _state_fits(self, said: Unit, v: Variable) -> bool:
        return True

    def _percent_fits(self, said: Unit, unit: Unit) -> bool:
        if said.kind == "percent" or unit.kind == "percent":
            return unit.kind in PERCENTS and (said.kind in PERCENTS)
        return said.kind == unit.kind

    def _uses(self, k: int) -> list[Use]:
        q = self.m.quantities[k]
        uses = []
        id = self.model.id
        owned = [x for x in self.m.near[k] if x.owned]
        for name, v in self.variables.items():
            if v.hidden:
                continue
            for unit, cost in self.fits(q, v):
                affinity, row = 0.0, None
                for x in self.m.near[k]:
                    size = 1.0 + LENGTH * (x.match.last - x.match.first)
                    meaning = x.match.entry.meanings.get(id)
                    w = 0.0
                    if meaning is not None and name in meaning.variables:
                        w = x.weight * size * self._agrees(meaning.variables[name])
                    elif v.things and any(s.kinds & set(v.things) for s in x.match.entry.substances):
                        w = x.weight * size * 0.8
                    if w > affinity:
                        affinity, row = w, meaning.variables.get(name) if meaning else None
                own_thing = self.m.nouns[k]
                if "any" in v.things and own_thing is not None and affinity < 1.6:
                    affinity = max(affinity, 1.6)
                if q.bare and cost > 1 and affinity < 1.3 and self.m.cues[k].get(v.role, 0) < 0.9:
                    continue
                if not self._oz(q, unit, v, k):
                    continue
                score = FIT - cost + 0.62 * min(affinity, 4.2)
                role = self.m.cues[k].get(v.role, 0.0) if v.role else 0.0
                score += ROLE * role
                if v.role in OPPOSITE:
                    score -= 0.8 * self.m.cues[k].get(OPPOSITE[v.role], 0.0) * (role < 0.9)
                if self.model.unit[name].kind == "percent" and affinity < 0.6 and role < 0.6:
                    score -= UNNAMED
                score -= (LATER if affinity < 0.6 and role < 0.6 else 0.1) * min(2, self._before(name, q))
                if affinity < 0.6 and owned and not (q.bare and self.model.unit[name].kind == "count" and False):
                    strangers = [x for x in owned if x.match.entry.weight > 0 and not self._same_thing(x.match, name)]
                    if strangers:
                        score -= FOREIGN * min(1.0, max(x.weight for x in strangers) / 2.6)
                elif affinity < 0.6 and own_thing is not None:
                    score -= 0.35
                uses.append(Use(k, name, unit, score, row, evidence=affinity))
        uses += self._ratio_uses(k) if q.ratio is not None else []
        uses = [u for u in uses if not (q.ratio is not None and not u.inverse and self.variables[u.variable].ratio and u.evidence != -1.0)]
        uses.sort(key=lambda u: -u.score)
        return uses[:4]

    def _agrees(self, row: tuple[str, str] | None) -> float:
        """1, or little if a word names a variable by another row than the one that is chosen."""
        return 0.15 if row is not None and self.rows.get(row[0], row[1]) != row[1] else 1.0

    def _before(self, name: str, q: Quantity) -> int:
        """How many variables of the same measure the job speaks of before this one."""
        unit = self.model.unit[name]
        n = 0
        for other, v in self.variables.items():
            if other == name:
                return n
            u = self.model.unit[other]
            alike = u.kind == unit.kind or ("percent" in q.units and u.kind in PERCENTS and unit.kind in PERCENTS)
            n += not v.hidden and u.dimension == unit.dimension and alike
        return n

    def _ratio_uses(self, k: int) -> list[Use]:
        """A ratio read by the names of its terms, else in the job's own order."""
        q, uses = self.m.quantities[k], []
        assert q.ratio is not None
        for name, v in self.variables.items():
            if not v.ratio or v.hidden:
                continue
            left = self._which(q.names[0], v.ratio)
            right = self._which(q.names[1], v.ratio)
            near = max((x.weight for x in self.m.near[k] if self._names_here(x.match, (name, *v.ratio))), default=0.0)
            base = FIT + 0.5 + 0.35 * min(near, 3.0)
            if left == v.ratio[1] or right == v.ratio[0]:
                uses.append(Use(k, name, "dimensionless", base + 1.5, inverse=True, evidence=-1.0))
            elif left == v.ratio[0] or right == v.ratio[1]:
                uses.append(Use(k, name, "dimensionless", base + 1.5, evidence=-1.0))
            elif q.names[0] and q.names[1] and (left is None and right is None):
                uses.append(Use(k, name, "dimensionless", base - 1.2, evidence=-1.0, unordered=True))
            else:
                against = not v.habit or q.ratio[0] < q.ratio[1]
                uses.append(Use(k, name, "dimensionless", base, evidence=-1.0, unordered=against and q.ratio[0] != q.ratio[1]))
        return uses

    def _which(self, span: tuple[int, int] | None, pair: tuple[str, str]) -> str | None:
        if span is None:
            return None
        id = self.model.id
        for match in self.m.matches:
            if match.first >= span[0] and match.last <= span[1]:
                meaning = match.entry.meanings.get(id)
                for name in pair:
                    v = self.variables[name]
                    if (meaning and name in meaning.variables) or any(s.kinds & set(v.things) for s in match.entry.substances):
                        return name
        return None

    def _names_here(self, match: Match, names: tuple[str, ...]) -> bool:
        meaning = match.entry.meanings.get(self.model.id)
        return meaning is not None and (meaning.topic or any(n in meaning.variables for n in names))

    def _same_thing(self, match: Match, name: str) -> bool:
        meaning = match.entry.meanings.get(self.model.id)
        if meaning is None:
            return not match.entry.substances and not match.entry.meanings
        return name in meaning.variables or meaning.topic or (bool(meaning.rows) and not meaning.variables)

    def _oz(self, q: Quantity, unit: str, v: Variable, k: int) -> bool:
        """An ounce of a dry thing is a weight, of anything poured a measure."""
        if len(q.units) < 2 or q.per is not None:
            return True
        said = self.units[unit]
        if "ounce" not in q.units:
            return True
        state = self.m.state(k) or v.state
        return (state == "dry") == (said.dimension == MASS) if state else True

    def _assignments(self) -> list[tuple[float, tuple[Use, ...], tuple[int, ...], tuple[tuple[int, int, str], ...], tuple[int, ...]]]:
        """The best joint assignments of quantities to variables, each variable once."""
        live = [k for k, q in enumerate(self.m.quantities) if not q.noise and not q.rejected]
        options = {k: self._uses(k) for k in live}
        takes_lines = self.model.calculator.lines is not None
        hope = [0.0] * (len(live) + 1)
        for i in range(len(live) - 1, -1, -1):
            best = max([u.score for u in options[live[i]]], default=-9.0)
            hope[i] = hope[i + 1] + max(best, 1.9 if takes_lines else -UNUSED, -UNUSED)
        top = -1e9
        found: list[tuple[float, tuple[Use, ...], tuple[int, ...], tuple[tuple[int, int, str], ...], tuple[int, ...]]] = []
        steps = 0

        def walk(i: int, score: float, uses: tuple[Use, ...], lines: tuple[int, ...],
                 attributes: tuple[tuple[int, int, str], ...], unused: tuple[int, ...]) -> None:
            nonlocal steps, top
            steps += 1
            if steps > MOST or score + hope[i] < top - KEEP:
                return
            if i == len(live):
                spec = self.model.calculator.lines
                if spec is not None and (len(lines) < spec.minimum if lines else not any(u.variable in spec.sums for u in uses)):
                    return
                score += self._grouped(uses)
                found.append((score, uses, lines, attributes, unused))
                top = max(top, score)
                return
            k = live[i]
            times = self.m.quantities[k].times
            taken = {u.variable for u in uses}
            for u in options[k]:
                if u.variable not in taken and u.score > -0.8:
                    if times is not None and times[0] in unused:
                        u = replace(u, times=times[1])
                    walk(i + 1, score + u.score, (*uses, u), lines, attributes, unused)
            if takes_lines:
                worth = self._line(k)
                if worth is not None:
                    walk(i + 1, score + worth, uses, (*lines, k), attributes, unused)
                attribute = self._attribute(k, lines)
                if attribute is not None:
                    walk(i + 1, score + 1.6, uses, lines, (*attributes, (k, attribute[0], attribute[1])), unused)
            fits = any(u.score > 0.2 for u in options[k])
            q = self.m.quantities[k]
            cost = 0.0 if q.weak else (UNUSED_BARE if q.bare else UNUSED) + (0.4 if fits else 0.0)
            walk(i + 1, score - cost, uses, lines, attributes, (*unused, k))

        walk(0, 0.0, (), (), (), ())
        found.sort(key=lambda f: -f[0])
        return found[:6]

    @cached_property
    def _groups(self) -> dict[str, str]:
        """``first_mass`` and ``first_brix`` go together where there is a ``second_mass`` too: variable to group."""
        parts = {n: n.split("_", 1) for n in self.variables if "_" in n}
        return {n: a for n, (a, b) in parts.items() if any(x != a and y == b for x, y in parts.values())
                and sum(x == a for x, _ in parts.values()) > 1}

    def _grouped(self, uses: tuple[Use, ...]) -> float:
        """What speaks for numbers that stand together going together, and for groups in the order of the words."""
        if not self._groups or len(uses) < 2:
            return 0.0
        tags = [(u.quantity, self._groups.get(u.variable)) for u in sorted(uses, key=lambda u: u.quantity)]
        tags = [t for t in tags if t[1]]
        bonus = 0.0
        for (i, a), (j, b) in zip(tags, tags[1:], strict=False):
            bonus += 0.3 if a == b and j == i + 1 else 0.0
        first_seen = list(dict.fromkeys(t[1] for t in tags))
        declared = [g for g in dict.fromkeys(self._groups.values()) if g in first_seen]
        return bonus + (0.6 if first_seen == declared else 0.0)

    def _line(self, k: int) -> float | None:
        """Can a quantity be a line of a spec: an amount directly followed by a thing?"""
        q = self.m.quantities[k]
        noun = self.m.nouns[k]
        if q.ratio is not None or q.money or q.per is not None or (q.bare and noun is None):
            return None
        if q.units and not q.unsized and self.units[q.units[0]].dimension not in (MASS, VOLUME):
            return None
        if noun is None:
            return None
        matches = [x for x in self.m.matches if x.first >= noun[0] and x.last <= noun[1]]
        substance = any(x.entry.substances for x in matches)
        mine = any(self.model.id in x.entry.meanings and x.entry.meanings[self.model.id].variables and not x.entry.substances for x in matches)
        if mine:
            return None
        if q.bare:
            return 0.9 if substance else None
        return 1.9 if substance else 1.5

    def _attribute(self, k: int, lines: tuple[int, ...]) -> tuple[int, str] | None:
        """A strength or price that belongs to a line: it stands in the line's own phrase."""
        lines_of = self.model.calculator.lines
        q = self.m.quantities[k]
        if lines_of is None or q.ratio is not None:
            return None
        for name, unit_name in lines_of.columns.items():
            if name == "amount" or unit_name not in self.units:
                continue
            unit = self.units[unit_name]
            for u in q.units:
                said = self.units[u]
                if (unit.kind in PERCENTS and self._percent_fits(said, unit)) or (said.dimension == unit.dimension == MONEY):
                    owner = self._owner(k, lines)
                    if owner is not None:
                        return owner, name
        return None

    def _owner(self, k: int, lines: tuple[int, ...]) -> int | None:
        q = self.m.quantities[k]
        best = None
        for j in range(len(self.m.quantities)):
            noun = self.m.nouns[j]
            p = self.m.quantities[j]
            if j == k or p.noise or not p.units or self.units[p.units[0]].dimension not in (MASS, VOLUME):
                continue
            between = range(min(p.last, q.last) + 1, max(p.first, q.first))
            if len(between) <= 6 and not any(self.m.tokens[i].text in (",", ";", "\n", ".", "+") for i in between) and j in lines:
                if best is None or abs(j - k) < abs(best - k):
                    best = j
        return best

    # asked ---------------------------------------------------------------------------------------------------

    def _wanted(self, given: set[str], lines: bool) -> list[tuple[tuple[str, ...], float, bool, dict[str, str]]]:
        """What may be wanted, with its score: named in the question, in the unit asked for, or implied."""
        scored: list[tuple[float, str, dict[str, str]]] = []
        id = self.model.id
        asked = self.m.asked
        zones = [(a, b, 1.0) for a, b in asked.zones] + [(a, b, 0.4) for a, b in asked.rest]
        dimensions = [{self._dimension(u) for u in units} for units in asked.units]
        dimensions = [d for d in dimensions if d]
        weighed = any(self.m.tokens[i].stem in ("weigh", "weight") for a, b in asked.zones for i in range(a, b + 1))
        for name, v in self.variables.items():
            if name in given or v.hidden:
                continue
            unit = self.model.unit[name]
            named, rows = 0.0, {}
            for match in self.mine:
                meaning = match.entry.meanings.get(id)
                size = 1.0 + LENGTH * (match.last - match.first)
                hit = meaning is not None and name in meaning.variables
                thing = not hit and v.things and any(s.kinds & set(v.things) for s in match.entry.substances)
                if not hit and not thing:
                    continue
                agrees = self._agrees(meaning.variables.get(name)) if meaning and hit else 1.0
                for a, b, w in zones:
                    if a <= match.first and match.last <= b:
                        value = agrees * (2.6 if hit else 1.8) * w * size * (1.0 if match.first - a < 4 else 0.75)
                        if value > named:
                            named = value
                            row = meaning.variables.get(name) if meaning else None
                            rows = {row[0]: row[1]} if row else {}
            score = min(named, 3.6)
            if weighed and not named and unit.dimension == MASS:
                score += 0.5
            elif weighed and unit.dimension == VOLUME:
                score -= 1.0
            if dimensions:
                if any(self._same_measure(d, unit) for d in dimensions):
                    score += 1.5
                elif "many" in asked.how and unit.kind == "count":
                    score -= 0.5
                else:
                    score -= 3.0
            elif "many" in asked.how:
                more = 2.6 if "pieces" in asked.how else 0.9
                score += more if unit.kind == "count" else -more if unit.dimension in (MASS, VOLUME) else -0.3
            if "time" in asked.how:
                score += 1.8 if unit.dimension == TIME else -2.5
            if "strength" in asked.how:
                score += 1.2 if unit.kind in PERCENTS else -1.0
            if "temperature" in asked.how:
                score += 1.5 if unit.dimension == HEAT else -2.0
            if "much" in asked.how and unit.dimension in (TIME, HEAT):
                score -= 1.2
            if score > 0.3:
                scored.append((score, name, rows))
        order = [*self.model.calculator.asked, *self.variables]
        scored.sort(key=lambda s: (-s[0], order.index(s[1])))
        scored = [(s - (0.6 if any(abs(s - o[0]) < 0.01 for o in scored[:i]) else 0.0), n, r) for i, (s, n, r) in enumerate(scored)]
        found: list[tuple[tuple[str, ...], float, bool, dict[str, str]]] = []
        for score, name, rows in scored[:3]:
            more = [n for s, n, _ in scored if n != name and s >= 2.0 and self._apart(name, n)]
            names = sorted([name, *more], key=self._place) if more and score < scored[0][0] + 0.01 else [name, *more]
            found.append((tuple(names), score, False, rows))
        implied = [n for n in self.model.calculator.asked or self.variables if n not in given]
        if lines and self.model.calculator.lines and self.model.calculator.lines.each:
            found.append(((), 0.6, True, {}))
        for name in implied[:1]:
            cost = 0.3 if not asked.zones and not asked.units else 0.9
            if dimensions and not any(self._same_measure(d, self.model.unit[name]) for d in dimensions):
                cost += 2.0
            if all(name != f[0][0] for f in found if f[0]):
                found.append(((name,), -cost, True, {}))
        return found[:4]

    def _places(self, name: str) -> set[int]:
        """Where in the question a variable is asked for by name."""
        id = self.model.id
        return {m.first for m in self.mine for z in self.m.asked.zones if z[0] <= m.first and m.last <= z[1]
                if (e := m.entry.meanings.get(id)) and name in e.variables and self._agrees(e.variables[name]) == 1.0}

    def _place(self, name: str) -> int:
        return min(self._places(name), default=len(self.m.tokens))

    def _apart(self, a: str, b: str) -> bool:
        """Are two variables asked for in different words of the question?"""
        pa, pb = self._places(a), self._places(b)
        return bool(pb - pa) and bool(pa - pb)

    def _dimension(self, unit: str) -> tuple[str, tuple[float, ...]]:
        u = self.units[unit]
        return ("%" if u.kind in PERCENTS else u.kind, u.dimension)

    def _same_measure(self, asked: set[tuple[str, tuple[float, ...]]], unit: Unit) -> bool:
        for kind, dimension in asked:
            if kind == "%":
                if unit.kind in PERCENTS:
                    return True
            elif dimension == unit.dimension and (dimension != NONE or kind == unit.kind or (not kind and not unit.kind)):
                return True
        return False

    # words ---------------------------------------------------------------------------------------------------

    def _covered(self, row_tokens: set[int]) -> frozenset[int]:
        covered = set(row_tokens)
        for match in self.mine:
            covered.update(range(match.first, match.last + 1))
        return frozenset(covered)

    def _blank(self, covered: frozenset[int], uses: tuple[Use, ...]) -> float:
        """What the content words that this calculator knows nothing of cost."""
        any_thing = any("any" in v.things for v in self.variables.values())
        nouns = {i for n in self.m.nouns if n for i in range(n[0], n[1] + 1)}
        cost = 0.0
        zone = {i for a, b in self.m.asked.zones for i in range(a, b + 1)}
        for i in self.m.content():
            if i in covered or (any_thing and i in nouns):
                continue
            known = self.lex.known(self.m.tokens[i].stem)
            cost += (0.3 if known else 0.06) * (1.5 if i in zone and known else 1.0)
        return min(cost, 2.5)


@dataclass
class Rank:
    """The calculators that share words with a message, best first, with how much they share."""

    order: list[tuple[float, str]] = field(default_factory=list)


def rank(message: Message, lexicon: Lexicon, most: int = 10) -> list[tuple[float, str]]:
    """Calculators by the vocabulary that they share with a message; each word counts once for each."""
    score: dict[str, float] = {}
    seen: dict[str, int] = {}
    zone = 0
    for a, b in message.asked.zones:
        zone |= ((1 << (b - a + 1)) - 1) << a
    for match in sorted(message.matches, key=lambda m: m.first - m.last):
        mask = ((1 << (match.last - match.first + 1)) - 1) << match.first
        size = match.last - match.first + 1
        asked = 1.25 if mask & zone else 1.0
        for id, meaning in match.entry.meanings.items():
            if seen.get(id, 0) & mask:
                continue
            seen[id] = seen.get(id, 0) | mask
            worth = (1.5 if meaning.topic else 0.0) + (0.8 if meaning.variables else 0.0) * asked + (0.5 if meaning.rows else 0.0)
            score[id] = score.get(id, 0.0) + min(worth, 1.9) * match.entry.weight * (1 + LENGTH * (size - 1))
        for s in match.entry.substances:
            for kind in s.kinds:
                for id in lexicon.kinds.get(kind, ()):
                    if not seen.get(id, 0) & mask:
                        seen[id] = seen.get(id, 0) | mask
                        score[id] = score.get(id, 0.0) + 0.35
    for id in [id for id in score if id in lexicon.only and not lexicon.only[id] & {m.entry.stems for m in message.matches}]:
        del score[id]
    found = sorted(((s, id) for id, s in score.items()), key=lambda x: (-x[0], x[1]))
    return found[:most]
