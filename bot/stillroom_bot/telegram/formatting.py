"""A reply as Telegram shows it: the headline in bold, the rest below, in pieces that fit a message."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape

from ..reply import Reply

LONGEST = 4096
"""Length of a message's text after parsing (Bot API, sendMessage), counted in UTF-16 units to be safe."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Lines for one message; ``bold`` of them, from the first, are the headline."""

    lines: tuple[str, ...]
    bold: int = 0

    @property
    def html(self) -> str:
        """For the HTML parse mode; everything that was not written here is escaped."""
        safe = [escape(line, quote=False) for line in self.lines]
        return "\n".join([*(f"<b>{x}</b>" if x.strip() else x for x in safe[:self.bold]), *safe[self.bold:]])

    @property
    def plain(self) -> str:
        """The same without markup."""
        return "\n".join(self.lines)


def pieces(reply: Reply) -> list[Piece]:
    """The messages that show a reply: one, unless it is longer than a message may be."""
    head = _fitting(reply.headline)
    lines = [*head, *_fitting("\n".join(reply.body))] if reply.body else head
    made: list[Piece] = []
    start = 0
    while start < len(lines):
        end, size = start + 1, units(lines[start])
        while end < len(lines) and size + 1 + units(lines[end]) <= LONGEST:
            size += 1 + units(lines[end])
            end += 1
        made.append(Piece(tuple(lines[start:end]), max(0, min(len(head), end) - start)))
        start = end
    return [p for p in made if p.plain.strip()] or [Piece(("…",))]


def units(text: str) -> int:
    """Length in UTF-16 code units."""
    return len(text) if text.isascii() else len(text.encode("utf-16-le", "surrogatepass")) // 2


def _fitting(text: str) -> list[str]:
    return [part for line in text.split("\n") for part in (_cut(line) if units(line) > LONGEST else [line])]


def _cut(line: str) -> Iterator[str]:
    """A line that is too long for any message, cut at spaces where there are some."""
    while units(line) > LONGEST:
        end = LONGEST // 2 if units(line[:LONGEST]) > LONGEST else LONGEST
        end = line.rfind(" ", end // 2, end) + 1 or end
        yield line[:end].rstrip()
        line = line[end:]
    yield line
