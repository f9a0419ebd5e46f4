"""The board's desk: what is said of the book is done to it, and everything else is left alone.

``hear`` takes the messages that keep, show, change, copy, rename and delete specs; ``question`` those that
reckon with one.  Both are functions of the message and the chat's state, and give a reply and the new state.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

from stillroom import Kernel
from stillroom.errors import RequestError

from .. import phrasing
from ..reading.lexicon import common_words
from ..reading.reader import Reader
from ..reading.tokens import stem
from ..refusing import Refusals
from ..reply import Reply
from ..settings import sizes_of
from ..state import State
from . import showing
from .book import Book
from .drafts import SHARE, Drafting
from .expand import cycle, users
from .following import looking_at, shown_in
from .lines import LineReader
from .names import Mention, mentions
from .spec import KeptSpec

KEEP, DROP = "keep it", "drop it"
Heard = tuple[Reply, State] | None


@dataclass(frozen=True, slots=True)
class Tools:
    """What the board's rooms share: the kernel, the readers, the clock."""

    kernel: Kernel
    reader: Reader
    lines: LineReader
    drafting: Drafting
    clock: Callable[[], datetime]
    refusals: Refusals

    def refuse(self, text: str) -> str:
        """Why no spec with this in it is kept; nothing where one may be."""
        return self.refusals.reason(self.reader.take_apart(text).tokens) or ""

    def means(self, word: str) -> bool:
        """Does a word mean something to a calculator, a unit or a substance?"""
        return self.reader.lexicon.known(stem(word))

    def known(self, word: str) -> bool:
        """Does the vocabulary, or plain English, know a word?"""
        return (
            stem(word) in self.reader.lexicon.vocabulary
            or word in common_words()
            or stem(word) in common_words()
            or self.reader.lexicon.known(stem(word))
        )

    def mentions(self, book: Book, text: str) -> list[Mention]:
        """The kept names in a text."""
        return mentions(book, text, self.known)


def tools_of(kernel: Kernel, reader: Reader, clock: Callable[[], datetime], refusals: Refusals) -> Tools:
    """The tools of one conversation."""
    lines = LineReader(reader)
    return Tools(kernel, reader, lines, Drafting(lines), clock, refusals)


@dataclass(frozen=True, slots=True)
class Said:
    """A message to the board, with the state it was said in."""

    text: str
    state: State
    tools: Tools

    @property
    def book(self) -> Book:
        """The chat's book."""
        return self.state.book

    @property
    def units(self) -> Any:
        """The units, with the chat's own sizes."""
        return self.tools.kernel.units.adjusted(sizes_of(self.state.settings))

    def noted(self, headline: str, *body: str, buttons: tuple[str, ...] = ()) -> Reply:
        """A reply that something was done or is so."""
        return Reply("noted", self.text, headline, tuple(body), buttons)

    def declined(self, headline: str, *body: str) -> tuple[Reply, State]:
        """A reply that something cannot be done; nothing is changed."""
        return Reply("declined", self.text, headline, tuple(body)), self.state

    def stamp(self) -> str:
        """Now, as a version keeps it."""
        now = self.state.here.now or self.tools.clock()
        return now.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")

    def kept(self, specs: list[KeptSpec], change: str, headline: str, *body: str) -> tuple[Reply, State]:
        """The book with these versions, the reply, and how it is undone."""
        book = self.book
        undo = []
        for spec in specs:
            book = book.put(spec, self.state.here.who, self.stamp(), change)
            undo.append(spec.id or max(book.latest))
        board = {**self.board(), "undo": undo}
        if len(undo) == 1:
            board |= looking_at(self.state, undo[0])
        board.pop("draft", None)
        return self.noted(headline, *body), self.state.but(book=book, board=board, open=None)

    def board(self) -> dict[str, Any]:
        """What the board is in the middle of."""
        return dict(self.state.board or {})

    def shown(self) -> KeptSpec | None:
        """The spec that was shown or changed last, if nothing else was answered since."""
        return shown_in(self.state)

    def draft(self) -> KeptSpec | None:
        """The spec that waits for a yes."""
        data = (self.state.board or {}).get("draft")
        try:
            return KeptSpec.from_json(data) if isinstance(data, Mapping) else None
        except RequestError:
            return None


