"""Things of a written spec in their right spelling: a kept spec of nearly that name, or the words of a known thing."""

from __future__ import annotations

import re
from dataclasses import replace

from stillroom import Line

from .book import Book
from .desk import Tools
from .names import named, one_slip
from .spec import KeptSpec

WORD = re.compile(r"[^\W\d_]+")
SHORTEST = 4


def spelt(spec: KeptSpec, book: Book, tools: Tools) -> tuple[KeptSpec, list[str]]:
    """The spec with its things spelt right, and what was taken for what, to be read back."""
    lines: list[Line] = []
    told = []
    for line in spec.lines:
        thing = _spelt(line, spec, book, tools)
        if thing != line.thing and thing.casefold() not in {x.thing.casefold() for x in (*spec.lines, *lines)}:
            told.append(f"“{line.thing}” is taken for {thing}")
            line = replace(line, thing=thing, substance=tools.lines.substance(thing))
        lines.append(line)
    return spec.but(lines=tuple(lines)), told


def _spelt(line: Line, spec: KeptSpec, book: Book, tools: Tools) -> str:
    """The thing of a line as it is written right; as it stands where nobody knows better."""
    thing = line.thing
    if book.named(thing) is not None:
        return thing
    if line.substance is None:
        near, _ = named(book, thing)
        if near is not None and near.id != spec.id and near.name.casefold() != spec.name.casefold():
            return near.name
    mended = WORD.sub(lambda w: _mended(w.group(), tools), thing)
    kept = book.named(mended)
    if kept is not None and kept.name.casefold() != spec.name.casefold():
        return kept.name
    return mended if mended != thing and tools.lines.substance(mended) is not None else thing


def _mended(word: str, tools: Tools) -> str:
    """A word that nobody knows, as the one word that it must be: ``lmie`` for lime."""
    small = word.casefold()
    if tools.known(small):
        return word
    mended = tools.reader.speller.mend(small)
    if mended is not None or len(small) < SHORTEST:
        return mended or word
    near = {w for w in _words(tools) if w[0] == small[0] and one_slip(w, small)}
    return near.pop() if len(near) == 1 else word


def _words(tools: Tools) -> frozenset[str]:
    """The words of all that a bar pours or weighs."""
    things = (w for s in tools.reader.kernel.substances.values() for name in s.words for w in name.casefold().split())
    return frozenset(w for w in things if len(w) >= SHORTEST - 1 and w.isalpha())
