"""Questions by the line, answers by the line: each line in is one JSON object out, in order.

Nothing that stands on a line ends the reading: what cannot be taken as a question is declined.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from typing import BinaryIO, TextIO

from ..reply import Reply
from ..state import State
from ..talker import LONGEST, Talker, respond
from .ask import alone, bookish

LONGEST_LINE = 16 * LONGEST
"""Bytes of a line that are read: a question of greatest length, every character escaped, and some."""


class BadLine(ValueError):
    """A line that holds no question; the message is the sentence to answer with."""


def ask_lines(talker: Talker, lines: BinaryIO, out: TextIO) -> None:
    """Answer independent questions: plain lines, or JSON strings.  Each knows the book that the terminal's chat has."""
    before = bookish()

    def answer(line: str) -> Reply:
        return alone(talker, _as_string(line), before)

    _each(lines, out, answer)


def chat_lines(talker: Talker, lines: BinaryIO, out: TextIO) -> None:
    """Answer ``{"chat": "ID", "text": "..."}``; the lines of one chat share a conversation, kept in memory."""
    states: dict[str, State] = {}

    def answer(line: str) -> Reply:
        chat, text = _as_message(line)
        reply, states[chat] = respond(talker, text, states.get(chat))
        return reply

    _each(lines, out, answer)


def _each(lines: BinaryIO, out: TextIO, answer: Callable[[str], Reply]) -> None:
    for raw in _read(lines):
        try:
            line = _decoded(raw)
            text = _printed(answer(line))
        except BadLine as e:
            text = _printed(Reply("declined", raw[:LONGEST].decode("utf-8", "replace"), str(e)))
        out.write(text + "\n")
        out.flush()


def _read(lines: BinaryIO) -> Iterator[bytes]:
    """Lines without their ends; one that is too long comes cut, just longer than may be."""
    while raw := lines.readline(LONGEST_LINE + 2):
        rest = raw
        while not rest.endswith(b"\n") and len(rest) == LONGEST_LINE + 2:
            rest = lines.readline(LONGEST_LINE + 2)
        yield raw.rstrip(b"\r\n")


def _decoded(raw: bytes) -> str:
    if len(raw) > LONGEST_LINE:
        raise BadLine(f"That line is longer than {LONGEST_LINE} bytes.")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadLine("That line is not UTF-8 text.") from None


def _as_string(line: str) -> str:
    try:
        said = json.loads(line)
    except (ValueError, RecursionError):
        return line
    return said if isinstance(said, str) else line


def _as_message(line: str) -> tuple[str, str]:
    try:
        said = json.loads(line)
    except (ValueError, RecursionError):
        said = None
    if not isinstance(said, dict):
        raise BadLine('That line is no JSON object: I read {"chat": "ID", "text": "..."}.')
    chat, text = said.get("chat"), said.get("text")
    if isinstance(chat, int) and not isinstance(chat, bool):
        chat = str(chat)
    if not isinstance(chat, str) or not isinstance(text, str):
        raise BadLine('That object needs "chat" and "text", both as strings.')
    return chat, text


def _printed(reply: Reply) -> str:
    try:
        return json.dumps(reply.to_json(), allow_nan=False)
    except (ValueError, TypeError):
        return json.dumps(Reply("declined", reply.question, "That comes to no number that can be written.").to_json())
