"""What is in a kept spec, through the specs within it: allergens, whether it holds a thing, which specs hold one."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..reading.tokens import stem
from ..reply import Reply
from ..state import State
from .book import Book
from .desk import Heard, Said
from .expand import DEEPEST, substances_within
from .spec import KeptSpec

LABELS = ("Beware: read the labels of what you bought; a table knows kinds of things, not bottles, and says nothing of "
          "traces.")
MEASURED = frozenset("alcohol ethanol sugar acid water ice strength abv".split())
"""What is told by how much of it there is, and not by whether there is a line of it."""
DIETS = re.compile(
    r"\b(?:vegan|vegetarian|halal|kosher|(?:gluten|nut|dairy|milk|egg|lactose|alcohol)[- ]free|pregnan\w*|allerg\w+|"
    r"coeliacs?|celiacs?)\b", re.I)


def things_within(book: Book, spec: KeptSpec, depth: int = 0) -> Iterator[tuple[str, str]]:
    """Every thing in a spec, with the name of the spec that it is a line of."""
    for line in spec.lines:
        yield line.thing, spec.name
        inner = book.named(line.thing)
        if inner is not None and depth < DEEPEST:
            yield from things_within(book, inner, depth + 1)


def allergens_of(said: Said, spec: KeptSpec) -> dict[str, list[str]]:
    """The allergens of a spec, each with the things that bring it."""
    rows: dict[str, list[str]] = {}
    for id, thing in substances_within(said.book, spec.lines).items():
        for allergen in str(said.tools.kernel.substances[id].values.get("allergens") or "").split(";"):
            if allergen.strip():
                rows.setdefault(allergen.strip(), []).append(thing)
    return rows


def told_allergens(said: Said, spec: KeptSpec) -> tuple[Reply, State]:
    """The allergens of a spec, what nobody knows of, and the caution."""
    rows = allergens_of(said, spec)
    unknown = unknown_within(said.book, spec)
    told = [f"• {a}: {', '.join(things)}" for a, things in sorted(rows.items())]
    more = [f"Not known to me: {', '.join(unknown)}."] if unknown else []
    head = f"{spec.name} contains {', '.join(sorted(rows))}." if rows else f"I know of no allergen in {spec.name}."
    return said.noted(head, *told, *more, LABELS), said.state


def unknown_within(book: Book, spec: KeptSpec, depth: int = 0) -> list[str]:
    """Things in a spec, and in the specs within it, that no table describes."""
    found: dict[str, None] = {}
    for line in spec.lines:
        inner = book.named(line.thing)
        if inner is not None and depth < DEEPEST:
            found.update(dict.fromkeys(unknown_within(book, inner, depth + 1)))
        elif line.substance is None:
            found[line.thing] = None
    return list(found)


def holds(said: Said, spec: KeptSpec, thing: str) -> Heard:
    """Is there any of a thing in a spec?  None for what is asked by how much."""
    words = _words(thing)
    if not words or words & MEASURED:
        return None
    if DIETS.search(thing):
        return suits(said, spec)
    found = _found(said, spec, words)
    head = f"Yes: {spec.name} has {', '.join(found)}." if found else f"No line of {spec.name} names {thing.strip()}."
    reply, state = told_allergens(said, spec)
    return said.noted(head, reply.headline, *reply.body), state


def suits(said: Said, spec: KeptSpec) -> Heard:
    """For whom a drink is good is a person's to say: what is in it, and what of that is an allergen."""
    things = dict.fromkeys(thing for thing, _ in things_within(said.book, spec) if said.book.named(thing) is None)
    reply, state = told_allergens(said, spec)
    head = f"That I cannot promise of {spec.name}: here is what is in it."
    return said.noted(head, f"It is made of {', '.join(things)}.", reply.headline, *reply.body), state


def that_hold(said: Said, thing: str) -> Heard:
    """The specs with a thing in them, by themselves or within another; None where the book is empty."""
    words = _words(thing)
    if not said.book.specs or not words:
        return None
    rows = [f"• {spec.name}: {', '.join(found)}" for spec in sorted(said.book.specs, key=lambda s: s.name.casefold())
            if (found := _found(said, spec, words))]
    count = f"{len(rows)} spec{'' if len(rows) == 1 else 's'}"
    head = f"{count} with {thing.strip()}:" if rows else f"No spec names {thing.strip()}."
    return said.noted(head, *rows, *([LABELS] if rows else [])), said.state


def _words(thing: str) -> set[str]:
    plain = re.sub(r"\b(?:any|some|the|a|an|our|of|in it|it|them)\b", " ", thing.casefold())
    return {stem(w) for w in re.findall(r"\w+", plain)}


def _found(said: Said, spec: KeptSpec, words: set[str]) -> list[str]:
    """The things in a spec that the words name, or that bring an allergen which they name."""
    found: dict[str, None] = {}
    for thing, where in things_within(said.book, spec):
        if words <= {stem(w) for w in re.findall(r"\w+", thing.casefold())}:
            found[thing if where == spec.name else f"{thing} (in {where})"] = None
    for id, thing in substances_within(said.book, spec.lines).items():
        if words <= said.tools.kernel.substances[id].kinds and not any(f.startswith(thing) for f in found):
            found[thing] = None
    for allergen, things in allergens_of(said, spec).items():
        if words <= {stem(w) for w in re.findall(r"\w+", allergen.casefold())}:
            found.update(dict.fromkeys(t for t in things if not any(f.startswith(t) for f in found)))
    return list(found)
