"""What goes through the house: amounts, specs, requests and answers.

All are immutable and serialise to JSON with ``to_json`` and ``from_json``.  A number is kept as it
was said (``value``, ``unit``) beside its worth on the base units (``base``), because the size of a
drop or an ounce is the chat's own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite
from typing import Any

from .errors import RequestError


@dataclass(frozen=True, slots=True)
class Amount:
    """A number and its unit as said, and its worth on the base units (gram, millilitre, second, kelvin)."""

    value: float
    unit: str
    base: float
    said: str = ""

    def to_json(self) -> dict[str, Any]:
        """Plain data."""
        return {"value": self.value, "unit": self.unit, "base": self.base, "said": self.said}

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Amount:
        """From plain data with finite numbers.  Raises RequestError for anything else."""
        try:
            made = cls(float(data["value"]), str(data["unit"]), float(data["base"]), str(data.get("said", "")))
        except (KeyError, TypeError, ValueError, AttributeError):
            raise RequestError(f"{data!r} is no amount.") from None
        if not (isfinite(made.value) and isfinite(made.base)):
            raise RequestError(f"{data!r} is no amount.")
        return made


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a spec: how much of what, and what is known of it (``abv``, ``price``...)."""

    thing: str
    amount: Amount | None
    attributes: Mapping[str, Amount] = field(default_factory=dict, hash=False)
    substance: str | None = None

    def to_json(self) -> dict[str, Any]:
        """Plain data."""
        return {"thing": self.thing, "amount": self.amount and self.amount.to_json(), "substance": self.substance,
                "attributes": {n: a.to_json() for n, a in self.attributes.items()}}

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Line:
        """From plain data.  Raises RequestError for anything else."""
        try:
            amount = data["amount"]
            return cls(str(data["thing"]), Amount.from_json(amount) if amount else None,
                       {n: Amount.from_json(a) for n, a in data.get("attributes", {}).items()}, data.get("substance"))
        except (KeyError, TypeError, AttributeError):
            raise RequestError(f"{data!r} is no line of a spec.") from None


@dataclass(frozen=True, slots=True)
class Request:
    """One question to one calculator.

    ``given`` are amounts by variable, ``choices`` row ids by choice, ``wanted`` variables (or things of
    the spec), ``units`` the units in which values are to be answered, ``sizes`` the chat's own measures
    (base numbers by unit), ``defaults`` values that the chat keeps.
    """

    calculator: str
    given: Mapping[str, Amount] = field(default_factory=dict, hash=False)
    choices: Mapping[str, str] = field(default_factory=dict, hash=False)
    wanted: tuple[str, ...] = ()
    spec: tuple[Line, ...] = ()
    units: Mapping[str, str] = field(default_factory=dict, hash=False)
    sizes: Mapping[str, float] = field(default_factory=dict, hash=False)
    defaults: Mapping[str, Amount] = field(default_factory=dict, hash=False)
    things: Mapping[str, str] = field(default_factory=dict, hash=False)
    now: str | None = None

    def to_json(self) -> dict[str, Any]:
        """Plain data."""
        return {"calculator": self.calculator, "given": {n: a.to_json() for n, a in self.given.items()},
                "choices": dict(self.choices), "wanted": list(self.wanted), "spec": [x.to_json() for x in self.spec],
                "units": dict(self.units), "sizes": dict(self.sizes),
                "defaults": {n: a.to_json() for n, a in self.defaults.items()}, "things": dict(self.things),
                "now": self.now}

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Request:
        """From plain data.  Raises RequestError for anything else."""
        try:
            return cls(str(data["calculator"]), {n: Amount.from_json(a) for n, a in data.get("given", {}).items()},
                       {str(k): str(v) for k, v in data.get("choices", {}).items()},
                       tuple(str(w) for w in data.get("wanted", ())),
                       tuple(Line.from_json(x) for x in data.get("spec", ())),
                       {str(k): str(v) for k, v in data.get("units", {}).items()},
                       {str(k): float(v) for k, v in data.get("sizes", {}).items()},
                       {n: Amount.from_json(a) for n, a in data.get("defaults", {}).items()},
                       {str(k): str(v) for k, v in data.get("things", {}).items()}, data.get("now"))
        except (KeyError, TypeError, ValueError, AttributeError) as e:
            raise RequestError(f"This is no request: {e}.") from None


@dataclass(frozen=True, slots=True)
class Value:
    """A value that is known now; ``origin`` is ``given``, ``found`` or ``assumed``."""

    name: str
    value: float
    unit: str
    origin: str
    base: float

    def to_json(self) -> dict[str, Any]:
        """Plain data, the unit by the name that other programs know."""
        return {"name": self.name, "value": self.value, "unit": self.unit, "origin": self.origin}


@dataclass(frozen=True, slots=True)
class Answer:
    """What came of a request.

    ``status`` is ``answered``, ``asks`` or ``declined``; ``reason`` is the sentence for the last two;
    ``missing`` the smallest sets of names that would be enough, ``choices`` what there is to choose from.
    ``unlikely`` says of a declined one that nobody would mean such values: the request may be a misreading.
    """

    status: str
    calculator: str | None
    answer: tuple[Value, ...] = ()
    values: tuple[Value, ...] = ()
    assumptions: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    working: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    reason: str = ""
    missing: tuple[tuple[str, ...], ...] = ()
    choices: tuple[str, ...] = ()
    rows: Mapping[str, str] = field(default_factory=dict, hash=False)
    unlikely: bool = False

    def to_json(self) -> dict[str, Any]:
        """Plain data."""
        return {"status": self.status, "calculator": self.calculator, "answer": [v.to_json() for v in self.answer],
                "values": [v.to_json() for v in self.values], "assumptions": list(self.assumptions),
                "cautions": list(self.cautions), "steps": list(self.steps), "working": list(self.working),
                "sources": list(self.sources), "reason": self.reason,
                "missing": [list(s) for s in self.missing], "choices": list(self.choices)}
