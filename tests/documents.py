"""The fenced blocks of a Markdown file, and what the commands in them print now."""

from __future__ import annotations

import asyncio
import contextlib
import io
import os
import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from tempfile import mkdtemp
from types import ModuleType
from typing import Any

from stillroom import Kernel
from stillroom_bot import cli
from stillroom_bot.board import Book
from stillroom_bot.conversation import Conversation
from stillroom_bot.reply import Reply
from stillroom_bot.state import State
from stillroom_bot.store import open_store
from stillroom_bot.talker import respond, working
from stillroom_bot.terminal.ask import shown
from stillroom_bot.terminal.book import KEY

ROOT = Path(__file__).resolve().parents[1]
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.M | re.S)


@dataclass(frozen=True)
class Block:
    """A fenced block: its language, its text, and where the text stands."""

    language: str
    text: str
    start: int
    end: int


def blocks(markdown: str, *languages: str) -> list[Block]:
    """The blocks of some languages, in order; all of them if none is named."""
    found = [Block(m[1], m[2], m.start(2), m.end(2)) for m in FENCE.finditer(markdown)]
    return [b for b in found if not languages or b.language in languages]


@dataclass(frozen=True)
class Turn:
    """What was typed, on the command line (``$``) or in a chat (``>``), and what came of it."""

    prompt: str
    typed: str
    printed: str


def turns(block: Block) -> list[Turn]:
    """The turns of a transcript."""
    found: list[Turn] = []
    for line in block.text.splitlines():
        if line[:2] in ("$ ", "> "):
            found.append(Turn(line[0], line[2:], ""))
        else:
            found[-1] = replace(found[-1], printed=found[-1].printed + line + "\n")
    return found


class Session:
    """Runs transcripts in process, with a cache of its own."""

    def __init__(self) -> None:
        self.kernel = Kernel(Path(mkdtemp(prefix="stillroom-docs-")))
        self.data = mkdtemp(prefix="stillroom-docs-")
        self.replies: dict[str, Reply] = {}

    @cached_property
    def talk(self) -> Conversation:
        return Conversation(self.kernel)

    def plug(self, name: str, entry: str, python: str) -> Any:
        """Load a plugin from its code and the value of its entry point (``module:object`` or ``module``)."""
        module, _, attribute = entry.partition(":")
        made = ModuleType(module)
        exec(compile(python, f"{module}.py", "exec"), made.__dict__)
        plugin = self.kernel.add(name, getattr(made, attribute) if attribute else made)
        self.__dict__.pop("talk", None)
        return plugin

    def run(self, block: Block) -> str:
        """The transcript as it would be now."""
        lines: list[str] = []
        state = State()
        asked = ("", state)
        for turn in turns(block):
            lines.append(f"{turn.prompt} {turn.typed}\n")
            if turn.prompt == "$":
                printed = "" if turn.typed == "stillroom chat" else self._command(turn.typed)
                lines.append(printed)
                state = State(book=self._book())
            elif turn.typed == "/why":
                lines.append(working(self.talk, *asked) + "\n")
            else:
                asked = (turn.typed, state)
                reply, state = respond(self.talk, turn.typed, state)
                self.replies[turn.typed] = reply
                lines.append(shown(reply) + "\n")
        return "".join(lines)

    @contextlib.contextmanager
    def _at_home(self) -> Iterator[None]:
        """In the clone's folder, with a data folder of this session's own."""
        before, folder = dict(os.environ), Path.cwd()
        os.environ.pop("STILLROOM_DATABASE", None)
        os.environ["STILLROOM_DATA"] = self.data
        os.chdir(ROOT)
        try:
            yield
        finally:
            os.chdir(folder)
            os.environ.clear()
            os.environ.update(before)

    def _book(self) -> Book:
        """What the terminal's chat keeps."""
        file = Path(self.data) / "stillroom.sqlite3"

        async def read() -> Book:
            async with open_store(f"sqlite:///{file}") as store:
                return (await store.books.get(KEY)).book

        return asyncio.run(read()) if file.exists() else Book()

    def _command(self, typed: str) -> str:
        program, *arguments = shlex.split(typed)
        assert program == "stillroom", typed
        out = io.StringIO()
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(out), self._at_home():
            cli.main(arguments, lambda: self.talk)
        if arguments[0] == "ask":
            question = next(a for a in arguments[1:] if not a.startswith("-"))
            self.replies[question] = respond(self.talk, question)[0]
        return out.getvalue()
