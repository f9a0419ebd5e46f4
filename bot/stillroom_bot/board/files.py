"""A book as a file: plain text as one writes it, or JSON (``schema``); read whole or refused whole.

Plain text is each spec as it is written to the chat, with an empty line before the next.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from stillroom import Amount, Line
from stillroom.units import Units

from .book import Book, key_of
from .drafts import Drafting, Problem, with_makes
from .expand import cycle
from .schema import specs_of
from .showing import amount_text, line_text
from .spec import KeptSpec

Refuse = Callable[[str], str]
PLAIN = {"ounce": "oz by weight"}
"""What says a unit in any company: an ounce of what is poured would be a fluid one."""
LARGEST, MOST_SPECS = 2_000_000, 1000


class BadFile(ValueError):
    """A file that cannot be a book; ``problems`` are all that is wrong with it, in order."""

    def __init__(self, problems: list[Problem]):
        super().__init__("; ".join(str(p) for p in problems))
        self.problems = problems


def plain(book: Book, units: Units) -> str:
    """The book as plain text that can be read again."""
    return "\n\n".join("\n".join(_plain_spec(s, units)) for s in book.specs) + ("\n" if book.specs else "")


def _plain_spec(spec: KeptSpec, units: Units) -> Iterator[str]:
    yield spec.name
    yield from (_exact(x, units) for x in spec.lines)
    for name, word in (("makes", "makes"), ("rests", "rests"), ("keeps", "keeps")):
        amount = getattr(spec, name)
        if amount is not None:
            word = "serves" if amount.unit == "count" else word
            yield f"{word} {amount.value:.9g} {_written(amount, units)}".strip()
    yield from spec.method


def _exact(line: Line, units: Units) -> str:
    if line.amount is None:
        return line_text(line, units)
    behind = line_text(line, units).removeprefix(amount_text(line.amount, units))
    return f"{line.amount.value:.9g} {_written(line.amount, units)}".strip() + behind


def _written(amount: Amount, units: Units) -> str:
    unit = units[amount.unit]
    if amount.unit == "count":
        return ""
    if unit.symbol.removesuffix("es").removesuffix("s") == unit.name.removesuffix("s") and unit.name.isalpha():
        many = f"{unit.name}{'es' if unit.name.endswith(('s', 'sh', 'ch')) else 's'}"
        return unit.name if amount.value == 1 else many
    return PLAIN.get(unit.name) or next(iter(unit.words), "") or unit.symbol or unit.name


def read_file(
    text: str, drafting: Drafting, units: Units, book: Book, before: int = 0, refuse: Refuse = lambda _: ""
) -> list[KeptSpec]:
    """The specs of a file, to be put into ``book``; ``before`` lines stand above the text.

    ``refuse`` says why a text must not be kept, and nothing where it may.

    Raises BadFile, with every problem and its line, for a file that is not sound throughout.
    """
    if len(text) > LARGEST:
        raise BadFile([Problem(1, f"the file is longer than {LARGEST} characters")])
    problems: list[Problem] = []
    found = list(
        _json_specs(text, drafting, units, problems, refuse)
        if text.lstrip()[:1] in ("{", "[")
        else _plain_specs(text, drafting, units, problems, refuse)
    )
    if not found and not problems:
        problems.append(Problem(1, "there is no spec in it"))
    if len(found) > MOST_SPECS:
        problems.append(Problem(1, f"a book has at most {MOST_SPECS} specs"))
    seen: dict[str, int] = {}
    for at, spec in found:
        key = key_of(spec.name)
        if key in seen:
            problems.append(Problem(at, f"{spec.name} stands there twice, first in line {seen[key]}"))
        seen.setdefault(key, at)
    if all(spec.name for _, spec in found):
        whole = book
        for _, spec in found:
            old = whole.named(spec.name)
            whole = whole.put(spec.but(id=old.id if old else 0))
        for at, spec in found:
            circle = cycle(whole, whole.named(spec.name) or spec)
            if circle:
                problems.append(Problem(at, f"a spec cannot hold itself: {' → '.join(circle)}"))
    if problems:
        raise BadFile([Problem(p.line + before, p.text) for p in sorted(problems, key=lambda p: p.line)])
    return [spec for _, spec in found]


def _json_specs(
    text: str, drafting: Drafting, units: Units, problems: list[Problem], refuse: Refuse
) -> Iterator[tuple[int, KeptSpec]]:
    for at, spec in specs_of(text, drafting, units, problems):
        said = (spec.name, *(x.thing for x in spec.lines), *spec.method)
        problems += (Problem(at, f"{spec.name}: {why}") for why in dict.fromkeys(map(refuse, said)) if why)
        yield at, spec


def _plain_specs(
    text: str, drafting: Drafting, units: Units, problems: list[Problem], refuse: Refuse
) -> Iterator[tuple[int, KeptSpec]]:
    block: list[tuple[int, str]] = []
    for number, row in enumerate([*text.lstrip("\ufeff").split("\n"), ""], 1):
        if row.strip():
            block.append((number, row))
            continue
        if block:
            (at, name), rows = block[0], block[1:]
            name, more = with_makes(name)
            rows = [*((at, row) for row in more), *rows]
            draft = drafting.read(name, rows, units, at)
            problems += draft.problems
            problems += (Problem(at, f"{taken}: write the unit") for taken in draft.taken)
            problems += (Problem(n, why) for n, row in block if (why := refuse(row)))
            yield at, draft.spec()
        block = []
