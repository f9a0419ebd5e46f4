"""What is set by the environment, in one table, checked before anything starts."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from ..places import Unavailable

PREFIX = "STILLROOM_"
TOKEN = re.compile(r"[0-9]{1,20}:[A-Za-z0-9_-]{8,}")
SECRET = re.compile(r"[A-Za-z0-9_-]{16,256}")


class WrongSetting(Unavailable):
    """A variable has a value that cannot be meant; the sentence names it and not the value."""


@dataclass(frozen=True, slots=True)
class Option:
    """A variable without its prefix: the field that it fills, how its text is read, and what it does."""

    name: str
    field: str
    read: Callable[[str], Any]
    line: str


@dataclass(frozen=True, slots=True)
class Setup:
    """How a bot is run."""

    token: str = field(default="", repr=False)
    api: str | None = None
    webhook: str = ""
    secret: str = field(default="", repr=False)
    listen: tuple[str, int] = ("127.0.0.1", 8443)
    allow: frozenset[int] = frozenset()
    admins: bool = False
    rate: float = 30.0
    user_rate: int = 30
    reckoners: int = 2
    time_limit: float = 10.0
    stop_seconds: float = 8.0
    metrics: tuple[str, int] | None = None
    log: str = "text"


def _token(text: str) -> str:
    return _matching(TOKEN, text, "a token as BotFather gives it, such as 123456:ABC-DEF")


def _secret(text: str) -> str:
    return _matching(SECRET, text, "16 to 256 letters, digits, dashes and underscores")


def _matching(pattern: re.Pattern[str], text: str, what: str) -> str:
    if not pattern.fullmatch(text):
        raise ValueError(what)
    return text


def _file(text: str) -> str:
    try:
        return _token(Path(text).read_text("utf-8").strip())
    except (OSError, UnicodeError):
        raise ValueError("the name of a file that can be read") from None


def _https(text: str) -> str:
    parts = urlsplit(text)
    local = parts.hostname in ("127.0.0.1", "localhost", "::1")
    if not parts.hostname or parts.scheme not in (("http", "https") if local else ("https",)):
        raise ValueError("an address that begins with https://")
    return text


def _address(text: str) -> str:
    if urlsplit(text).scheme not in ("http", "https"):
        raise ValueError("the address of a Bot API server, up to and with /bot")
    return text


def _place(text: str) -> tuple[str, int]:
    host, colon, port = text.rpartition(":")
    if not colon or not port.isdecimal() or not 0 < int(port) < 65536:
        raise ValueError("a host and a port, such as 127.0.0.1:8443")
    return host.strip("[]") or "0.0.0.0", int(port)


def _numbers(text: str) -> frozenset[int]:
    try:
        return frozenset(int(x) for x in re.split(r"[,\s]+", text.strip()) if x)
    except ValueError:
        raise ValueError("numbers of chats and users with commas between") from None


def _between(low: float, high: float, whole: bool = False) -> Callable[[str], Any]:
    def read(text: str) -> Any:
        kind = "a whole number" if whole else "a number"
        try:
            value = int(text) if whole else float(text)
        except ValueError:
            value = float("nan")
        if not low <= value <= high:
            raise ValueError(f"{kind} from {low:g} to {high:g}")
        return value

    return read


def _one_of(**meanings: Any) -> Callable[[str], Any]:
    def read(text: str) -> Any:
        if text not in meanings:
            raise ValueError(" or ".join(meanings))
        return meanings[text]

    return read


OPTIONS = (
    Option("TELEGRAM_TOKEN", "token", _token, "the bot's token"),
    Option("TELEGRAM_TOKEN_FILE", "token", _file, "a file that holds the token, instead"),
    Option("TELEGRAM_API", "api", _address, "another Bot API server than Telegram's own"),
    Option("TELEGRAM_WEBHOOK", "webhook", _https, "the public address of a webhook; without it, long polling"),
    Option("TELEGRAM_SECRET", "secret", _secret, "what Telegram sends along to the webhook"),
    Option("TELEGRAM_LISTEN", "listen", _place, "where the webhook listens, behind a proxy (127.0.0.1:8443)"),
    Option("TELEGRAM_ALLOW", "allow", _numbers, "the only chats and users that are answered (everybody)"),
    Option("TELEGRAM_GROUP_CHANGES", "admins", _one_of(members=False, admins=True),
           "who may change a group's settings and book: members or admins (members)"),
    Option("TELEGRAM_RATE", "rate", _between(0, 1000), "messages a second to all chats, 0 for no limits at all (30)"),
    Option("TELEGRAM_USER_RATE", "user_rate", _between(0, 1000, True), "questions a minute of a user, 0 for any (30)"),
    Option("RECKONERS", "reckoners", _between(1, 64, True), "processes that read and solve (2)"),
    Option("TIME_LIMIT", "time_limit", _between(0.5, 600), "seconds that one message may take (10)"),
    Option("STOP_SECONDS", "stop_seconds", _between(0, 600), "seconds in which what is at work may end (8)"),
    Option("METRICS", "metrics", _place, "where counts are shown to Prometheus (nowhere)"),
    Option("LOG", "log", _one_of(text="text", json="json"), "lines of text or of JSON on standard error (text)"),
)


def setup(environment: Mapping[str, str] | None = None) -> Setup:
    """What the environment says.  Raises WrongSetting for the first wrong value, naming the variable."""
    where = os.environ if environment is None else environment
    values: dict[str, Any] = {}
    for option in OPTIONS:
        text = where.get(PREFIX + option.name, "").strip()
        if text:
            try:
                values[option.field] = option.read(text)
            except ValueError as e:
                raise WrongSetting(f"{PREFIX}{option.name} has to be {e}.") from None
    made = Setup(**values)
    if made.webhook and not made.secret:
        raise WrongSetting(f"{PREFIX}TELEGRAM_WEBHOOK needs {PREFIX}TELEGRAM_SECRET beside it.")
    return made
