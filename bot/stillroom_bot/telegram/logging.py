"""Logs that hold no token: every record of the process is cleaned when it is made.

A filter on a logger does not see what its children log, and one on a handler only what goes through
it; the record factory sees all.
"""

from __future__ import annotations

import json
import logging
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from urllib.parse import quote

HIDDEN = "[token]"
QUIET = ("httpx", "httpcore", "aiohttp", "telegram", "sqlalchemy", "uvicorn", "apscheduler")
"""Loggers held at WARNING: below it they log addresses and what people wrote."""

FORMAT = "%(asctime)s %(levelname)s %(name)s: %(message)s"


class Redactor(logging.Filter):
    """Removes a token from records, whole, quoted for a URL, or only its secret half; and ``more`` secrets."""

    def __init__(self, token: str, *more: str):
        super().__init__()
        secrets = [x for x in (token.partition(":")[2], *more) if len(x) >= 8]
        forms = {form for x in (token, *secrets) if x for form in (x, quote(x, safe=""))}
        self._forms = sorted(forms, key=len, reverse=True)

    def clean(self, text: str) -> str:
        """The text without the token."""
        for form in self._forms:
            text = text.replace(form, HIDDEN)
        return text

    def filter(self, record: logging.LogRecord) -> bool:
        """Clean a record in place, its traceback too; it is always let through."""
        try:
            said = record.getMessage()
        except Exception:
            said = f"{record.msg} (with arguments that do not fit)"
        cleaned = self.clean(said)
        if cleaned != said or record.args:
            record.msg, record.args = cleaned, None
        if record.exc_info and record.exc_info[0] is not None:
            record.exc_text = self.clean(logging.Formatter().formatException(record.exc_info))
            record.exc_info = None
        return True


@contextmanager
def redacted(token: str, *more: str) -> Iterator[Redactor]:
    """While this lasts, no record of the process holds the token (nor ``more``), and the HTTP client is quiet."""
    redactor, before = Redactor(token, *more), logging.getLogRecordFactory()
    levels = {name: logging.getLogger(name).level for name in QUIET}
    logging.setLogRecordFactory(_cleaning(before, redactor))
    for name in QUIET:
        logging.getLogger(name).setLevel(logging.WARNING)
    try:
        yield redactor
    finally:
        logging.setLogRecordFactory(before)
        for name, level in levels.items():
            logging.getLogger(name).setLevel(level)


class JsonLines(logging.Formatter):
    """A record as one line of JSON: time, level, logger, message, and the traceback where there is one."""

    def format(self, record: logging.LogRecord) -> str:
        """The line."""
        told = {"time": self.formatTime(record, "%Y-%m-%dT%H:%M:%S%z"), "level": record.levelname.lower(),
                "logger": record.name, "message": record.getMessage()}
        return json.dumps(told | ({"traceback": record.exc_text} if record.exc_text else {}), ensure_ascii=False)


def to_stderr(redactor: Redactor, shape: str = "text") -> None:
    """Log to standard error, for a process that serves; in lines of ``text`` or ``json``."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(JsonLines() if shape == "json" else logging.Formatter(FORMAT))
    handler.addFilter(redactor)
    logging.basicConfig(level=logging.INFO, handlers=[handler], force=True)


def _cleaning(make: Callable[..., logging.LogRecord], redactor: Redactor) -> Callable[..., logging.LogRecord]:
    def made(*args: object, **more: object) -> logging.LogRecord:
        record = make(*args, **more)
        redactor.filter(record)
        return record

    return made
