"""What to buy for a plan: fruit for its juice and peel, bottles by their size, the rest by weight, volume or piece."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from stillroom import Amount, Kernel, Line, Request

from ..paper.filling import substance_of
from .book import Book
from .plan import Batch, Item
from .plan_parts import bought

JUICE, PEEL, EGGS, SIPHON, BOTTLES = (
    "bar.juice_by_fruit", "bar.peel_by_fruit", "bar.egg_white", "bar.siphon_service", "bar.bottles_to_buy")
BOTTLED = frozenset({"spirit", "liqueur", "wine", "bitters", "beer"})
BOTTLE = 700.0
"""ml in a bottle where its line does not say: the EU's usual one (Directive 2007/45/EC lists 700 ml)."""
_SIPHON = re.compile(r"\b(?:siphon|whipper|espuma|n2o|cream charger)", re.I)
_SIZE = re.compile(r"(\d+(?:[.,]\d+)?)\s*(ml|l|litre|liter)\b|\b(pint|quart)\b", re.I)
GRAM, ML = "gram", "milliliter"


@dataclass(slots=True)
class Need:
    """All that is needed of a thing in one kind of measure, and the lines that say more of it."""

    line: Line
    base: float


def shopping_of(kernel: Kernel, book: Book, batches: tuple[Batch, ...], say: Callable[[Amount], str]
                ) -> tuple[tuple[Item, ...], tuple[str, ...]]:
    """The list, fruit first, and the cautions that come with it (gas, eggs)."""
    cautions: list[str] = []
    needs = _added(kernel, bought(book, batches))
    items = [*_fruit(kernel, needs, say)]
    for need in needs:
        item = _egg(kernel, need, say, cautions) or _bottle(kernel, need, say)
        items.append(item or Item(need.line.thing, _say(need, kernel, say), _say(need, kernel, say)))
    items += _chargers(kernel, batches, cautions)
    return tuple(items), tuple(cautions)


def short_of(kernel: Kernel, batches: Iterable[Batch], scale: float, say: Callable[[Amount], str]) -> tuple[str, ...]:
    """Lines that are weighed and come to less than ten steps of the scale, each with its batch."""
    mass = kernel.units[GRAM].dimension
    return tuple(f"{say(x.amount)} of {x.thing} in {b.spec.name}" for b in batches for x in b.lines
                 if x.amount is not None and kernel.units[x.amount.unit].dimension == mass
                 and 0 < x.amount.base < 10 * scale * (1 - 1e-9))


def _added(kernel: Kernel, lines: Iterable[Line]) -> list[Need]:
    found: dict[tuple[str, object], Need] = {}
    for line in lines:
        s = substance_of(kernel, line)
        if s is not None and "water" in s.kinds:
            continue
        dimension = kernel.units[line.amount.unit].dimension if line.amount else None
        key = (line.thing.casefold(), dimension)
        need = found.setdefault(key, Need(line, 0.0))
        need.base += line.amount.base if line.amount else 0.0
        if line.attributes and not need.line.attributes:
            need.line = line
    return list(found.values())


def _amount(need: Need, kernel: Kernel) -> Amount | None:
    if need.line.amount is None:
        return None
    unit = need.line.amount.unit
    return Amount(kernel.units[unit].from_base(need.base), unit, need.base)


def _say(need: Need, kernel: Kernel, say: Callable[[Amount], str]) -> str:
    amount = _amount(need, kernel)
    return say(amount) if amount else "as much as it takes"


def _fruit(kernel: Kernel, needs: list[Need], say: Callable[[Amount], str]) -> Iterator[Item]:
    """Fruit for juice and for peel: the peel comes off the fruit that is pressed, so the larger number is bought."""
    wanted: dict[str, list[tuple[float, str, str, str]]] = {}
    for need in list(needs):
        for calculator, given, tail, unit in ((JUICE, "juice", " juice", ML), (PEEL, "peel", " peel", GRAM)):
            found = _count(kernel, calculator, given, tail, unit, need)
            if found is not None:
                fruit, count, note = found
                wanted.setdefault(fruit, []).append((count, f"{_say(need, kernel, say)} of {given}", given, note))
                needs.remove(need)
                break
        else:
            counted = need.line.amount is not None and need.line.amount.unit == "count"
            kind = _kind(kernel, JUICE, need.line.thing.casefold()) if counted else None
            if kind is not None:
                wanted.setdefault(kind[1], []).append((need.base, f"{need.base:g} whole", "whole", ""))
                needs.remove(need)
    for fruit, uses in wanted.items():
        whole = sum(c for c, _, use, _ in uses if use == "whole")
        pressed = max((c for c, _, use, _ in uses if use != "whole"), default=0.0)
        note = "; ".join(n for _, _, _, n in uses if n)
        if {use for _, _, use, _ in uses} >= {"juice", "peel"}:
            note += "; peel them before you press them"
        yield Item(fruit, " and ".join(n for _, n, _, _ in uses), f"{whole + pressed:g}", note)


