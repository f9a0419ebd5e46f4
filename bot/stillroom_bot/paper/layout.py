"""A label set in millimetres: which line stands where, how large, for any size of label.

The largest type at which everything fits is taken.  Where even the smallest legible type does not fit,
what matters least is left off, in the order of ``LEFT_OFF``; name, dates and allergens always stay.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from .fonts import width_of
from .label import Label

SMALLEST = 1.65
"""mm of type: its small letters are then 0.9 mm high, the least on a small pack (Regulation (EU) 1169/2011,
Article 13)."""
LARGEST = 14.0
LOW, PAD, LOW_PAD = 15.0, 1.5, 1.2
"""mm that stay free round a label at least, and round one that is lower than ``LOW``."""
LEADING = 1.22
LEFT_OFF = ("storage", "contents", "strength")
_RISE = 0.36
"""Half the height of capitals, in type sizes: what puts a line of them in the middle of a bar."""


@dataclass(frozen=True, slots=True)
class Text:
    """A run of one style; ``x`` and ``y`` (of its baseline, downwards) from the top left corner, in mm."""

    x: float
    y: float
    size: float
    bold: bool
    text: str
    white: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """A black bar or rule, in mm."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Layout:
    """What is to be drawn on a label, and the parts that there was no room for."""

    width: float
    height: float
    items: tuple[Text | Bar, ...]
    left_off: tuple[str, ...] = ()

    @property
    def smallest(self) -> float:
        """The smallest type on it, in mm."""
        return min(t.size for t in self.items if isinstance(t, Text))


Words = Sequence[tuple[str, bool]]
Block = Callable[[float, float, float], tuple[list[Text | Bar], float]]
"""A block, given its top, the width there is and the unit of type, gives its items and the next top."""


class TooSmall(Exception):
    """The label cannot hold even the name, the dates and the allergens."""


def lay_out(label: Label, width: float, height: float, inset: float = 0.0) -> Layout:
    """Set a label of that size in mm, with ``inset`` at least kept free round it.  Raises TooSmall."""
    pad = max(LOW_PAD if height < LOW else PAD, min(width, height) * 0.05, inset)
    inner_w, inner_h = width - 2 * pad, height - 2 * pad
    parts = _blocks(label)
    for n in range(len(LEFT_OFF) + 1):
        off = [p for p in LEFT_OFF[:n] if p in parts]
        blocks = [b for name, b in parts.items() if name not in off]
        small = _SMALL if {"contents", "storage"} & parts.keys() - set(off) else _PLAIN
        unit = _largest(blocks, inner_w, inner_h, SMALLEST / small, min(LARGEST, height / 5, width / 9))
        if unit is not None:
            items, bottom = _stacked(blocks, inner_w, unit)
            slack = min((inner_h - bottom) / max(1, len(blocks) - 1), 0.45 * unit) if bottom < inner_h else 0.0
            items, bottom = _stacked(blocks, inner_w, unit, slack)
            return Layout(width, height, tuple(_moved(items, pad, pad + max(0.0, inner_h - bottom) / 2)), tuple(off))
    raise TooSmall(f"A label of {width:g} × {height:g} mm is too small for {label.name!r}.")


def _largest(blocks: list[Block], width: float, height: float, low: float, high: float) -> float | None:
    """The largest unit of type with which the blocks fit; None where the smallest is too large."""
    if not _fits(blocks, width, height, low):
        return None
    high = max(low, high)
    for _ in range(18):
        middle = (low + high) / 2
        low, high = (middle, high) if _fits(blocks, width, height, middle) else (low, middle)
    return low


def _fits(blocks: list[Block], width: float, height: float, unit: float) -> bool:
    items, bottom = _stacked(blocks, width, unit)
    return bottom <= height and all(
        t.x + width_of(t.text, t.bold) * t.size <= width + 0.01 for t in items if isinstance(t, Text))


def _stacked(blocks: list[Block], width: float, unit: float, slack: float = 0.0) -> tuple[list[Text | Bar], float]:
    items: list[Text | Bar] = []
    top = 0.0
    for block in blocks:
        more, top = block(top, width, unit)
        items += more
        top += slack
    return items, top - slack


def _moved(items: Iterable[Text | Bar], dx: float, dy: float) -> Iterable[Text | Bar]:
    for i in items:
        yield (Text(i.x + dx, i.y + dy, i.size, i.bold, i.text, i.white) if isinstance(i, Text)
               else Bar(i.x + dx, i.y + dy, i.width, i.height))


