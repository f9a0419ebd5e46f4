"""What was made, as a label needs it: from a kept spec, or from the answer that the chat had last."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stillroom import Amount, Answer, Kernel, Line, Request

from ..board import Book, KeptSpec
from ..board.expand import Unexpandable, whole
from .keeping import CALCULATOR, CHOICE, keeping_rows

if TYPE_CHECKING:
    from stillroom.substances import Substance

STRENGTH, ABV = "bar.mix_strength", "abv"
DEEPEST = 8


@dataclass(frozen=True, slots=True)
class Made:
    """What stands in a thing: ``contents`` the most first, allergens with what brings them, kinds of thing in it.

    ``strange`` are things that no table describes, so that nobody knows their allergens; ``abv`` is in
    % by volume, None where it is not known, and ``lacking`` says why.  ``whole``: are the contents all that
    is in it, or only what a sum happened to name?
    """

    name: str
    contents: tuple[str, ...] = ()
    allergens: tuple[tuple[str, str], ...] = ()
    kinds: frozenset[str] = frozenset()
    strange: tuple[str, ...] = ()
    abv: float | None = None
    lacking: str = ""
    keeps: float | None = None
    leaves: tuple[str, ...] = ()
    whole: bool = True

    def with_contents(self, kernel: Kernel, things: Iterable[str]) -> Made:
        """With further things that a person says are in it."""
        lines = [Line(t, None) for t in things]
        allergens, kinds, strange = _of(kernel, lines)
        return replace(self, contents=tuple(dict.fromkeys((*self.contents, *(x.thing for x in lines)))), whole=True,
                       allergens=tuple(dict.fromkeys((*self.allergens, *allergens))), kinds=self.kinds | kinds,
                       strange=(*self.strange, *strange), leaves=(*self.leaves, *(x.thing for x in lines)))


def made_of_spec(kernel: Kernel, book: Book, spec: KeptSpec) -> Made:
    """A kept spec; one that it uses stands with its own contents in brackets."""
    lines = by_weight(kernel, spec.lines)
    leaves = tuple(_leaves(kernel, book, spec))
    abv, lacking = strength_of(kernel, book, spec)
    return Made(spec.name, tuple(_told(kernel, book, x, 0) for x in lines), *_of(kernel, leaves), abv, lacking,
                spec.keeps.base if spec.keeps else None, tuple(x.thing for x in leaves))


def made_of_answer(kernel: Kernel, request: Request, answer: Answer) -> Made:
    """What the last answer was about; without a name where nothing tells it."""
    lines = by_weight(kernel, request.spec) if request.spec else list(_poured(kernel, request, answer))
    row = _row_name(kernel, request)
    lines = by_weight(kernel, lines)
    abv, lacking = strength_of_lines(kernel, lines) if request.spec else (None, "")
    return Made(row, tuple(dict.fromkeys(x.thing for x in lines)), *_of(kernel, lines), abv, lacking, None,
                tuple(x.thing for x in lines), bool(request.spec))


def made_of_name(kernel: Kernel, name: str) -> Made:
    """A thing of which only the name is known: what the name itself says of allergens."""
    words, known, lines = name.casefold().split(), _by_word(kernel), []
    while words:
        n = next((n for n in range(min(4, len(words)), 0, -1) if " ".join(words[:n]) in known), 0)
        if n:
            lines.append(Line(" ".join(words[:n]), None))
        words = words[max(n, 1):]
    allergens, kinds, _ = _of(kernel, lines)
    return Made(name[:1].upper() + name[1:], (), allergens, kinds, whole=False)


def substance_of(kernel: Kernel, line: Line) -> Substance | None:
    """The substance of a line, by its id or by its very word."""
    if line.substance in kernel.substances:
        return kernel.substances[line.substance]
    return _by_word(kernel).get(line.thing.casefold())


def strength_of(kernel: Kernel, book: Book, spec: KeptSpec) -> tuple[float | None, str]:
    """The strength of a kept spec in % by volume, those within it taken apart, and why it is not known."""
    try:
        return strength_of_lines(kernel, lines_of(kernel, book, spec))
    except Unexpandable as e:
        return None, str(e).rstrip(".")


def lines_of(kernel: Kernel, book: Book, spec: KeptSpec) -> tuple[Line, ...]:
    """The lines of a kept spec that make up its strength, those within it taken apart.  Raises Unexpandable."""
    model = kernel.models.get(STRENGTH)
    if model is None or model.calculator.lines is None:
        return ()
    return whole(book, spec, spec.lines, kernel, kernel.units, model.calculator.lines)


def strength_of_lines(kernel: Kernel, lines: Iterable[Line]) -> tuple[float | None, str]:
    """The strength of lines poured together in % by volume, and why it is not known."""
    lines = tuple(lines)
    topped = next((x.thing for x in lines if x.amount is None), "")
    if topped:
        return None, f"how much {topped} goes on top is not said"
    lines = tuple(_identified(kernel, x) for x in lines)
    if len(lines) == 1:
        own, s = lines[0].attributes.get(ABV), substance_of(kernel, lines[0])
        abv = own.base * 100 if own else s.number("abv") if s else None
        return abv, "" if abv is not None else f"the strength of {lines[0].thing} is not known"
    if STRENGTH not in kernel.models or not lines:
        return None, ""
    answer = kernel.answer(Request(STRENGTH, spec=lines, wanted=(ABV,)))
    if answer.status == "answered":
        return answer.answer[0].base * 100, ""
    names = [n for s in answer.missing for n in s]
    return None, f"the {', the '.join(names)} is not known" if names else answer.reason.rstrip(".")


def _identified(kernel: Kernel, line: Line) -> Line:
    """The line with its substance; what is weighed and unknown is a solid, and holds no alcohol."""
    s = substance_of(kernel, line)
    if s is None and line.amount and kernel.units[line.amount.unit].dimension == kernel.units["gram"].dimension:
        return replace(line, substance=None, attributes={ABV: Amount(0, "abv", 0), **line.attributes})
    return replace(line, substance=s.id if s else None)


def by_weight(kernel: Kernel, lines: Iterable[Line]) -> list[Line]:
    """Lines with the heaviest first; a volume without a density counts as water."""
    def weight(line: Line) -> float:
        if line.amount is None:
            return 0.0
        volume = kernel.units[line.amount.unit].dimension == kernel.units["milliliter"].dimension
        s = substance_of(kernel, line)
        return line.amount.base * ((s.number("density") if s else None) or 1.0 if volume else 1.0)

    return sorted(lines, key=weight, reverse=True)


def _leaves(kernel: Kernel, book: Book, spec: KeptSpec, depth: int = 0) -> Iterator[Line]:
    for line in by_weight(kernel, spec.lines):
        inner = book.named(line.thing) if depth < DEEPEST else None
        if inner is not None and inner.id != spec.id:
            yield from _leaves(kernel, book, inner, depth + 1)
        else:
            yield line


def _told(kernel: Kernel, book: Book, line: Line, depth: int) -> str:
    inner = book.named(line.thing) if depth < DEEPEST else None
    if inner is None:
        return line.thing
    return f"{line.thing} ({', '.join(_told(kernel, book, x, depth + 1) for x in by_weight(kernel, inner.lines))})"


def _of(kernel: Kernel, lines: Iterable[Line]) -> tuple[tuple[tuple[str, str], ...], frozenset[str], tuple[str, ...]]:
    allergens: dict[tuple[str, str], None] = {}
    kinds: set[str] = set()
    strange: dict[str, None] = {}
    for line in lines:
        s = substance_of(kernel, line)
        if s is None:
            strange[line.thing] = None
            continue
        kinds |= s.kinds
        for name in str(s.values.get("allergens") or "").split(";"):
            if name.strip():
                allergens[name.strip(), line.thing] = None
    return tuple(allergens), frozenset(kinds), tuple(strange)


def _poured(kernel: Kernel, request: Request, answer: Answer) -> Iterator[Line]:
    """Amounts of an answer that are amounts of a substance: what went into it, not what came out."""
    model = kernel.models[request.calculator]
    amounts = {kernel.units["gram"].dimension, kernel.units["milliliter"].dimension}
    names = _by_word(kernel)
    for v in answer.values:
        own = model.variables.get(v.name)
        if own is None or own.role in ("each", "per") or model.unit[v.name].dimension not in amounts or v.base <= 0:
            continue
        row = answer.rows.get(own.named_by[0]) if own.named_by else None
        words = model.choices[own.named_by[0]].rows[row].words if own.named_by and row else (own.title, v.name)
        said = kernel.substances.get(request.things.get(v.name, ""))
        s = said or next((names[w] for w in words if w in names), None)
        if s is not None:
            thing = said.words[0] if said else words[0]
            yield Line(thing, Amount(v.value, model.variables[v.name].unit, v.base), {}, s.id)


def _row_name(kernel: Kernel, request: Request) -> str:
    """A name from the table of keeping times: the chosen row's, or one that is the calculator's very name.

    Nothing nearer is tried, for a name brings a use-by date with it.
    """
    rows = list(keeping_rows(kernel))
    if request.calculator == CALCULATOR:
        return next((r.words[0] for r in rows if r.id == request.choices.get(CHOICE)), "")
    own = kernel.models[request.calculator].calculator.name.replace("_", " ")
    return next((own for r in rows if own in r.words), "")


_WORDS: dict[int, tuple[Kernel, Mapping[str, Substance]]] = {}


def _by_word(kernel: Kernel) -> Mapping[str, Substance]:
    """Substances by each of their words, kept for the kernel that was asked about last."""
    kept = _WORDS.get(0)
    if kept is None or kept[0] is not kernel or len(kept[1]) == 0:
        kept = _WORDS[0] = (kernel, {w.casefold(): s for s in kernel.substances.values() for w in (s.id, *s.words)})
    return kept[1]
