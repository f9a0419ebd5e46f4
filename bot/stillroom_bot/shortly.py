"""Answers of a word or two: a row by its name alone (``size: pint``, ``us ones``), a vessel without its size."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from stillroom import Request
from stillroom.model import Model
from stillroom.units import Units

from .choosing import AROUND, short
from .context import Context
from .reading.candidate import VOLUME
from .reading.tokens import tokens_of

LONGEST = 6
ONES = frozenset({"one", "ones"})
OPENING = frozenset("and what about how for in so ok okay then now make".split())
AFTER = frozenset("then now please instead again".split())
FULL = frozenset("full whole".split())


def row_said(text: str, context: Context, model: Model) -> Request | None:
    """The request with the row that a message names and does nothing else: of a choice that was asked for, or of
    one that was made (``us ones``, ``the quart one``) where the message points at it."""
    words = [t.text for t in tokens_of(text) if t.kind != "mark"] if short(text, LONGEST) else []
    if not words or len(words) > LONGEST:
        return None
    choices = [c for c in context.missing if c in model.choices] if context.open else []
    if not ONES.isdisjoint(words):
        choices = [*model.choices]
    elif not choices and words[0] in OPENING:
        return _like_before(words, context.request, model)
    found = {(c, row) for c in choices for row in _rows(_bare(words, model, c), model, c)}
    if len(found) != 1:
        return None
    choice, row = found.pop()
    return _with_row(context.request, model, choice, row)


def _like_before(words: list[str], old: Request, model: Model) -> Request | None:
    """``and orange?`` after lime juice: the row that is called as the one before, but for its first word."""
    said = tuple(w for w in words if w not in OPENING | AFTER)
    if any(" ".join(said) in row.words for c in model.choices.values() for row in c.rows.values()):
        return None
    found = {
        (choice, r)
        for choice, row in old.choices.items()
        for r, other in model.choices[choice].rows.items()
        if said and (rest := tuple(model.choices[choice].rows[row].words[0].split()[1:]))
        and " ".join((*said, *rest)) in other.words
    }
    return _with_row(old, model, *found.pop()) if len(found) == 1 else None


def _with_row(old: Request, model: Model, choice: str, row: str) -> Request | None:
    if old.choices.get(choice) == row:
        return None
    filled = set(model.choices[choice].fills)
    return replace(
        old,
        choices={**old.choices, choice: row},
        given={n: a for n, a in old.given.items() if n not in filled},
    )


def _bare(words: list[str], model: Model, choice: str) -> tuple[str, ...]:
    """The words that are left when the choice's own name and the words around are taken away."""
    own = {w for label in (model.choices[choice].title, *model.choices[choice].words) for w in label.split()}
    return tuple(w for w in words if w not in (AROUND | ONES | OPENING | AFTER) - {"a"} and w not in own)


def _rows(said: tuple[str, ...], model: Model, choice: str) -> Iterator[str]:
    """The rows that are called so, or the one of whose name it is the first word."""
    rows = model.choices[choice].rows
    called = [r for r, row in rows.items() if " ".join(said) in row.words]
    first = [r for r, row in rows.items() if said and tuple(row.words[0].split()[: len(said)]) == said]
    yield from called or first


def vessel_said(text: str, context: Context, model: Model, units: Units) -> Request | None:
    """``And a bottle?``: the request without the volume that a vessel of another size takes the place of."""
    words = [t.text for t in tokens_of(text) if t.kind != "mark"]
    while words and words[0] in OPENING | {"of"}:
        words.pop(0)
    while words and words[-1] in AFTER:
        words.pop()
    if context.open or len(words) not in (2, 3) or words[0] not in ("a", "an") or words[1:-1] not in ([], *_FULLS):
        return None
    old = context.request
    for name, a in old.given.items():
        poured = units[a.unit].dimension == VOLUME
        if poured and words[-1] in model.variables[name].words:
            return replace(old, given={n: x for n, x in old.given.items() if n != name})
    return None


_FULLS = [[w] for w in sorted(FULL)]
