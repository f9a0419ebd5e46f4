"""A change of one spec, said in plain words: a line's amount, a line more or less, what it makes or keeps."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from stillroom import Amount, Line
from stillroom.units import Units

from .drafts import BOTTLED, KEEPS, MAKES, RESTS, fits
from .lines import BadLine, LineReader
from .names import alike
from .spec import KeptSpec

TO = re.compile(
    r"^(?:the\s+)?(?P<thing>.+?)\s+(?:to|at|be|=|:|should be|is)\s+(?P<amount>(?:[\d½¼¾⅓⅔.]|an? |half ).+)$", re.I
)
PUT = re.compile(r"^(?P<line>.+?)(?:\s+instead(?:\s+of\s+.+)?)?$", re.I | re.S)
SWAP = re.compile(r"^(?:the\s+)?(?P<old>.+?)\s+(?:with|for|by)\s+(?:the\s+)?(?P<new>.+)$", re.I)
LESS = re.compile(
    r"(?<!\w)(?P<amount>(?:\d{1,9}(?:[.,]\d{1,9})?(?:\s+\d/\d)?|\d/\d|[½¼¾⅓⅔]|half an?|an?|one|two|three|four|five|ten)"
    r"\s*[a-z]+)\s+"
    r"(?P<how>less|fewer|more|extra)\s+(?:of\s+)?(?:the\s+)?(?P<thing>[^?,.;\n]+?)(?=$|[?,.;]|\s+(?:in|for|per|to|of)\b)",
    re.I,
)


class Unclear(ValueError):
    """A change that cannot be made; the message is a sentence."""


def line_of(spec: KeptSpec, thing: str) -> Line | None:
    """The one line that is meant by a thing: its name, a part of it, or as nearly as a typing error.

    Raises Unclear where several are.
    """
    said = re.sub(r"^(?:the|our|that)\s+", "", thing.strip().casefold()).strip(" .!?")
    for fit in (
        lambda x: x == said,
        lambda x: set(said.split()) <= set(x.split()) or set(x.split()) <= set(said.split()),
        lambda x: alike(x, said),
    ):
        found = [x for x in spec.lines if fit(x.thing.casefold())]
        if len(found) > 1:
            raise Unclear(f"Which is meant: {' or '.join(x.thing for x in found)}?")
        if found:
            return found[0]
    return None


def with_line(spec: KeptSpec, line: Line) -> KeptSpec:
    """The spec with a line in place of the one of the same thing, else at the end."""
    old = line_of(spec, line.thing)
    if old is None:
        return spec.but(lines=(*spec.lines, line))
    attributes = {**old.attributes, **line.attributes}
    new = replace(old, amount=line.amount, attributes=attributes)
    return spec.but(lines=tuple(new if x is old else x for x in spec.lines))


def without(spec: KeptSpec, thing: str) -> KeptSpec:
    """The spec without a line.  Raises Unclear for one that it has not, or its last."""
    thing = re.sub(r"^(?:the|our)\s+", "", thing.strip())
    old = line_of(spec, thing)
    if old is None:
        raise Unclear(f"{spec.name} has no {thing}: it has {', '.join(x.thing for x in spec.lines)}.")
    if len(spec.lines) == 1:
        raise Unclear(f"{old.thing} is all there is of {spec.name}: delete the spec instead.")
    return spec.but(lines=tuple(x for x in spec.lines if x is not old))


def by_so_much(spec: KeptSpec, text: str, lines: LineReader, units: Units) -> tuple[KeptSpec, str] | None:
    """``10 ml less syrup``: the spec with that, and what was changed; None where the text says no such thing.

    Raises Unclear.
    """
    said = LESS.search(text)
    if said is None:
        return None
    amount = lines.amount(said["amount"], units, said["thing"])
    old = line_of(spec, said["thing"])
    if amount is None:
        return None
    if old is None or old.amount is None:
        raise Unclear(f"{spec.name} has no {said['thing'].strip()}: it has {', '.join(x.thing for x in spec.lines)}.")
    if units[amount.unit].dimension != units[old.amount.unit].dimension:
        raise Unclear(f"{old.thing} is measured as {old.amount.said}: say how much by the same measure.")
    unit = units[old.amount.unit]
    sign = -1.0 if said["how"].lower() in ("less", "fewer") else 1.0
    base = unit.to_base(old.amount.value) + sign * amount.base
    if base <= 0:
        raise Unclear(f"There are only {old.amount.said} of {old.thing} in {spec.name}.")
    value = round(unit.from_base(base), 9)
    new = replace(old, amount=replace(old.amount, value=value, base=base, said=f"{value:g} {unit.symbol}".strip()))
    changed = spec.but(lines=tuple(new if x is old else x for x in spec.lines))
    return changed, f"{old.thing} {value:g} {unit.symbol} (was {old.amount.said})"


def change(spec: KeptSpec, verb: str, what: str, lines: LineReader, units: Units) -> KeptSpec | None:
    """The spec after ``verb`` (change, add, remove, swap, says) of ``what``; None where that says no change.

    Raises Unclear or BadLine.
    """
    return DO[verb](spec, what.strip(" .!"), lines, units)


def _remove(spec: KeptSpec, what: str, lines: LineReader, units: Units) -> KeptSpec | None:
    return without(spec, what)


def _put(spec: KeptSpec, what: str, lines: LineReader, units: Units) -> KeptSpec | None:
    found = by_so_much(spec, what, lines, units)
    if found is not None:
        return found[0]
    said = TO.match(what)
    if said is not None:
        old = line_of(spec, said["thing"])
        if old is None:
            raise Unclear(f"{spec.name} has no {said['thing']}: it has {', '.join(x.thing for x in spec.lines)}.")
        return _amount_of(spec, old, said["amount"], lines, units)
    for piece in (p for p in re.split(r"\s*[,;\n]\s*|\s+and\s+(?=\d)", what) if p):
        put = PUT.match(piece)
        line = lines.read(put["line"] if put else piece, units)
        if line is None or re.search(r"\d(?!\d*(?:\.\d+)?\s*%)", line.thing):
            return None
        spec = with_line(spec, _measured(line, line_of(spec, line.thing), lines, units))
    return spec


def _amount_of(spec: KeptSpec, old: Line, to: str, lines: LineReader, units: Units) -> KeptSpec | None:
    """The spec with another amount of a line; with another line in its place, where the amount is of another thing."""
    try:
        other = lines.read(to, units)
    except BadLine:
        other = None
    if other is not None and other.amount and not set(_words(other.thing)) <= set(_words(old.thing)):
        return _in_place(spec, old, other)
    amount, more = [*re.split(r"\s*(?=[(@]|\bat\s)", to, maxsplit=1), ""][:2]
    line = lines.read(f"{amount} {old.thing} {more}", units)
    return None if line is None else with_line(spec, replace(_measured(line, old, lines, units), thing=old.thing))


def _measured(line: Line, old: Line | None, lines: LineReader, units: Units) -> Line:
    """A bare number is in the unit of the line that it changes.  Raises Unclear where what is poured is new."""
    if line.amount is None or line.amount.unit != "count":
        return line
    if old is not None and old.amount is not None and old.amount.unit != "count":
        value, unit = line.amount.value, units[old.amount.unit]
        return replace(line, amount=Amount(value, unit.name, unit.to_base(value), f"{value:g} {unit.symbol}"))
    thing = lines.reader.kernel.substances.get(line.substance or "")
    if thing is not None and thing.state == "liquid" and thing.kinds & BOTTLED and old is None:
        raise Unclear(f"“{line.amount.said} {line.thing}” has no unit: say ml, cl, oz or another.")
    return line


def _words(thing: str) -> list[str]:
    return thing.casefold().split()


def _in_place(spec: KeptSpec, old: Line, new: Line) -> KeptSpec:
    """The spec with one line for another.  Raises Unclear where the new one is there already."""
    if any(x is not old and x.thing.casefold() == new.thing.casefold() for x in spec.lines):
        raise Unclear(f"{new.thing} is in {spec.name} already.")
    return spec.but(lines=tuple(new if x is old else x for x in spec.lines))


def _swap(spec: KeptSpec, what: str, lines: LineReader, units: Units) -> KeptSpec | None:
    said = SWAP.match(what)
    old = line_of(spec, said["old"]) if said else None
    if said is None or old is None:
        return None
    new = lines.read(said["new"], units) or Line(said["new"], old.amount, {}, lines.substance(said["new"]))
    return _in_place(spec, old, new)


def _says(spec: KeptSpec, what: str, lines: LineReader, units: Units) -> KeptSpec | None:
    """``makes 800 ml``, ``keeps 7 days``, ``rests 24 h``."""
    for kind, pattern in (("makes", MAKES), ("rests", RESTS), ("keeps", KEEPS)):
        said = pattern.match(what)
        amount = lines.amount(said[said.lastindex or 1], units) if said else None
        if amount is not None and fits(kind, amount, units):
            return spec.but(**{kind: amount})
    return None


DO: dict[str, Callable[[KeptSpec, str, LineReader, Units], KeptSpec | None]] = {
    "change": _put,
    "add": _put,
    "remove": _remove,
    "swap": _swap,
    "says": _says,
}

__all__ = ["Unclear", "by_so_much", "change", "line_of", "with_line", "without"]
