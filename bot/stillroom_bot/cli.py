"""The command ``stillroom``: reading the command line and handing over to the command's own module.

    stillroom ask how much salt for 250 ml of 20% saline
    stillroom chat

Exit status: 0 answered or noted, 1 asked back, 2 declined (or nothing by that name), 64 the command
line is wrong, 69 something that is needed cannot be used, 130 interrupted.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from stillroom import Kernel

    from .talker import Talker

USAGE, UNAVAILABLE, PIPE, INTERRUPTED = 64, 69, 141, 130
TOKEN = "STILLROOM_TELEGRAM_TOKEN"


class Parser(argparse.ArgumentParser):
    """An argument parser that says what is wrong in a sentence and exits with 64."""

    def error(self, message: str) -> NoReturn:
        self.exit(USAGE, f"{self.prog}: {message}.\nTry {self.prog} --help.\n")


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    whole = Parser("stillroom", description="Measures for people who design and serve drinks.", allow_abbrev=False)
    whole.add_argument("--version", action="store_true", help="print the version")
    commands = whole.add_subparsers(dest="command", metavar="COMMAND", parser_class=Parser)

    ask = commands.add_parser("ask", help="answer one question", allow_abbrev=False)
    ask.add_argument("question", nargs="*", metavar="QUESTION", help="the question, quoted or not")
    ask.add_argument("--json", action="store_true", help="print the machine-readable answer")
    ask.add_argument("--why", action="store_true", help="print the working below the answer")
    ask.add_argument("--jsonl", action="store_true", help="answer one question a line from standard input")

    chat = commands.add_parser("chat", help="a conversation in the terminal", allow_abbrev=False)
    chat.add_argument("--fresh", action="store_true", help="neither take up nor keep the conversation")
    chat.add_argument("--jsonl", action="store_true", help='read {"chat": "ID", "text": "..."} a line')

    known = commands.add_parser("calculators", help="what can be asked", allow_abbrev=False)
    known.add_argument("name", nargs="?", metavar="NAME", help="one calculator in full")
    known.add_argument("--json", action="store_true", help="as JSON")
    known.add_argument("--schema", action="store_true", help="as JSON Schema, for programs that ask `stillroom solve`")

    commands.add_parser("solve", help="answer a request (JSON, a line each) from standard input", allow_abbrev=False)

    plugins = commands.add_parser("plugins", help="what was loaded, and what is wrong with it", allow_abbrev=False)
    plugins.add_argument("--json", action="store_true", help="as JSON")

    book = commands.add_parser("book", help="the specs that the terminal's chat keeps", allow_abbrev=False)
    book.add_argument("what", choices=("export", "import"), help="out to a new file, or in from one")
    book.add_argument("file", metavar="FILE", help="JSON if it ends so, else plain text; - is standard output")

    plugin = commands.add_parser("plugin", help="begin a plugin, or check one", allow_abbrev=False)
    doing = plugin.add_subparsers(dest="doing", metavar="new|check", required=True, parser_class=Parser)
    new = doing.add_parser("new", help="write a package that is ready to install and publish", allow_abbrev=False)
    new.add_argument("name", metavar="NAME", help="the plugin's name: lower case letters, digits and _")
    check = doing.add_parser("check", help="look a plugin over and say what to mend", allow_abbrev=False)
    check.add_argument("name", metavar="NAME", help="an installed plugin, a .py file, or a project's folder")
    check.add_argument("--json", action="store_true", help="as JSON")
    check.add_argument("--strict", action="store_true", help="let warnings count")
    check.add_argument("--seconds", type=float, default=30.0, help="how long one step may take (30)")

    copy = commands.add_parser("backup", help="copy the database into a new file, while it is used", allow_abbrev=False)
    copy.add_argument("file", metavar="FILE", help="the new file")

    commands.add_parser("doctor", help="what is wrong with this installation, and what to do", allow_abbrev=False)
    commands.add_parser("telegram", help=f"serve a Telegram bot whose token is in {TOKEN}", allow_abbrev=False)
    return whole


def kernel() -> Kernel:
    """The kernel with the installed plugins, those in the user's folder, the operator's policy and a cache.

    Raises Unavailable for a policy that cannot be read: what somebody switched off must not come on by a slip.
    """
    from stillroom import Kernel
    from stillroom.errors import PolicyError
    from stillroom.policy import FILE, Policy

    from .places import Unavailable, cache_dir, config_dir

    try:
        policy = Policy.read(config_dir() / FILE)
    except PolicyError as e:
        raise Unavailable(str(e)) from None
    return Kernel(cache_dir(), policy=policy, folder=config_dir() / "plugins")


def conversation() -> Talker:
    """A conversation over that kernel."""
    from .conversation import Conversation

    return Conversation(kernel())


def _ask(args: argparse.Namespace, make: Callable[[], Talker]) -> int:
    """One question, or a question a line; a process that answers one ends before anything is worth collecting."""
    if args.jsonl:
        if args.question or args.json or args.why:
            return _complain("ask --jsonl reads its questions from standard input and takes nothing else")
        from .terminal.jsonl import ask_lines

        ask_lines(make(), sys.stdin.buffer, sys.stdout)
        return 0
    question = " ".join(args.question)
    if not question.strip():
        return _complain("ask needs a question, or --jsonl to read them from standard input")
    gc.disable()
    from .terminal.ask import ask

    return ask(make(), question, args.json, args.why)


def _chat(args: argparse.Namespace, make: Callable[[], Talker]) -> int:
    if args.jsonl:
        from .terminal.jsonl import chat_lines

        chat_lines(make(), sys.stdin.buffer, sys.stdout)
        return 0
    from .terminal.chat import chat

    return chat(make(), args.fresh)


def _calculators(args: argparse.Namespace, _: Callable[[], Talker]) -> int:
    from .terminal.catalogue import catalogue

    status, text = catalogue(kernel(), args.name, args.json, args.schema)
    print(text, file=sys.stderr if status else sys.stdout)
    return status


def _solve(_: argparse.Namespace, __: Callable[[], Talker]) -> int:
    from .terminal.solving import solve_lines

    solve_lines(kernel(), sys.stdin.buffer, sys.stdout)
    return 0


def _plugins(args: argparse.Namespace, _: Callable[[], Talker]) -> int:
    from .terminal.loaded import loaded

    status, text = loaded(kernel(), args.json)
    print(text)
    return status


def _book(args: argparse.Namespace, _: Callable[[], Talker]) -> int:
    from .terminal.book import export_book, import_book

    status, text = (export_book if args.what == "export" else import_book)(kernel(), args.file)
    print(text, file=sys.stderr if status else sys.stdout)
    return status


def _backup(args: argparse.Namespace, _: Callable[[], Talker]) -> int:
    from pathlib import Path

    from .places import database_url
    from .store.backup import backup

    size = backup(database_url(), Path(args.file))
    print(f"The database is in {args.file} ({size:,} bytes).")
    return 0


def _plugin(args: argparse.Namespace, _: Callable[[], Talker]) -> int:
    if args.doing == "new":
        from pathlib import Path

        from .authoring.new import new_plugin

        status, text = new_plugin(args.name, Path.cwd())
    else:
        from .authoring.checking import check_plugin

        status, text = check_plugin(args.name, args.json, args.strict, args.seconds)
    print(text, file=sys.stderr if status > 1 else sys.stdout)
    return status


def _telegram(_: argparse.Namespace, make: Callable[[], Talker]) -> int:
    from .telegram.config import WrongSetting, setup

    try:
        how = setup()
    except WrongSetting as e:
        return _complain(str(e))
    if not how.token:
        return _complain(f"the bot's token has to stand in the environment variable {TOKEN}")
    from .telegram.serving import run

    return run(how, make)


def _doctor(_: argparse.Namespace, __: Callable[[], Talker]) -> int:
    from .terminal.doctor import doctor

    status, text = doctor(kernel)
    print(text)
    return status


COMMANDS = {
    "ask": _ask, "chat": _chat, "calculators": _calculators, "solve": _solve, "plugins": _plugins, "plugin": _plugin,
    "book": _book, "backup": _backup, "telegram": _telegram, "doctor": _doctor}


def main(argv: Sequence[str] | None = None, make: Callable[[], Talker] = conversation) -> int:
    """Run a command and return its exit status; ``make`` makes the conversation when it is needed."""
    whole = parser()
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        args, more = whole.parse_known_args(argv)
        if more and (args.command != "ask" or any(word.startswith("-") for word in more)):
            whole.error(f"{' '.join(more)} means nothing here; a question with dashes in it has to be quoted")
        if more:
            args.question += more
        if args.version:
            from importlib.metadata import version

            print(f"stillroom {version('stillroom')}")
            return 0
        if args.command is None:
            whole.print_help()
            return USAGE
        status = _run(args, make)
        sys.stdout.flush()
        return status
    except SystemExit as e:
        return e.code if isinstance(e.code, int) else USAGE
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return PIPE
    except KeyboardInterrupt:
        return INTERRUPTED


def _run(args: argparse.Namespace, make: Callable[[], Talker]) -> int:
    from .places import Unavailable

    try:
        return COMMANDS[args.command](args, make)
    except Unavailable as e:
        return _complain(str(e), UNAVAILABLE)
    except BrokenPipeError:
        raise
    except OSError as e:
        return _complain(f"{e.filename or 'A file'} cannot be used: {e.strerror or e}", UNAVAILABLE)


def _complain(sentence: str, status: int = USAGE) -> int:
    print(f"stillroom: {sentence.rstrip('.')}.", file=sys.stderr)
    return status


if __name__ == "__main__":
    sys.exit(main())