_NAME, _LONG_NAME, _DATE, _PLAIN, _SMALL = 1.9, 1.2, 1.35, 1.0, 0.8


def _blocks(label: Label) -> dict[str, Block]:
    parts: dict[str, Block] = {"name": _name(label.name),
                               "use by": _banner(f"USE BY {label.use_by_text}"),
                               "made": _pair(f"Made {label.made_text}", label.batch)}
    if label.strength:
        parts["strength"] = _lines([(w, True) for w in label.strength.split()], _PLAIN)
    if label.allergens:
        words = [("Allergens:", False), *((w, True) for w in label.allergen_text.upper().split())]
        parts["allergens"] = _lines(words, _PLAIN)
    if label.contents:
        parts["contents"] = _lines(_contents(label), _SMALL)
    if label.storage:
        parts["storage"] = _lines([(w, False) for w in label.storage.split()], _SMALL)
    return parts


def _contents(label: Label) -> Words:
    """The contents, the things that bring an allergen in bold, also where they stand within another thing."""
    words = f"{', '.join(label.contents)}.".split()
    plain = [w.strip("(),.").casefold() for w in words]
    bold = [False] * len(words)
    for _, thing in label.allergens:
        own = thing.casefold().split()
        for n in range(len(words) - len(own) + 1):
            if plain[n:n + len(own)] == own:
                bold[n:n + len(own)] = [True] * len(own)
    return [("Contains:", False), *zip(words, bold, strict=True)]


def _name(name: str) -> Block:
    """The name in two lines at most, smaller where it is long."""
    words = [(w, True) for w in name.split()]

    def block(top: float, width: float, unit: float) -> tuple[list[Text | Bar], float]:
        size = _NAME
        while size > _LONG_NAME and len(_wrapped(words, width / (size * unit))) > 2:
            size -= 0.1
        return _lines(words, size)(top, width, unit)

    return block


def _lines(words: Words, size: float) -> Block:
    """Words set in as many lines as they need."""
    def block(top: float, width: float, unit: float) -> tuple[list[Text | Bar], float]:
        type_size = size * unit
        items: list[Text | Bar] = []
        for line in _wrapped(words, width / type_size):
            top += type_size * LEADING
            x = 0.0
            for text, bold in _runs(line):
                items.append(Text(x, top - type_size * (LEADING - 1), type_size, bold, text))
                x += width_of(text + " ", bold) * type_size
        return items, top

    return block


def _wrapped(words: Words, width: float) -> list[list[tuple[str, bool]]]:
    lines: list[list[tuple[str, bool]]] = [[]]
    x = 0.0
    for word, bold in words:
        w = width_of(word, bold)
        if lines[-1] and x + w > width:
            lines.append([])
            x = 0.0
        lines[-1].append((word, bold))
        x += w + width_of(" ", bold)
    return lines


def _runs(line: Words) -> Iterable[tuple[str, bool]]:
    run: list[str] = []
    for n, (word, bold) in enumerate(line):
        run.append(word)
        if n + 1 == len(line) or line[n + 1][1] != bold:
            yield " ".join(run), bold
            run = []


def _banner(text: str) -> Block:
    """White on a black bar, as wide as the label."""
    def block(top: float, width: float, unit: float) -> tuple[list[Text | Bar], float]:
        size = min(_DATE * unit, 0.94 * width / width_of(text, True))
        size = size if size >= SMALLEST else _DATE * unit
        height, top = size * 1.6, top + 0.25 * unit
        middle = (width - width_of(text, True) * size) / 2
        return [Bar(0.0, top, width, height), Text(middle, top + height / 2 + _RISE * size, size, True, text, True)], \
            top + height + 0.1 * unit

    return block


def _pair(left: str, right: str) -> Block:
    """Two texts at the ends of a line, or below each other where it is too short for both."""
    def block(top: float, width: float, unit: float) -> tuple[list[Text | Bar], float]:
        size = _PLAIN * unit
        base = top + size
        far = width - width_of(right) * size
        if far > width_of(left + "  ") * size:
            return [Text(0.0, base, size, False, left), Text(far, base, size, False, right)], top + size * LEADING
        return [Text(0.0, base, size, False, left), Text(0.0, base + size * LEADING, size, False, right)], \
            top + 2 * size * LEADING

    return block
