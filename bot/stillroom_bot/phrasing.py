"""Words for an answer: the number first, then what it rests on, what to beware of, and how it was read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from stillroom import Answer, Kernel, Request, Value
from stillroom.answering import say_number
from stillroom.declare import words_of

from .reply import Reply

SYMBOLS = {"count": "", "dimensionless": "", "currency": ""}
SCALE = 0.01
MOST_VALUES = 4
MOST_ASSUMPTIONS = 4
MOST_NAMED = 4


def say(value: Value, kernel: Kernel, request: Request | None = None, money: str = "") -> str:
    """A value as a person reads it: rounded, with the unit's usual symbol."""
    number = say_number(value.value)
    if value.unit == "currency":
        return f"{money}{value.value:,.2f}"
    if value.unit in ("dimensionless", "count"):
        return number
    asked = (request.units.get(value.name) if request else None) or ""
    symbol = kernel.units[asked].symbol if asked in kernel.units else ""
    if not symbol:
        name = value.unit
        own = kernel.models[request.calculator].variables.get(value.name) if request else None
        if name == "percent" and own is not None:
            name = own.show
        symbol = kernel.units[name].symbol or name.replace("_", " ")
    return f"{number} {symbol}".replace(" %", " %")


def answered(
    kernel: Kernel,
    question: str,
    request: Request,
    answer: Answer,
    ignored: Sequence[str] = (),
    notes: Sequence[str] = (),
    money: str = "",
    settings: Mapping[str, Any] | None = None,
) -> Reply:
    """The reply that gives a number."""
    cautions = [*answer.cautions, *_weighable(kernel, answer, request, float((settings or {}).get("scale", SCALE)))]
    model = kernel.models[request.calculator]

    def title(v: Value) -> str:
        own = model.variables.get(v.name)
        row = answer.rows.get(own.named_by[0]) if own and own.named_by else None
        if own is not None and own.named_by and row:
            chosen = model.choices[own.named_by[0]].rows[row]
            named = (
                chosen.words if own.named_by[1] == "words" else words_of(str(chosen.values.get(own.named_by[1]) or ""))
            )
            if named:
                return named[0]
        return own.title if own else v.name

    headline = "; ".join(f"{title(v)}: {say(v, kernel, request, money)}" for v in answer.answer[:6])
    body: list[str] = []
    shown = {v.name for v in answer.answer}
    found = [v for v in answer.values if v.origin == "found" and v.name not in shown]
    if found:
        body.append("Also: " + ", ".join(f"{title(v)} {say(v, kernel, None, money)}" for v in found[:MOST_VALUES]))
    body += answer.steps
    body += [f"Beware: {c}" for c in cautions]
    read = _as_read(kernel, request, answer, money)
    if read:
        body.append(f"Read as: {read}.")
    if answer.assumptions:
        body.append("Taken for granted: " + "; ".join(answer.assumptions[:MOST_ASSUMPTIONS]) + ".")
    if notes:
        body.append("; ".join(notes) + ".")
    if ignored:
        body.append("Not used: " + ", ".join(ignored) + ".")
    data: dict[str, Any] = {
        "answer": [v.to_json() for v in answer.answer],
        "values": [v.to_json() for v in answer.values],
        "assumptions": [*answer.assumptions, *notes],
        "cautions": cautions,
        "ignored": list(ignored),
        "steps": list(answer.steps),
        "sources": list(answer.sources),
    }
    return Reply("answered", question, headline, tuple(body), (), answer.working, request.calculator, data)


def _weighable(kernel: Kernel, answer: Answer, request: Request, step: float) -> list[str]:
    """A caution for a powder that is less than ten steps of the chat's scale, with a way out."""
    model = kernel.models[request.calculator]
    for v in answer.answer:
        own = model.variables.get(v.name)
        if (
            own is not None
            and own.state == "dry"
            and model.unit[v.name].dimension == kernel.units["gram"].dimension
            and 0 < v.base < 10 * step * (1 - 1e-9)
        ):
            return [
                f"{say_number(v.base)} g is less than ten steps of a scale that reads {step:g} g: "
                f"weigh a larger batch, or make a stock solution and measure that."
            ]
    return []


