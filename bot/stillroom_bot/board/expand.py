"""A spec within a spec: what it yields, whether it goes in a circle, and what it brings along.

To add up strength, sugar, acid or cost, a line that names another kept spec is taken apart into that spec's
own lines, in the share that is used, and these are brought to the volume that it yields, so that the drink's
volume stays as it was written.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from stillroom import Amount, Kernel, Line
from stillroom.answering import say_number
from stillroom.declare import Lines
from stillroom.units import Units

from ..reading.candidate import MASS, VOLUME
from .book import Book
from .showing import smaller
from .spec import KeptSpec

DEEPEST = 12
EVEN = 1e-9
ACIDS = ("acid", "acidity")
LEAST_LEFT = 0.8
"""The least share of what goes in that is taken to come out by straining alone; common practice, no source."""
STRAINED = re.compile(r"\b(?:strain|filter|press|squeeze|sieve|drain|clarif)", re.I)
BOILED = re.compile(r"\b(?:boil|reduc|simmer|cook|heat|evaporat|flame|burn)", re.I)
NO_ROOM = 1e-6
"""Millilitres: the powder's own bulk is not counted."""


class Unexpandable(Exception):
    """A spec within a spec whose share cannot be told; the message is a sentence that says what is needed."""


@dataclass(frozen=True, slots=True)
class Part:
    """A line that is another kept spec: its line, that spec, and how many times the whole of it goes in."""

    line: Line
    spec: KeptSpec
    factor: float


def cycle(book: Book, spec: KeptSpec) -> tuple[str, ...]:
    """The names in a circle, if a book with this spec would hold one; else none."""
    names = {**book.by_key, **Book((spec,)).by_key}
    stale = book.latest.get(spec.id)
    if stale is not None and stale.name.casefold() != spec.name.casefold():
        names = {k: s for k, s in names.items() if s.id != spec.id or s is spec}
    inside = Book(tuple(replace(s, id=n, gone=False) for n, s in enumerate(names.values(), 1)))

    def walk(at: KeptSpec, path: tuple[str, ...]) -> tuple[str, ...]:
        if at.name in path:
            return (*path[path.index(at.name) :], at.name)
        if len(path) > DEEPEST:
            return (*path, at.name)
        return next(
            (
                found
                for x in at.lines
                if (other := inside.named(x.thing)) is not None and (found := walk(other, (*path, at.name)))
            ),
            (),
        )

    start = inside.named(spec.name)
    return walk(start, ()) if start is not None else ()


def users(book: Book, spec: KeptSpec) -> tuple[KeptSpec, ...]:
    """The specs that have this one as a line."""
    return tuple(s for s in book.specs if s.id != spec.id and any(book.named(x.thing) is spec for x in s.lines))


def resized(line: Line, units: Units) -> Line:
    """The line with its amount in the chat's own measures."""
    a = line.amount
    return replace(line, amount=replace(a, base=units[a.unit].to_base(a.value))) if a and a.unit in units else line


def times(line: Line, factor: float, units: Units) -> Line:
    """So many times a line."""
    a = line.amount
    if a is None or factor == 1 or 0 < a.base <= NO_ROOM:
        return line
    made = smaller(Amount(a.value * factor, a.unit, a.base * factor), units)
    said = f"{say_number(made.value)} {units[made.unit].symbol if made.unit != 'count' else ''}".strip()
    return replace(line, amount=replace(made, said=said))


def volume_of(line: Line, kernel: Kernel, units: Units) -> float | None:
    """The volume of a line [ml]: 0 for what is no liquid, None where it cannot be told."""
    a = line.amount
    if a is None:
        return None
    dimension = units[a.unit].dimension
    if dimension == VOLUME:
        return a.base
    thing = kernel.substances.get(line.substance or "")
    if dimension == MASS and thing is not None and thing.state == "liquid":
        density = thing.number("density")
        return a.base / density if density else None
    return 0.0


def plain_yield(spec: KeptSpec, kernel: Kernel, units: Units) -> Amount | None:
    """What a spec says it makes; else the sum of its lines, where all of them are volumes (or all weighed)."""
    if spec.makes is not None and spec.makes.unit != "count":
        return replace(spec.makes, base=units[spec.makes.unit].to_base(spec.makes.value))
    amounts = [resized(x, units).amount for x in spec.lines]
    for dimension, unit in ((VOLUME, "milliliter"), (MASS, "gram")):
        if amounts and all(a is not None and units[a.unit].dimension == dimension for a in amounts):
            total = sum(a.base for a in amounts if a is not None)
            return Amount(total, unit, total, f"{say_number(total)} {units[unit].symbol}")
    return None


def how_much_it_makes(spec: KeptSpec) -> str:
    """The question back about a yield that nobody can add up."""
    return f"How much does {spec.name} make? Say, for instance, “{spec.name} makes 800 ml”."


def parts(book: Book, lines: tuple[Line, ...], kernel: Kernel, units: Units) -> Iterator[Part]:
    """The lines that are kept specs themselves.  Raises Unexpandable where a share cannot be told."""
    for line in lines:
        spec = book.named(line.thing)
        if spec is None:
            continue
        if line.amount is None:
            raise Unexpandable(f"How much {spec.name} goes in?")
        if line.amount.unit == "count":
            serves = spec.makes.value if spec.makes is not None and spec.makes.unit == "count" else 1.0
            yield Part(line, spec, line.amount.value / serves)
            continue
        makes = plain_yield(spec, kernel, units)
        if makes is None:
            raise Unexpandable(how_much_it_makes(spec))
        if units[makes.unit].dimension != units[line.amount.unit].dimension:
            raise Unexpandable(
                f"{spec.name} makes {makes.said}, and a line takes {line.amount.said} of it: "
                "give both by volume, or both by weight."
            )
        yield Part(line, spec, line.amount.base / makes.base)


