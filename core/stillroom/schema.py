"""JSON Schema (draft 2020-12) of a calculator's request, of any request and of an answer.

What ``Request.to_json`` and ``Answer.to_json`` write fits, and so does a request without the numbers that a kernel
works out itself: ``base`` (the amount on the base units) may be left out and is added by ``Kernel.request_from``.
A calculator's schema lists what it may be given, in which units, and what may be wanted of it: fit for a program, or a
language model, that fills it in.
"""

from __future__ import annotations

from typing import Any

from .model import Model
from .units import PERCENTS, Units

Schema = dict[str, Any]
DRAFT = "https://json-schema.org/draft/2020-12/schema"
TEXT: Schema = {"type": "string"}
TEXTS: Schema = {"type": "array", "items": TEXT}
NUMBER: Schema = {"type": "number"}


def _object(properties: Schema, required: tuple[str, ...] = (), **more: Any) -> Schema:
    return {"type": "object", "properties": properties, "required": list(required), "additionalProperties": False,
            **more}


def _map(of: Schema) -> Schema:
    return {"type": "object", "additionalProperties": of}


def amount(units: list[str] | None = None, **value: Any) -> Schema:
    """An amount in one of some units; ``base`` is its worth on the base units, ``said`` how it was put."""
    unit = {"type": "string", "enum": units} if units else TEXT
    return _object({"value": {**NUMBER, **value}, "unit": unit, "base": NUMBER, "said": TEXT}, ("value", "unit"))


AMOUNT = amount()
LINE = _object({"thing": TEXT, "amount": {"anyOf": [AMOUNT, {"type": "null"}]}, "attributes": _map(AMOUNT),
                "substance": {"type": ["string", "null"]}}, ("thing", "amount"),
               description="one line of a spec: so much of something, and what is known of it")
VALUE = _object({"name": TEXT, "value": NUMBER, "unit": TEXT, "origin": {"enum": ["given", "found", "assumed"]}},
                ("name", "value", "unit", "origin"))
REST: Schema = {"units": _map(TEXT), "sizes": _map(NUMBER), "defaults": _map(AMOUNT), "things": _map(TEXT),
                "now": {"type": ["string", "null"]}}


def request_schema() -> Schema:
    """Any request to any calculator."""
    return {"$schema": DRAFT, "title": "Request", **_object(
        {"calculator": TEXT, "given": _map(AMOUNT), "choices": _map(TEXT), "wanted": TEXTS,
         "spec": {"type": "array", "items": LINE}, **REST}, ("calculator",))}


def answer_schema() -> Schema:
    """An answer: ``reason`` says why there is no number, ``missing`` the smallest sets that would be enough."""
    keys = ("status", "calculator", "answer", "values", "assumptions", "cautions", "steps", "working", "sources",
            "reason", "missing", "choices")
    values = {"type": "array", "items": VALUE}
    return {"$schema": DRAFT, "title": "Answer", **_object(
        {**dict.fromkeys(keys, TEXTS), "status": {"enum": ["answered", "asks", "declined"]},
         "calculator": {"type": ["string", "null"]}, "answer": values, "values": values, "reason": TEXT,
         "missing": {"type": "array", "items": TEXTS}}, keys)}


def calculator_schema(model: Model) -> Schema:
    """A request to one calculator: its variables with the units that fit, its choices, what may be wanted."""
    c, given = model.calculator, {}
    for name, v in c.variables.items():
        if v.hidden:
            continue
        said = [f"{v.title}, usually in {v.show}"]
        if v.usual:
            said.append(f"usually {v.usual[0]:g} to {v.usual[1]:g} {v.unit}")
        if v.default is not None:
            said.append(f"{v.default if isinstance(v.default, str) else f'{v.default:g} {v.unit}'} unless given")
        if v.note:
            said.append(v.note)
        given[name] = {**amount(units_of(model, name)), "description": "; ".join(said)}
    choices = {n: {"type": "string", "enum": list(k.rows), "description": k.note or k.title}
               for n, k in c.choices.items()}
    needed = [n for n, k in c.choices.items() if k.default is None and k.rows]
    lines: Schema = {"spec": {"type": "array", "items": LINE} if c.lines else {"type": "array", "maxItems": 0}}
    wanted: Schema = TEXTS if c.lines else {"type": "array", "items": {"enum": list(given)}}
    return {"$schema": DRAFT, "$id": f"urn:stillroom:{model.id}", "title": model.id, "description": c.title,
            **_object(
                {"calculator": {"const": model.id}, "given": _object(given), "choices": _object(choices),
                 "wanted": {**wanted, "description": f"what is asked for; if empty, {_implied(model)}"},
                 **lines, **REST}, ("calculator",)),
            "$comment": f"choices without a default: {', '.join(needed) or '-'}"}


def _implied(model: Model) -> str:
    return " or ".join(model.calculator.asked[:2]) or "the first that is not given"


def units_of(model: Model, name: str) -> list[str]:
    """The names of the units in which a variable may be given, its own first."""
    own, units = model.unit[name], model.units
    return list(dict.fromkeys([own.name, *(u.name for u in units if u.sized and u.dimension == own.dimension
                                           and _alike(u.kind, own.kind)), *_rates(own.dimension, units)]))


def _alike(one: str, other: str) -> bool:
    return one == other or ({one, other} <= PERCENTS and {one, other} != {"ww", "vv"})


def _rates(dimension: tuple[float, ...], units: Units) -> list[str]:
    """The quotients of common units that measure the same: grams a litre, a gram a millilitre."""
    common = [u for u in units if u.sized and u.system == "metric" and u.name in COMMON]
    return [f"{a.name} / {b.name}" for a in common for b in common
            if a is not b and tuple(x - y for x, y in zip(a.dimension, b.dimension, strict=True)) == dimension
            and any(dimension)]


COMMON = frozenset({"gram", "kilogram", "milligram", "milliliter", "liter"})


def schemas(models: dict[str, Model]) -> Schema:
    """Those of the request, the answer and every calculator, under ``$defs`` of one schema of a request."""
    own = {id: calculator_schema(m) for id, m in models.items()}
    return {"$schema": DRAFT, "title": "A request to one of the calculators",
            "$defs": {"Request": request_schema(), "Answer": answer_schema(), **own},
            "anyOf": [{"$ref": f"#/$defs/{id}"} for id in own] or [{"$ref": "#/$defs/Request"}]}
