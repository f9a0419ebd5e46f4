"""How a spec is shown: as it is read back, listed, and told apart from the version before."""

from __future__ import annotations

from datetime import datetime

from stillroom import Amount, Kernel, Line
from stillroom.answering import say_number
from stillroom.units import Units

from ..state import State
from ..when.zones import zone_of
from .book import Book
from .spec import KeptSpec

SMALL = {"liter": "milliliter", "kilogram": "gram"}


def amount_text(amount: Amount | None, units: Units) -> str:
    """An amount in its own unit."""
    if amount is None:
        return "some"
    name = amount.unit.replace("_", " ")
    symbol = "" if amount.unit == "count" else units[amount.unit].symbol or name
    if amount.value == 1 and symbol in (f"{name}s", f"{name}es"):
        symbol = name
    elif amount.value != 1 and symbol == name and name[-1] != "s":
        symbol = f"{name}s"
    return f"{say_number(amount.value)} {symbol}".strip()


def smaller(amount: Amount, units: Units) -> Amount:
    """Less than a litre or a kilogram in the smaller unit."""
    unit = SMALL.get(amount.unit) if amount.value < 1 else None
    return Amount(units[unit].from_base(amount.base), unit, amount.base) if unit else amount


def line_text(line: Line, units: Units) -> str:
    """A line as it can be written again."""
    if line.amount is None:
        return f"top with {line.thing}"
    told = f"{amount_text(line.amount, units)} {line.thing}"
    a = line.attributes
    if "abv" in a:
        told += f" at {a['abv'].value:g}{' proof' if a['abv'].unit == 'proof' else ' % ABV'}"
    if "brix" in a:
        told += f" at {a['brix'].value:g} brix"
    if "acid" in a:
        told += f" {'and' if 'brix' in a else 'at'} {a['acid'].value:g} % acid"
    if "price" in a and "size" in a:
        told += f" ({a['price'].value:.2f} for {amount_text(a['size'], units)})"
    return told


def body(spec: KeptSpec, kernel: Kernel, book: Book | None = None) -> list[str]:
    """Everything of a spec but its name, a line each; ``book`` tells which lines are specs of their own."""
    units = kernel.units
    rows = [f"• {line_text(x, units)}" + (" (kept here)" if book and book.named(x.thing) else "") for x in spec.lines]
    rows += [f"{n}. {step}" for n, step in enumerate(spec.method, 1)]
    if spec.makes is not None:
        count = spec.makes.unit == "count"
        rows.append(f"{'Serves' if count else 'Makes'} {amount_text(spec.makes, units)}.")
    if spec.rests is not None:
        rows.append(f"Rests {spec.rests.said or amount_text(spec.rests, units)}.")
    if spec.keeps is not None:
        rows.append(f"Keeps {spec.keeps.said or amount_text(spec.keeps, units)}.")
    return rows


def differences(before: KeptSpec, after: KeptSpec, units: Units) -> list[str]:
    """What a version changes, in a few words each."""
    told = []
    if before.name != after.name:
        told.append(f"renamed from {before.name}")
    old, new = ({x.thing.casefold(): x for x in s.lines} for s in (before, after))
    for key, line in new.items():
        was = old.get(key)
        if was is None:
            told.append(f"{line_text(line, units)} added")
        elif line_text(was, units) != line_text(line, units):
            told.append(f"{line_text(line, units)} (was {_before(was, line, units)})")
    told += [f"{line.thing} taken out" for key, line in old.items() if key not in new]
    if before.method != after.method:
        told.append("another method")
    for name in ("makes", "rests", "keeps"):
        was, now = (getattr(s, name) for s in (before, after))
        if was != now and (was is None or now is None or was.to_json() != now.to_json()):
            verb = "serves" if name == "makes" and now and now.unit == "count" else name
            told.append(f"{verb} {amount_text(now, units)}" if now else f"no longer says what it {name}")
    return told


def _before(was: Line, line: Line, units: Units) -> str:
    """What a line was: its amount, or all that was said of it where that is what changed."""
    amount = amount_text(was.amount, units)
    return line_text(was, units) if amount == amount_text(line.amount, units) else amount


def listing(book: Book, units: Units) -> list[str]:
    """One line a spec, by name."""
    rows = []
    for spec in sorted(book.specs, key=lambda s: s.name.casefold()):
        things = ", ".join(x.thing for x in spec.lines[:4]) + (", …" if len(spec.lines) > 4 else "")
        makes = f" (makes {amount_text(spec.makes, units)})" if spec.makes and spec.makes.unit != "count" else ""
        rows.append(f"• {spec.name}{makes}: {things}")
    return rows


def when(at: str, state: State) -> str:
    """A stamp as the chat's clock showed it."""
    try:
        return f"{datetime.fromisoformat(at).astimezone(zone_of(state.settings)):%Y-%m-%d %H:%M}"
    except ValueError:
        return at
