"""The book by chat: given out as files, taken in from a text that was pasted."""

from __future__ import annotations

import json
import re
from dataclasses import replace

from ..reply import Attachment, Reply
from .desk import Heard, Said
from .files import BadFile, plain, read_file
from .schema import book_json
from .spec import KeptSpec

EXPORT = re.compile(
    r"(?:please\s+)?(?:(?:export|save|give me|send me|print)\s+(?:the|our|my)?\s*(?:whole\s+)?(?:book|specs)|export)"
    r"(?:\s+(?:as|in)\s+(?P<how>json|plain|text|plain text|a file))?",
    re.I,
)
DATA = re.compile(r"(?:please\s+)?(?:export|give me|send me|download)\s+(?:all\s+)?(?:of\s+)?(?:my|our)\s+data", re.I)
IMPORT = re.compile(
    r"^\s*(?:please\s+)?import(?:\s+(?:these|this|the|our|my))?(?:\s+(?:specs|book|spec|file))?\s*(?::?\s*\n|:\s*(?=\{))(?P<rest>.+)$",
    re.I | re.S,
)
NAMES = 20


def hear(said: Said) -> Heard:
    """``export the book``, ``export my data``, ``import:`` with the specs below it."""
    text = said.text.strip().rstrip(".!?")
    pasted = IMPORT.match(said.text)
    if pasted is not None:
        return taken_in(said, pasted["rest"], said.text[: pasted.start("rest")].count("\n"))
    if EXPORT.fullmatch(text):
        if not said.book.specs:
            return said.noted("No spec is kept here yet."), said.state
        files = (
            Attachment("book.json", "application/json", dumped(book_json(said.book))),
            Attachment("book.txt", "text/plain", plain(said.book, said.tools.kernel.units).encode()),
        )
        head = f"The book: {len(said.book.specs)} spec{'' if len(said.book.specs) == 1 else 's'}, as JSON and as text."
        return Reply("noted", said.text, head, attachments=files), said.state
    if DATA.fullmatch(text):
        data = {"state": said.state.to_json(), "book": said.book.to_json()}
        return Reply(
            "noted",
            said.text,
            "All that is kept of this chat, as JSON.",
            attachments=(Attachment("stillroom.json", "application/json", dumped(data)),),
        ), said.state.but(errand="export")
    return None


def dumped(data: object) -> bytes:
    """JSON as a file holds it."""
    return (json.dumps(data, ensure_ascii=False, indent=1) + "\n").encode()


def with_everything(reply: Reply, rows: object) -> Reply:
    """The reply that gives out a chat's data, with every row that a store keeps of it."""
    return replace(reply, attachments=(Attachment("stillroom.json", "application/json", dumped(rows)),))


def taken_in(said: Said, text: str, before: int) -> Heard:
    """Keep every spec of a file, or none: each problem is named by its line."""
    try:
        specs = read_file(text, said.tools.drafting, said.tools.kernel.units, said.book, before, said.tools.refuse)
    except BadFile as e:
        shown = [f"• {p}" for p in e.problems[:NAMES]]
        more = [f"… and {len(e.problems) - NAMES} more."] if len(e.problems) > NAMES else []
        return said.declined("Nothing is imported:", *shown, *more)
    new: list[KeptSpec] = []
    changed: list[KeptSpec] = []
    same: list[KeptSpec] = []
    for spec in specs:
        old = said.book.named(spec.name)
        (new if old is None else same if old.says_as(spec) else changed).append(
            spec if old is None else spec.but(id=old.id)
        )
    if not (new or changed):
        return said.noted("Every spec of that is kept already, just so."), said.state
    told = [
        f"{len(group)} {word}: {', '.join(s.name for s in group[:NAMES])}{', …' if len(group) > NAMES else ''}."
        for group, word in ((new, "new"), (changed, "changed"), (same, "the same already"))
        if group
    ]
    return said.kept(
        [*new, *changed],
        "imported",
        f"Imported: {len(new) + len(changed)} spec{'' if len(new) + len(changed) == 1 else 's'}.",
        *told,
        "“undo” takes all of it back.",
    )