def read_back(said: Said, spec: KeptSpec, taken: Sequence[str] = ()) -> tuple[Reply, State]:
    """A spec as it was understood, to be kept or dropped; one that cannot be kept is refused.

    ``taken`` is what was taken for granted in reading it.
    """
    units = said.tools.kernel.units
    old = said.book.latest.get(spec.id) if spec.id else said.book.named(spec.name)
    if old is not None and not old.gone:
        spec = spec.but(id=old.id)
        if old.says_as(spec):
            return said.noted(f"{spec.name} is kept already, just so."), said.state
    circle = cycle(said.book, spec)
    if circle:
        return said.declined(f"A spec cannot hold itself: {' → '.join(circle)}.")
    body = showing.body(spec, said.tools.kernel, said.book)
    if old is not None and not old.gone:
        body.append(
            f"This changes version {old.version}: {'; '.join(showing.differences(old, spec, units)) or 'nothing'}."
        )
    body += [f"Taken for granted: {'; '.join(taken)}."] if taken else []
    body += [f"“{step}” stays a note: say “{spec.name} makes 800 ml” (whatever it makes) and I reckon with it."
             for step in spec.method if SHARE.match(step) and spec.makes is None]
    unsure = [x.thing for x in spec.lines if x.substance is None and said.book.named(x.thing) is None]
    if unsure:
        body.append(
            f"I know nothing of {', '.join(unsure)}: I shall ask for its strength, sugar or acid where they matter."
        )
    choices = (KEEP, DROP)
    reply = Reply(
        "asks",
        said.text,
        f"{spec.name}, as I read it. Keep it?",
        tuple(body),
        choices,
        data={"asks": {"missing": ["confirmation"], "choices": list(choices)}},
    )
    board = {**said.board(), "draft": spec.to_json()}
    return reply, said.state.but(board=board)


def keep_draft(said: Said, spec: KeptSpec) -> tuple[Reply, State]:
    """Keep what was read back."""
    old = said.book.latest.get(spec.id) if spec.id else said.book.named(spec.name)
    if old is not None and not old.gone:
        if old.says_as(spec):
            board = said.board()
            board.pop("draft", None)
            return said.noted(f"{spec.name} is kept already, just so."), said.state.but(board=board or None)
        spec = spec.but(id=old.id)
    circle = cycle(said.book, spec)
    if circle:
        return said.declined(f"A spec cannot hold itself: {' → '.join(circle)}.")
    version = old.version + 1 if old is not None else 1
    told = (
        "; ".join(showing.differences(old, spec, said.tools.kernel.units))
        if old is not None and not old.gone
        else "kept"
    )
    return said.kept(
        [spec],
        told,
        f"Kept: {spec.name}, version {version}.",
        f"Ask for “forty of the {spec.name}”, its strength, its cost; “undo” takes it back.",
    )


def deleted(said: Said, specs: list[KeptSpec]) -> tuple[Reply, State]:
    """Delete specs; their versions stay, so that they can be brought back."""
    gone = {s.id for s in specs}
    warn = []
    for spec in specs:
        using = [s.name for s in users(said.book, spec) if s.id not in gone]
        if using:
            warn.append(f"{', '.join(using)} still name{'s' if len(using) == 1 else ''} "
                        f"{'it' if len(specs) == 1 else spec.name} as a line.")
    names = ", ".join(s.name for s in specs)
    them = "it" if len(specs) == 1 else "them"
    return said.kept([s.but(gone=True) for s in specs], "deleted", f"Deleted: {names}.", *warn,
                     f"“undo” brings {them} back.")


def renamed(said: Said, spec: KeptSpec, name: str) -> tuple[Reply, State]:
    """Give a spec another name, also where others name it."""
    other = said.book.named(name)
    if other is not None and other.id != spec.id:
        return said.declined(f"There is a {other.name} already: delete or rename that one first.")
    changed = [spec.but(name=name)]
    for user in users(said.book, spec):
        lines = tuple(replace(x, thing=name) if said.book.named(x.thing) is spec else x for x in user.lines)
        changed.append(user.but(lines=lines))
    circle = next((c for s in changed if (c := cycle(_with(said.book, changed), s))), ())
    if circle:
        return said.declined(f"A spec cannot hold itself: {' → '.join(circle)}.")
    also = [f"Changed with it: {', '.join(s.name for s in changed[1:])}."] if changed[1:] else []
    return said.kept(changed, f"renamed from {spec.name}", f"{spec.name} is called {name} now.", *also)


def _with(book: Book, specs: list[KeptSpec]) -> Book:
    for spec in specs:
        book = book.put(spec)
    return book


def undone(said: Said) -> tuple[Reply, State] | None:
    """Take back the last change of the book; None where there is none."""
    ids = [i for i in said.board().get("undo", ()) if i in said.book.latest]
    if not ids:
        return None
    specs = []
    for id in ids:
        versions = said.book.of(id)
        specs.append(versions[-2].but() if len(versions) > 1 else versions[-1].but(gone=True))
    book = said.book
    for spec in specs:
        clash = book.named(spec.name)
        if not spec.gone and clash is not None and clash.id != spec.id:
            return said.declined(f"There is another {clash.name} by now: rename or delete that one first.")
        book = book.put(spec, said.state.here.who, said.stamp(), "undone")
    told = ", ".join(f"{s.name} {'is gone again' if s.gone else 'is as it was before'}" for s in specs)
    return said.noted(f"Undone: {told}."), said.state.but(book=book, board={**said.board(), "undo": ids})


def picked_name(said: Said, text: str, near: tuple[KeptSpec, ...]) -> tuple[Reply, State]:
    """No spec has that name exactly: those that are near."""
    if not near:
        return said.declined(f"I keep no spec called {text.strip()}.", "Say “specs” for those I keep.")
    names = [s.name for s in near]
    return phrasing.asks(said.text, None, f"Which is meant: {' or '.join(names)}?", ["name"], names), said.state