def flat(
    book: Book, lines: tuple[Line, ...], kernel: Kernel, units: Units, columns: Lines, depth: int = 0
) -> tuple[Line, ...]:
    """The lines with every kept spec taken apart, for a calculator that adds up these ``columns``.

    Raises Unexpandable.
    """
    if depth > DEEPEST:
        raise Unexpandable("These specs hold each other in a circle.")
    inside = {id(p.line): p for p in parts(book, lines, kernel, units)}
    found: list[Line] = []
    for line in lines:
        part = inside.get(id(line))
        if part is None:
            found.append(line)
            continue
        own = tuple(times(resized(x, units), part.factor, units) for x in part.spec.lines)
        inner = flat(book, own, kernel, units, columns, depth + 1)
        found += _yielded(line, part.spec, own, inner, kernel, units, columns)
    return tuple(found)


def _acids(lines: tuple[Line, ...], kernel: Kernel, units: Units, columns: Lines) -> tuple[Line, ...]:
    """Acid in powder as the acid that it is, where acid is reckoned by volume: it takes up next to no room."""
    names = [n for n in ACIDS if columns.columns.get(n) == "percent_wv"]
    found = []
    for x in lines:
        thing = kernel.substances.get(x.substance or "")
        a = x.amount
        if names and a and thing and thing.state == "dry" and "acid" in thing.kinds and units[a.unit].dimension == MASS:
            whole_of_it = Amount(a.base / NO_ROOM, "percent_wv", a.base / NO_ROOM)
            attributes = {**x.attributes, **_nothing(columns, units), **dict.fromkeys(names, whole_of_it)}
            x = replace(x, amount=Amount(NO_ROOM, "milliliter", NO_ROOM, a.said), attributes=attributes)
        found.append(x)
    return tuple(found)


def whole(
    book: Book, spec: KeptSpec, lines: tuple[Line, ...], kernel: Kernel, units: Units, columns: Lines
) -> tuple[Line, ...]:
    """``flat``, for a spec that says itself what it makes, with its lines as they are to be counted."""
    found = flat(book, lines, kernel, units, columns)
    if spec.makes is None or units[spec.makes.unit].dimension != VOLUME:
        return _acids(found, kernel, units, columns)
    line = Line(spec.name, replace(spec.makes, base=units[spec.makes.unit].to_base(spec.makes.value)))
    return _acids(_yielded(line, spec, lines, found, kernel, units, columns), kernel, units, columns)


def _yielded(
    line: Line, spec: KeptSpec, own: tuple[Line, ...], inner: tuple[Line, ...], kernel: Kernel, units: Units,
    columns: Lines,
) -> tuple[Line, ...]:
    """What is ``inner`` of a spec, brought to the volume of the ``line`` that it yields.

    More than its ``own`` lines pour (sugar that dissolves): volume that holds nothing.  Less: what stays in the
    sieve is a share of all of it, and is paid for all the same.  Raises Unexpandable where much of it is gone and
    the steps of ``spec`` do not say that it was strained, and not boiled, which leaves everything else behind.
    """
    assert line.amount is not None
    if units[line.amount.unit].dimension != VOLUME:
        return inner
    volumes = [v for x in own if (v := volume_of(x, kernel, units)) is not None]
    if len(volumes) < len(own):
        raise Unexpandable(f"{line.thing} has a line of which I cannot tell the volume.")
    poured = sum(volumes)
    more = line.amount.base - poured
    if abs(more) <= EVEN * line.amount.base:
        return inner
    nothing = _nothing(columns, units)
    if more > 0:
        said = f"+{say_number(more)} ml"
        return (*inner, Line(f"{line.thing}, made up to its yield", Amount(more, "milliliter", more, said), nothing))
    if "price" in columns.columns:
        return inner
    left = line.amount.base / poured
    steps = " ".join(spec.method)
    if left < LEAST_LEFT and (BOILED.search(steps) or not STRAINED.search(steps)):
        raise Unexpandable(
            f"{line.thing} pours {say_number(poured)} ml and makes {say_number(line.amount.base)} ml: I cannot tell "
            "what was boiled off from what was left behind. Keep it with its steps (“strain”), "
            "or say its strength where it is used: “20 ml at 12 % ABV”."
        )
    sieve = Amount(NO_ROOM, "milliliter", NO_ROOM, f"{say_number(100 * (1 - left))} %")
    gone = Line(f"{line.thing}, left in the sieve", sieve, nothing)
    return (*(times(x, left, units) for x in inner), gone)


def _nothing(columns: Lines, units: Units) -> Mapping[str, Amount]:
    """Attributes by which a line adds volume and nothing else."""
    found = {}
    for name, unit in columns.columns.items():
        if name == "amount":
            continue
        if unit in ("amount", "any"):
            found[name] = Amount(1.0, "milliliter", units["milliliter"].to_base(1.0))
        else:
            found[name] = Amount(0.0, unit, 0.0)
    return found


def substances_within(book: Book, lines: tuple[Line, ...], depth: int = 0) -> dict[str, str]:
    """Every substance of the lines and of the specs within them, with the thing by which it goes in."""
    found: dict[str, str] = {}
    for x in lines:
        inner = book.named(x.thing)
        if inner is not None and depth < DEEPEST:
            found.update(substances_within(book, inner.lines, depth + 1))
        elif x.substance:
            found.setdefault(x.substance, x.thing)
    return found
