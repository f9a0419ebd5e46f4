"""What ``it`` is whose time is asked for: a kept spec, or what the last answer was about; and its times."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stillroom import Answer, Kernel
from stillroom.declare import Row
from stillroom.model import Model

from ..board.following import spec_meant
from ..board.plan_times import rest_of
from ..board.spec import KeptSpec
from ..context import recall
from ..paper.filling import Made, made_of_answer
from ..paper.keeping import Keeping, keeping_of, keeping_of_spec, keeping_rows, row_for, shortest
from .offering import times_of

if TYPE_CHECKING:
    from ..intents import Talk

THAT = frozenset("it that this them they those".split())
STANDS = frozenset("rest rests stand stands sit wait steep steeping leave".split())
KEEPS = frozenset("keep keeps life lasts last left".split())
"""Words of a variable that is a time to wait for before a thing is used, and of one that is how long it is good."""


@dataclass(frozen=True, slots=True)
class Wait:
    """A time in seconds under the ``name`` that a calculator has for it, and who says so."""

    name: str
    seconds: float
    source: str = ""


@dataclass(frozen=True, slots=True)
class Subject:
    """What is asked about: its ``name``, what it waits for and how long it keeps, where that is known.

    ``spec`` is the kept spec that it is; ``calculator`` the one that told its times.
    """

    name: str
    ready: Wait | None = None
    keeps: Wait | None = None
    caution: str = ""
    spec: KeptSpec | None = None
    calculator: str | None = None


def subject_of(talk: Talk, it: str) -> Subject | None:
    """The kept spec of a name, or what the last answer was about where that is meant."""
    plain = re.sub(r"^(?:the|our|my|this|that)\s+", "", it.casefold())
    spec = talk.spec(it)
    if spec is not None:
        return _of_spec(talk, spec)
    if dict((talk.state.open or {}).get("request") or {}).get("given"):
        return None
    if plain in THAT:
        last = spec_meant(talk.state, talk.kernel)
        return _of_spec(talk, last) if last else _of_answer(talk, "")
    return _of_answer(talk, plain) if it.casefold() != plain else None


def _of_spec(talk: Talk, spec: KeptSpec) -> Subject:
    seconds, source = rest_of(talk.kernel, spec)
    keeping = keeping_of_spec(talk.kernel, talk.book, spec)
    return Subject(spec.name, Wait("rests", seconds, source) if seconds else None, *_kept(keeping), spec)


def _kept(keeping: Keeping | None) -> tuple[Wait | None, str]:
    return (Wait("life", keeping.seconds, keeping.source), keeping.caution) if keeping else (None, "")


def _of_answer(talk: Talk, called: str) -> Subject | None:
    """What the last answer was about, which may be ``called`` by words of its job: ``the oleo``, ``the foam``."""
    context = recall(talk.state.last, talk.kernel)
    if context is None:
        return None
    model = talk.kernel.models[context.request.calculator]
    own = model.calculator
    words = set(re.findall(r"\w+", f"{own.title} {own.words} {own.only}".casefold()))
    if not set(called.split()) <= words:
        return None
    answer = talk.kernel.answer(context.request)
    if answer.status != "answered":
        return None
    ready, keeps = waits_of(talk.kernel, model, answer)
    if keeps is not None:
        return Subject(_headed(called or own.title), ready, keeps, calculator=model.id)
    made = made_of_answer(talk.kernel, context.request, answer)
    row = row_for(talk.kernel, made.name) if made.name else None
    other = row_for(talk.kernel, called) if called else None
    if other is not None and other is not row:
        return None
    within = _within(talk, made, words | _said_of(model, answer))
    keeping = keeping_of(talk.kernel, row) if row else shortest(talk.kernel, within)
    if keeping is None and (row := _chosen(talk.kernel, model, answer)) is not None:
        keeping = keeping_of(talk.kernel, row)
    name = made.name or (keeping.thing if keeping else "") or own.title
    return Subject(_headed(name), ready, *_kept(keeping), None, model.id)


def _chosen(kernel: Kernel, model: Model, answer: Answer) -> Row | None:
    """What keeps by the very name of a row that was chosen, where the job is about that: the rich syrup of a syrup."""
    title = set(model.calculator.title.casefold().split())
    names = (w for c, r in answer.rows.items() if c in model.choices for w in model.choices[c].rows[r].words)
    return next((row for w in names if title & set(w.split()[1:]) and (row := row_for(kernel, w)) is not None), None)


def _headed(name: str) -> str:
    return name[:1].upper() + name[1:]


def _said_of(model: Model, answer: Answer) -> set[str]:
    """Words of what a job reckons with, and of the rows that were chosen in it."""
    rows = (row.words for c, r in answer.rows.items() if c in model.choices and (row := model.choices[c].rows.get(r)))
    words = (*(w for v in model.variables.values() for w in (v.title, *v.words)), *(w for row in rows for w in row))
    return {w for said in words for w in said.casefold().split()}


def _within(talk: Talk, made: Made, words: set[str]) -> list[str]:
    """What a question named that its job is about, and what it put together: what keeps shortest sets the time."""
    ids = (talk.state.last or {}).get("named") or ()
    named = [r for r in keeping_rows(talk.kernel) if r.id in ids and _about(r, words)]
    return [*(r.words[0] for r in named), *(made.leaves if made.whole else ())]


def _about(row: Row, words: set[str]) -> bool:
    return any(set(w.casefold().split()) <= words for w in row.words)


def waits_of(kernel: Kernel, model: Model, answer: Answer) -> tuple[Wait | None, Wait | None]:
    """How long what an answer is about stands before it is ready, and how long it keeps, as its calculator has it."""
    found: dict[frozenset[str], Wait] = {}
    values = {v.name: v for v in (*answer.values, *answer.answer)}
    for name in times_of(kernel, model):
        own, value = model.variables[name], values.get(name)
        words_of_it = frozenset(w for words in (name, own.title, *own.words) for w in words.casefold().split())
        kind = next((k for k in (KEEPS, STANDS) if words_of_it & k), None)
        default = own.default if isinstance(own.default, (int, float)) else None
        if kind is None or kind in found or (value is None and default is None):
            continue
        seconds = value.base if value is not None else model.unit[name].to_base(default or 0.0)
        said = {"given": "as you said", "found": ""}
        found[kind] = Wait(name, seconds, said.get(value.origin, own.note) if value is not None else own.note)
    return found.get(STANDS), found.get(KEEPS)
