"""How much of each component a service takes: specs within specs added up, each scaled once, users first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from stillroom import Amount, Kernel, Line, Request

from .book import Book
from .plan import Batch, NoPlan, Ordered
from .spec import KeptSpec

COUNT, VOLUME = "count", "milliliter"
PASSED_OVER = 0.05
"""Grams to a millilitre of the rest that are passed over in a volume: within what a jug shows."""
BATCH, RECIPE = "bar.batch", "bar.recipe_for_volume"


def batches_of(kernel: Kernel, book: Book, ordered: tuple[Ordered, ...]) -> tuple[Batch, ...]:
    """The batches, what uses a component before the component itself.  Raises NoPlan, for a cycle too."""
    order = _order(book, [o.spec for o in ordered])
    needs: dict[int, list[Amount]] = {}
    users: dict[int, set[int]] = {}
    for o in ordered:
        needs.setdefault(o.spec.id, []).append(o.amount)
    batches = []
    for spec in order:
        amount = _total(kernel, spec, needs[spec.id])
        lines = scaled(kernel, spec, amount)
        batches.append(Batch(spec, amount, lines, tuple(sorted(users.get(spec.id, ())))))
        for line in lines:
            inner = book.named(line.thing)
            if inner is None:
                continue
            if line.amount is None:
                raise NoPlan(f"“{spec.name}” says no amount of {line.thing}.")
            needs.setdefault(inner.id, []).append(line.amount)
            users.setdefault(inner.id, set()).add(spec.id)
    return tuple(batches)


def _order(book: Book, wanted: list[KeptSpec]) -> list[KeptSpec]:
    """Each spec before those that it uses."""
    done: list[KeptSpec] = []
    open_: list[str] = []

    def visit(spec: KeptSpec) -> None:
        if spec.name in open_:
            raise NoPlan(f"“{spec.name}” is used in making itself ({' → '.join([*open_, spec.name])}): mend the spec.")
        if spec in done:
            return
        open_.append(spec.name)
        for line in spec.lines:
            inner = book.named(line.thing)
            if inner is not None:
                visit(inner)
        open_.pop()
        done.append(spec)

    for spec in wanted:
        visit(spec)
    return done[::-1]


def _total(kernel: Kernel, spec: KeptSpec, amounts: list[Amount]) -> Amount:
    """All that is needed of a spec, in one unit."""
    kinds = {kernel.units[a.unit].dimension for a in amounts}
    if len(kinds) > 1 or len({kernel.units[a.unit].kind == COUNT for a in amounts}) > 1:
        one = serve_of(kernel, spec)
        amounts = [Amount(a.base * one, VOLUME, a.base * one) if kernel.units[a.unit].kind == COUNT and one else a
                   for a in amounts]
        if len({kernel.units[a.unit].dimension for a in amounts}) > 1:
            raise NoPlan(f"“{spec.name}” is needed by the piece and by measure: give all of it in one of them.")
    base = sum(a.base for a in amounts)
    unit = amounts[0].unit
    if spec.makes is not None and kernel.units[spec.makes.unit].dimension in kinds and \
            kernel.units[spec.makes.unit].kind == kernel.units[unit].kind:
        unit = spec.makes.unit
    return Amount(kernel.units[unit].from_base(base), unit, base)


def scaled(kernel: Kernel, spec: KeptSpec, amount: Amount) -> tuple[Line, ...]:
    """The lines of so much of a spec, by the kernel's batch calculators.  Raises NoPlan."""
    unnamed = tuple(replace(x, thing=f"line {n}") for n, x in enumerate(spec.lines) if x.amount is not None)
    made = _made(kernel, spec, amount)
    if kernel.units[amount.unit].kind == COUNT:
        request = Request(BATCH, {"serves": amount, "feeds": made}, wanted=("factor",), spec=unnamed)
    elif kernel.units[amount.unit].dimension == kernel.units[VOLUME].dimension:
        request = Request(RECIPE, {"total": amount, "yields": made}, wanted=("factor",), spec=unnamed)
    else:
        factor = amount.base / made.base
        request = Request(BATCH, {"factor": Amount(factor, "dimensionless", factor)}, wanted=("serves",), spec=unnamed)
    if request.calculator not in kernel.models:
        raise NoPlan("The calculators of batches are switched off: nothing can be scaled.")
    answer = kernel.answer(request)
    if answer.status != "answered":
        raise NoPlan(f"“{spec.name}” cannot be scaled: {answer.reason}")
    found = {v.name: v for v in answer.values if v.name.startswith("line ")}
    return tuple(replace(x, amount=Amount(v.value, x.amount.unit, v.base)) if x.amount and (v := found.get(f"line {n}"))
                 else x for n, x in enumerate(spec.lines))