def _as_read(kernel: Kernel, request: Request, answer: Answer, money: str) -> str:
    model = kernel.models[request.calculator]
    parts = [
        f"{model.choices[c].title} {model.choices[c].rows[r].words[0]}"
        for c, r in answer.rows.items()
        if c in request.choices
    ]
    for name, a in request.given.items():
        said = a.said or f"{a.value:g} {kernel.units[a.unit].symbol}".strip()
        parts.append(f"{model.variables[name].title} {said}")
    parts += [f"{x.thing} {x.amount.said}" for x in request.spec if x.amount]
    return f"{model.calculator.title.lower()}; " + ", ".join(parts) if parts else model.calculator.title.lower()


def asks(
    question: str,
    calculator: str | None,
    text: str,
    missing: Sequence[str],
    choices: Sequence[str] = (),
    cautions: Sequence[str] = (),
    understood: str = "",
) -> Reply:
    """The question back, with at most four choices."""
    choices = tuple(choices)[:4]
    body = [f"So far: {understood}."] if understood else []
    if choices:
        body.append("Say " + " or ".join(choices) + ".")
    return Reply(
        "asks",
        question,
        text,
        tuple(body),
        choices,
        (),
        calculator,
        {"asks": {"missing": list(missing), "choices": list(choices)}, "cautions": list(cautions)},
    )


def declined(
    question: str, text: str, calculator: str | None = None, near: Sequence[str] = (), cautions: Sequence[str] = ()
) -> Reply:
    """The refusal: why, and what could be asked instead."""
    body = ["You could ask: " + " / ".join(near)] if near else []
    return Reply("declined", question, text, tuple(body), (), (), calculator, {"cautions": list(cautions)})


def noted(question: str, text: str) -> Reply:
    """A setting was changed, or small talk."""
    return Reply("noted", question, text)


def understood(kernel: Kernel, request: Request, answer: Answer, money: str = "") -> str:
    """What was read so far, for a question back."""
    return _as_read(kernel, request, answer, money)


def missing_text(kernel: Kernel, request: Request, answer: Answer) -> tuple[str, list[str]]:
    """A question for what is missing, and the names of what would do."""
    model = kernel.models[request.calculator]

    def title(name: str) -> str:
        part = model.variables.get(name) or model.choices.get(name)
        return part.title if part else name.replace("_", " ")

    names = list(dict.fromkeys(n for s in answer.missing for n in s))
    options = [" and ".join(title(n) for n in s) for s in answer.missing[:4]]
    wanted = ", ".join(title(w) for w in request.wanted) or "that"
    if not options:
        return f"What else is known? I cannot find {wanted} from this.", [wanted]
    words = [w for n in names for w in (title(n), *_unit_words(kernel, request.calculator, n))]
    if len(names) == 1 and 1 < len(answer.choices) <= MOST_NAMED:
        return f"Is it {', '.join(answer.choices[:-1])} or {answer.choices[-1]}?", words
    if len(options) == 1:
        return f"What is the {options[0]}?", words
    if not request.wanted:
        return "Tell me one more: " + ", or ".join(f"the {o}" for o in options) + ".", words
    return f"To find {wanted}: what is the {options[0]}" + "".join(f", or the {o}" for o in options[1:]) + "?", words


def _unit_words(kernel: Kernel, calculator: str, name: str) -> list[str]:
    model = kernel.models[calculator]
    v = model.variables.get(name)
    return (
        [*v.words[:3], kernel.units[v.show].symbol]
        if v
        else list(model.choices[name].words[:3])
        if name in model.choices
        else []
    )