def _count(kernel: Kernel, calculator: str, given: str, tail: str, unit: str, need: Need
           ) -> tuple[str, float, str] | None:
    """The fruit, how many of it, and what one gives; None for what is no juice or peel of a fruit in the table."""
    thing = re.sub(r"^(?:fresh|strained|pressed)\s+", "", need.line.thing.casefold()).replace(" zest", " peel")
    amount = need.line.amount
    if not thing.endswith(tail) or amount is None or not _like(kernel, amount, unit):
        return None
    kind = _kind(kernel, calculator, thing.removesuffix(tail))
    if kind is None:
        return None
    request = Request(calculator, {given: Amount(kernel.units[unit].from_base(need.base), unit, need.base)},
                      {"kind": kind[0]}, ("fruit",))
    answer = kernel.answer(request)
    if answer.status != "answered":
        return None
    each = next((v for v in answer.values if v.name == "each"), None)
    note = f"{each.value:g} {kernel.units[unit].symbol} of {given} each, which varies by half" if each else ""
    return kind[1], answer.answer[0].value, note


def _like(kernel: Kernel, amount: Amount, unit: str) -> bool:
    return kernel.units[amount.unit].dimension == kernel.units[unit].dimension


def _kind(kernel: Kernel, calculator: str, word: str) -> tuple[str, str] | None:
    model = kernel.models.get(calculator)
    rows = model.choices["kind"].rows.values() if model else ()
    return next(((r.id, r.words[0]) for r in rows if word in r.words or word.removesuffix("s") in r.words), None)


def _egg(kernel: Kernel, need: Need, say: Callable[[Amount], str], cautions: list[str]) -> Item | None:
    amount = need.line.amount
    if need.line.thing.casefold() not in ("egg white", "egg whites") or amount is None or EGGS not in kernel.models \
            or not _like(kernel, amount, ML):
        return None
    answer = kernel.answer(Request(EGGS, {"white": Amount(need.base, ML, need.base)}, wanted=("eggs",)))
    if answer.status != "answered":
        return None
    cautions += answer.cautions
    return Item("eggs", f"{_say(need, kernel, say)} of white", f"{answer.answer[0].value:g}",
                "".join(f"{v.value:g} ml of white each" for v in answer.values if v.name == "each"))


def _bottle(kernel: Kernel, need: Need, say: Callable[[Amount], str]) -> Item | None:
    """Whole bottles of what is sold in bottles, of the size that its line was priced for."""
    s, amount = substance_of(kernel, need.line), need.line.amount
    if amount is None or not _like(kernel, amount, ML) or BOTTLES not in kernel.models:
        return None
    size = need.line.attributes.get("size")
    if size is None and not (s is not None and s.kinds & BOTTLED):
        return None
    ml = size.base if size else BOTTLE
    request = Request(BOTTLES, {"need": Amount(need.base, ML, need.base), "bottle": Amount(ml, ML, ml)},
                      wanted=("bottles",))
    answer = kernel.answer(request)
    if answer.status != "answered":
        return None
    n = answer.answer[0].value
    told = "its line's size" if size else "700 ml taken for granted"
    return Item(need.line.thing, _say(need, kernel, say), f"{n:g} bottle{'' if n == 1 else 's'} of {ml:g} ml", told)


def _chargers(kernel: Kernel, batches: Iterable[Batch], cautions: list[str]) -> Iterator[Item]:
    """N2O chargers for what is served from a siphon, by the size that its method names."""
    for batch in batches:
        text = " ".join(batch.spec.method)
        volume = kernel.units[ML].dimension
        lines = [x.amount for x in batch.lines if x.amount and kernel.units[x.amount.unit].dimension == volume]
        if not _SIPHON.search(text) or not lines or SIPHON not in kernel.models:
            continue
        said = _SIZE.search(text)
        base = sum(a.base for a in lines)
        litres = 0.5 if base <= 500 else 1.0
        if said:
            litres = {"pint": 0.5, "quart": 1.0}[said[3].lower()] if said[3] else float(said[1].replace(",", "."))
            litres = litres / 1000 if said[2] and said[2].lower() == "ml" else litres
        request = Request(SIPHON, {"base": Amount(base, ML, base), "size": Amount(litres, "liter", litres * 1000)},
                          wanted=("chargers", "fills"))
        answer = kernel.answer(request)
        if answer.status != "answered":
            cautions.append(f"{batch.spec.name}: {answer.reason}")
            continue
        chargers, fills = (v.value for v in answer.answer[:2])
        cautions += answer.cautions
        told = "its method's size" if said else "that size taken for granted"
        yield Item("N2O chargers", f"{fills:g} fill{'' if fills == 1 else 's'} of a {litres:g} l siphon",
                   f"{chargers:g}", told)