def _made(kernel: Kernel, spec: KeptSpec, amount: Amount) -> Amount:
    """What the spec as it is written makes, in the kind of unit of what is wanted of it."""
    count = kernel.units[amount.unit].kind == COUNT
    wanted = kernel.units[amount.unit].dimension
    own = spec.makes
    if own is not None:
        if (kernel.units[own.unit].kind == COUNT) == count and kernel.units[own.unit].dimension == wanted:
            return own
        said = own.said or f"{own.value:g} {kernel.units[own.unit].symbol}".strip()
        if count:
            raise NoPlan(f"“{spec.name}” makes {said} and is not counted in serves: say how much of it is wanted, or "
                         f"“{amount.value:g} batches of {spec.name}”.")
        raise NoPlan(f"“{spec.name}” makes {said}: say how much of it is wanted in that kind of measure.")
    if count:
        return Amount(1, COUNT, 1)
    if wanted == kernel.units[VOLUME].dimension:
        volume = serve_of(kernel, spec)
        if volume:
            return Amount(volume, VOLUME, volume)
    if all(x.amount and kernel.units[x.amount.unit].dimension == wanted for x in spec.lines):
        mass = sum(x.amount.base for x in spec.lines if x.amount)
        return Amount(kernel.units[amount.unit].from_base(mass), amount.unit, mass)
    raise NoPlan(f"How much does “{spec.name}” make? Its lines do not add up to a volume: give it a line “makes 1 l”.")


def serve_of(kernel: Kernel, spec: KeptSpec) -> float | None:
    """The volume of a spec in ml; None where what is weighed in it is too much to be passed over."""
    poured = tuple(x for x in spec.lines if _poured(kernel, x))
    if not poured:
        return None
    one = Amount(1, "dimensionless", 1)
    answer = kernel.answer(Request(BATCH, {"factor": one}, wanted=("total",), spec=poured))
    if answer.status != "answered":
        return None
    gram = kernel.units["gram"].dimension
    weighed = sum(x.amount.base for x in spec.lines if x.amount and kernel.units[x.amount.unit].dimension == gram)
    return answer.answer[0].base if weighed <= PASSED_OVER * answer.answer[0].base else None


def _poured(kernel: Kernel, line: Line) -> bool:
    return line.amount is not None and kernel.units[line.amount.unit].dimension == kernel.units[VOLUME].dimension


def cautions_of(kernel: Kernel, book: Book, batches: tuple[Batch, ...]) -> tuple[str, ...]:
    """What to beware of in all that goes in: allergens, acids, gas."""
    lines = (x for x in bought(book, batches) if x.amount is not None and x.amount.base > 0)
    spec = tuple(replace(x, thing=f"line {n}") for n, x in enumerate(lines))
    one = Amount(1, "dimensionless", 1)
    return kernel.answer(Request(BATCH, {"factor": one}, wanted=("serves",), spec=spec)).cautions if spec else ()


def bought(book: Book, batches: tuple[Batch, ...]) -> Iterator[Line]:
    """The lines of all batches that no spec of the book makes."""
    for batch in batches:
        yield from (x for x in batch.lines if book.named(x.thing) is None)
