"""What can be asked: the calculators with an example each, or one of them in full."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from stillroom import Kernel
from stillroom.declare import Choice, Variable
from stillroom.model import Model
from stillroom.schema import calculator_schema, schemas


def catalogue(kernel: Kernel, name: str | None = None, as_json: bool = False, schema: bool = False) -> tuple[int, str]:
    """Exit status and text; status 2 and a sentence with the nearest names for a calculator that is not there."""
    if name is None and schema:
        return 0, json.dumps(schemas(kernel.models), indent=2)
    if name is None:
        found = [brief(m) for m in kernel.models.values()]
        return 0, json.dumps(found, indent=2) if as_json else "\n".join(_listed(kernel, found))
    models = _named(kernel, name)
    if len(models) != 1:
        return 2, _unclear(kernel, name, models)
    if schema:
        return 0, json.dumps(calculator_schema(models[0]), indent=2)
    data = full(models[0])
    return 0, json.dumps(data, indent=2) if as_json else "\n".join(_told(data))


def brief(model: Model) -> dict[str, Any]:
    """A calculator in a line, as plain data."""
    c = model.calculator
    question, answer = c.examples[0] if c.examples else (None, None)
    return {"name": model.id, "title": c.title, "example": question, "answer": answer}


def full(model: Model) -> dict[str, Any]:
    """Everything that is declared of a calculator and concerns a person, as plain data."""
    c = model.calculator
    return {
        "name": model.id, "title": c.title,
        "variables": [_variable(v) for v in c.variables.values() if not v.hidden],
        "choices": [_choice(k) for k in c.choices.values()],
        "equations": list(c.equations), "then": [f"{s.name} := {s.formula}" for s in c.steps],
        "limits": [{"test": x.test, "otherwise": x.action, "reason": x.reason} for x in c.limits],
        "cautions": list(c.cautions), "conventions": list(c.conventions), "method": list(c.method),
        "examples": [{"question": q, "answer": a} for q, a in c.examples],
        "sources": list(dict.fromkeys([*c.sources, *(f.source for f in c.functions if f.source),
                                       *(r.source for k in c.choices.values() for r in k.rows.values() if r.source)])),
    }


def _variable(v: Variable) -> dict[str, Any]:
    return {"name": v.name, "unit": v.show or v.unit, "declared_in": v.unit, "words": list(v.words), "low": v.low,
            "high": v.high, "usual": list(v.usual) if v.usual else None, "default": v.default, "note": v.note}


def _choice(k: Choice) -> dict[str, Any]:
    rows = [{"id": r.id, "words": list(r.words), "source": r.source} for r in k.rows.values()]
    return {"name": k.name, "rows": rows, "default": k.default, "supplies": sorted(k.fills), "note": k.note}


def _named(kernel: Kernel, name: str) -> list[Model]:
    if name in kernel.models:
        return [kernel.models[name]]
    return [m for id, m in kernel.models.items() if id.partition(".")[2] == name]


def _unclear(kernel: Kernel, name: str, models: list[Model]) -> str:
    if models:
        return f"Several plugins have a {name!r}: {', '.join(m.id for m in models)}."
    short = {id.partition(".")[2]: id for id in kernel.models}
    near = [short[n] for n in get_close_matches(name.partition(".")[2] or name, short, 3, 0.5)]
    hint = f" Did you mean {' or '.join(near)}?" if near else " `stillroom calculators` lists them."
    return f"There is no calculator {name!r}.{hint}"


def _listed(kernel: Kernel, found: list[dict[str, Any]]) -> Iterator[str]:
    if not found:
        yield "There is no calculator: `stillroom plugins` says what was loaded."
    width = max((len(row["name"].partition(".")[2]) for row in found), default=0)
    for plugin, told in kernel.plugins.items():
        mine = [row for row in found if row["name"] in told.accepted]
        if mine:
            yield f"{plugin} {told.version}".rstrip()
        for row in mine:
            yield f"  {row['name'].partition('.')[2]:<{width}}  {row['title']}"
            if row["example"]:
                yield f"  {'':<{width}}  e.g. {row['example']}"


SECTIONS = (("limits", "Limits"), ("cautions", "Cautions"), ("conventions", "Conventions"), ("method", "Method"),
            ("examples", "Examples"), ("sources", "Sources"))


def _told(data: Mapping[str, Any]) -> Iterator[str]:
    yield f"{data['name']}: {data['title']}"
    yield "\nVariables"
    yield from (f"  {_told_variable(v)}" for v in data["variables"])
    if data["choices"]:
        yield "\nChoices"
        yield from (f"  {k['name']}: {', '.join(r['id'] for r in k['rows'])}{_default(k['default'])}"
                    for k in data["choices"])
    yield "\nEquations"
    yield from (textwrap.indent(e, "  ") for e in _set(data["equations"]))
    yield from (f"  {e}" for e in data["then"])
    for key, title in SECTIONS:
        if data[key]:
            yield f"\n{title}"
            yield from (f"  {_line(x)}" for x in data[key])


def _set(equations: list[str]) -> list[str]:
    """The equations as a book sets them; one of several lines has an empty line above and below."""
    from stillroom.pretty import pretty

    return [f"\n{e}\n" if "\n" in e else e for e in map(pretty, equations)]


def _told_variable(v: Mapping[str, Any]) -> str:
    low, high = ("" if x is None else f"{x:g}" for x in (v["low"], v["high"]))
    bounds = f"; {low or 'any'} to {high}" if high else f"; from {low}" if low not in ("", "0") else ""
    usual = bounds + (f"; usually {v['usual'][0]:g} to {v['usual'][1]:g}" if v["usual"] else "")
    note = f"; {v['note']}" if v["note"] else ""
    return f"{v['name']:<18} {v['declared_in']}{usual}{_default(v['default'])}{note}"


def _default(default: float | str | None) -> str:
    return "" if default is None else f"; {default if isinstance(default, str) else f'{default:g}'} unless said"


def _line(x: str | Mapping[str, str]) -> str:
    if isinstance(x, str):
        return x
    if "test" in x:
        return f"{x['test']}, else {x['otherwise']}: {x['reason']}"
    return f"{x['question']}  ->  {x['answer']}"
