"""A book as JSON, ``format`` ``stillroom book``, ``version`` 1: written, and read by a schema that names what is wrong.

    {"format": "stillroom book", "version": 1, "specs": [
      {"name": "Marsh Light", "method": ["Shake and strain."],
       "makes": {"value": 1, "unit": "count"},
       "rests": {"value": 24, "unit": "hour"}, "keeps": {"value": 7, "unit": "day"},
       "lines": [{"amount": {"value": 45, "unit": "milliliter"}, "thing": "gin",
                  "abv": 47, "brix": 66.7, "acid": 6,
                  "price": {"value": 28, "buys": {"value": 700, "unit": "milliliter"}}}]}]}

``name`` and ``lines`` are required, the rest may be left out; ``abv`` is in % by volume, ``brix`` in °Bx,
``acid`` in g per 100 ml; a line without ``amount`` is one that the glass is topped up with.  Units are those
of the registry.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from stillroom import Amount, Line
from stillroom.errors import UnitError
from stillroom.units import Units

from ..reading.candidate import MASS, VOLUME
from .book import Book
from .drafts import LONGEST_NAME, MOST_LINES, MOST_STEPS, Drafting, Problem, clean_name, fits, name_is_wrong
from .lines import LONGEST_THING
from .spec import KeptSpec

FORMAT, VERSION = "stillroom book", 1
LONGEST_STEP = 300
SPEC_KEYS = frozenset("name lines method makes rests keeps".split())
LINE_KEYS = frozenset("amount thing abv brix acid price".split())
PERCENTS = {
    "abv": ("abv", ("abv",), 100.0),
    "brix": ("brix", ("sugar", "brix"), 100.0),
    "acid": ("percent_wv", ("acid", "acidity"), 100.0),
}


def book_json(book: Book) -> dict[str, Any]:
    """The book as plain data by the schema above: its specs as they stand now."""
    return {"format": FORMAT, "version": VERSION, "specs": [_spec_json(s) for s in book.specs]}


def _spec_json(spec: KeptSpec) -> dict[str, Any]:
    times = {n: _amount_json(a) for n in ("makes", "rests", "keeps") if (a := getattr(spec, n)) is not None}
    return {
        "name": spec.name,
        "lines": [_line_json(x) for x in spec.lines],
        **({"method": list(spec.method)} if spec.method else {}),
        **times,
    }


def _line_json(line: Line) -> dict[str, Any]:
    a = line.attributes
    data: dict[str, Any] = {"amount": _amount_json(line.amount)} if line.amount else {}
    data["thing"] = line.thing
    data.update(
        {
            key: a[names[0]].base * scale
            for key, (_, names, scale) in PERCENTS.items()
            if names[0] in a and not (key == "brix" and "brix" not in a)
        }
    )
    data = {k: round(v, 9) if isinstance(v, float) else v for k, v in data.items()}
    if "price" in a and "size" in a:
        data["price"] = {"value": a["price"].value, "buys": _amount_json(a["size"])}
    return data


def _amount_json(amount: Amount) -> dict[str, Any]:
    return {"value": amount.value, "unit": amount.unit}


def specs_of(text: str, drafting: Drafting, units: Units, problems: list[Problem]) -> Iterator[tuple[int, KeptSpec]]:
    """The specs of a JSON text with their lines in it; whatever is wrong goes to ``problems``."""
    try:
        data = json.loads(text.lstrip("\ufeff"))
    except json.JSONDecodeError as e:
        problems.append(Problem(e.lineno, f"this is no JSON: {e.msg}"))
        return
    except (ValueError, RecursionError):
        problems.append(Problem(1, "this is no JSON that can be read"))
        return
    if not isinstance(data, Mapping) or data.get("format") != FORMAT or not isinstance(data.get("specs"), list):
        problems.append(Problem(1, f'a book is an object with "format": "{FORMAT}", "version": 1 and "specs": [...]'))
        return
    if data.get("version") != VERSION:
        problems.append(Problem(1, f"this book's version is {data.get('version')!r}; I read version {VERSION}"))
        return
    lines = _lines_of_specs(text)
    for n, one in enumerate(data["specs"]):
        at = lines[n] if n < len(lines) else 1
        checked = _Checked(at, f"spec {n + 1}", problems, units, drafting)
        spec = checked.spec(one)
        if spec is not None:
            yield at, spec


def _lines_of_specs(text: str) -> list[int]:
    """The line in which each spec of a JSON book begins: its ``name``, in order."""
    return [text.count("\n", 0, m.start()) + 1 for m in re.finditer(r"\"name\"\s*:", text)]


class _Checked:
    """One spec of a JSON file, checked by the schema; whatever is wrong is noted with its place."""

    def __init__(self, at: int, place: str, problems: list[Problem], units: Units, drafting: Drafting):
        self.at, self.place, self.problems, self.units, self.drafting = at, place, problems, units, drafting

    def wrong(self, text: str) -> None:
        self.problems.append(Problem(self.at, f"{self.place}: {text}"))

    def spec(self, data: Any) -> KeptSpec | None:
        if not isinstance(data, Mapping):
            self.wrong("a spec is an object")
            return None
        before = len(self.problems)
        self._keys(data, SPEC_KEYS, "a spec")
        name = data.get("name")
        if not isinstance(name, str) or name_is_wrong(clean_name(name)):
            self.wrong(f"it needs a name of 1 to {LONGEST_NAME} characters")
            return None
        self.place = clean_name(name)
        rows, method = data.get("lines"), data.get("method", [])
        if not isinstance(rows, list) or not 1 <= len(rows) <= MOST_LINES:
            self.wrong(f"it needs 1 to {MOST_LINES} lines")
            return None
        if not (
            isinstance(method, list)
            and len(method) <= MOST_STEPS
            and all(isinstance(m, str) and 0 < len(m) <= LONGEST_STEP for m in method)
        ):
            self.wrong(f"method is a list of at most {MOST_STEPS} texts")
        lines = [x for n, row in enumerate(rows, 1) if (x := self._line(row, n)) is not None]
        makes, rests, keeps = (self._kind(data, n) for n in ("makes", "rests", "keeps"))
        things = [x.thing.casefold() for x in lines]
        for thing in sorted({t for t in things if things.count(t) > 1}):
            self.wrong(f"{thing} stands there twice")
        if len(self.problems) > before:
            return None
        return KeptSpec(0, self.place, tuple(lines), tuple(method), makes, rests, keeps)

    def _kind(self, data: Mapping[str, Any], name: str) -> Amount | None:
        return self._amount(data[name], name, lambda a: fits(name, a, self.units)) if name in data else None

    def _keys(self, data: Mapping[str, Any], known: frozenset[str], what: str) -> None:
        strange = sorted(str(k) for k in data if k not in known)
        if strange:
            self.wrong(f"{what} has no {', '.join(strange)}")

    def _line(self, data: Any, n: int) -> Line | None:
        if not isinstance(data, Mapping):
            self.wrong(f"its line {n} is no object")
            return None
        self._keys(data, LINE_KEYS, f"its line {n}")
        thing = data.get("thing")
        if not isinstance(thing, str) or not 0 < len(thing.strip()) <= LONGEST_THING:
            self.wrong(f"its line {n} needs a thing of 1 to {LONGEST_THING} characters")
            return None
        amount = (
            self._amount(data["amount"], f"the amount of its line {n}", self._measured) if "amount" in data else None
        )
        attributes: dict[str, Amount] = {}
        for key, (unit, names, scale) in PERCENTS.items():
            if key not in data:
                continue
            if not _number(data[key]) or not 0 <= data[key] <= scale:
                self.wrong(f"{key} of its line {n} is a number from 0 to {scale:g}")
                continue
            value = float(data[key])
            attributes.update(dict.fromkeys(names, Amount(value, unit, value / scale, f"{value:g} %")))
        price = data.get("price")
        if price is not None:
            buys = (
                self._amount(price.get("buys"), f"what the price of its line {n} buys", self._measured)
                if isinstance(price, Mapping)
                else None
            )
            if buys is None or not _number(price.get("value")) or price["value"] < 0:
                self.wrong(f'price of its line {n} is {{"value": 28, "buys": {{"value": 700, "unit": "milliliter"}}}}')
            else:
                attributes["price"] = Amount(float(price["value"]), "currency", float(price["value"]))
                attributes["size"] = buys
        return Line(thing.strip(), amount, attributes, self.drafting.lines.substance(thing))

    def _measured(self, amount: Amount) -> bool:
        return amount.unit == "count" or self.units[amount.unit].dimension in (MASS, VOLUME)

    def _amount(self, data: Any, what: str, right: Callable[[Amount], bool]) -> Amount | None:
        if not (
            isinstance(data, Mapping)
            and set(data) == {"value", "unit"}
            and _number(data["value"])
            and 0 < data["value"] < 1e12
            and isinstance(data["unit"], str)
        ):
            self.wrong(f'{what} is {{"value": a number above 0, "unit": a unit}}')
            return None
        value, unit = float(data["value"]), data["unit"]
        try:
            base = value if unit == "count" else self.units[unit].to_base(value)
        except UnitError:
            self.wrong(f"{what}: there is no unit {unit!r}")
            return None
        symbol = "" if unit == "count" else self.units[unit].symbol or unit.replace("_", " ")
        amount = Amount(value, unit, base, f"{value:g} {symbol}".strip())
        if base != base or not right(amount):
            self.wrong(f"{what} cannot be in {unit}")
            return None
        return amount


def _number(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and value == value
