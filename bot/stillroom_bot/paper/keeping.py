"""How long a thing keeps and how it is stored, by the calculators' table of keeping times."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from stillroom import Kernel, Request
from stillroom.declare import Row
from stillroom.model import Model

from ..board.book import Book
from ..board.spec import KeptSpec
from ..reading.phrases import Phrases

CALCULATOR, CHOICE, WANTED = "bar.days_left", "kind", "life"
DEEPEST = 8
STORAGE = "Keep cold, at 5 °C or below, closed."
_NAMES: dict[str, tuple[Model | None, Phrases[Row]]] = {}


@dataclass(frozen=True, slots=True)
class Keeping:
    """``seconds`` that a thing keeps, who says so, and how it is stored; ``caution`` comes with it.

    ``thing`` is what a table calls it; ``most`` the seconds that such a thing keeps at most, 0 where nobody says.
    """

    seconds: float
    source: str
    storage: str = STORAGE
    caution: str = ""
    most: float = 0.0
    thing: str = ""


def keeping_rows(kernel: Kernel) -> Iterable[Row]:
    """The rows of the table, where the calculator is loaded."""
    model = kernel.models.get(CALCULATOR)
    choice = model.choices.get(CHOICE) if model else None
    return choice.rows.values() if choice else ()


def row_for(kernel: Kernel, name: str) -> Row | None:
    """The row of a thing by its name, which has to end in the row's words: ``lime leaf cordial`` is a cordial."""
    said = _plain(name)
    best = max(((len(w), n, row) for n, row in enumerate(keeping_rows(kernel)) for w in map(_plain, row.words)
                if said == w or said.endswith(" " + w)), key=lambda x: (x[0], -x[1]), default=None)
    return best[2] if best else None


def rows_named(kernel: Kernel, text: str) -> list[Row]:
    """The rows whose words a text names."""
    said, names = _plain(re.sub(r":(?!\d)", " ", text)).split(), _names(kernel)
    found = {row.id for row in names.all(said)}
    return [row for row in keeping_rows(kernel) if row.id in found] if found else []


def _names(kernel: Kernel) -> Phrases[Row]:
    """The names of the table's rows."""
    model = kernel.models.get(CALCULATOR)
    kept = _NAMES.get(CALCULATOR)
    if kept is None or kept[0] is not model:
        names = ((tuple(plain.split()), row) for row in keeping_rows(kernel) for w in row.words if (plain := _plain(w)))
        kept = _NAMES[CALCULATOR] = (model, Phrases(names))
    return kept[1]


def keeping_of(kernel: Kernel, row: Row) -> Keeping | None:
    """The time of a row, as the calculator gives it; None where it does not answer."""
    answer = kernel.answer(Request(CALCULATOR, choices={CHOICE: row.id}, wanted=(WANTED,)))
    if answer.status != "answered":
        return None
    return Keeping(answer.answer[0].base, f"{row.words[0]}: {row.source}", str(row.values.get("storage") or STORAGE),
                   " ".join(answer.cautions), float(row.values.get("high") or 0) * 86400, row.words[0])


def shortest(kernel: Kernel, things: Iterable[str]) -> Keeping | None:
    """The shortest of the times of several things: what it is made of sets the time; None where none is known."""
    return min((k for k in _known(kernel, things)), key=lambda k: k.seconds, default=None)


def keeping_of_spec(kernel: Kernel, book: Book, spec: KeptSpec, depth: int = 0) -> Keeping | None:
    """A spec's own time, else the table's for its name, else that of what keeps shortest of its lines.

    A line that is a spec itself counts by its own time: lime juice in a cordial no longer does.
    """
    row = row_for(kernel, spec.name)
    usual = keeping_of(kernel, row) if row else None
    if spec.keeps is not None:
        own = Keeping(spec.keeps.base, f"{spec.name}'s own spec")
        return replace(usual, seconds=own.seconds, source=own.source) if usual else own
    if usual is not None or depth > DEEPEST:
        return usual
    found = []
    for line in spec.lines:
        inner = book.named(line.thing)
        k = keeping_of_spec(kernel, book, inner, depth + 1) if inner else shortest(kernel, [line.thing])
        found += [k] if k else []
    return min(found, key=lambda k: k.seconds, default=None)


def _known(kernel: Kernel, things: Iterable[str]) -> Iterator[Keeping]:
    for thing in things:
        row = row_for(kernel, thing)
        found = keeping_of(kernel, row) if row else None
        if found:
            yield found


@lru_cache(4096)
def _plain(text: str) -> str:
    return " ".join(re.findall(r"[\w%:]+", text.casefold()))
