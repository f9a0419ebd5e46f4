"""The way to Telegram: python-telegram-bot's ``BaseRequest`` on aiohttp.

The library's own client spends most of its time in its connection pool once many calls are under way
(``tests/bench/transport.py`` shows the ratio); this one is put in its place by the builder, and nothing
else of the library changes.
"""

from __future__ import annotations

import json
from typing import Any
from urllib.parse import urlsplit
from urllib.request import getproxies, proxy_bypass

import aiohttp
from telegram._utils.defaultvalue import DefaultValue
from telegram.error import NetworkError, TelegramError, TimedOut
from telegram.request import BaseRequest, RequestData

CONNECTIONS = 100
CONNECT, READ, UPLOAD = 5.0, 10.0, 60.0
"""Seconds to make a connection, to wait for an answer, and to send files."""
IDLE = 55.0
"""Seconds that an unused connection is kept; the server closes it after about a minute."""
KEPT = ("message_id", "date", "chat")
"""What is read of a message that was just sent (the library needs all three): the rest we said ourselves."""
JSON = {"Content-Type": "application/json"}


class Client(BaseRequest):
    """Calls over kept connections; ``read`` are the seconds that an answer may take.

    Raises TimedOut or NetworkError, neither of which names the address: the token is part of it.
    """

    def __init__(self, connections: int = CONNECTIONS, read: float = READ):
        self._connections, self._read = connections, read
        self._session: aiohttp.ClientSession | None = None
        self._proxies: dict[str, str | None] = {}

    @property
    def read_timeout(self) -> float:
        """Seconds that an answer may take where a call does not say."""
        return self._read

    async def initialize(self) -> None:
        """Make the pool; twice is as good as once."""
        if self._session is None or self._session.closed:
            connector = aiohttp.TCPConnector(limit=self._connections, keepalive_timeout=IDLE)
            self._session = aiohttp.ClientSession(connector=connector, auto_decompress=True,
                                                  cookie_jar=aiohttp.DummyCookieJar(),
                                                  headers={"User-Agent": self.USER_AGENT})

    async def shutdown(self) -> None:
        """Close every connection."""
        if self._session is not None:
            await self._session.close()

    @staticmethod
    def parse_json_payload(payload: bytes) -> Any:
        """The JSON of an answer.  Raises TelegramError; the library's own would log what people wrote."""
        try:
            told = json.loads(payload)
        except ValueError:
            raise TelegramError("Invalid server response") from None
        result = told.get("result") if isinstance(told, dict) else None
        if isinstance(result, dict) and "message_id" in result:
            told["result"] = {name: result[name] for name in KEPT if name in result}
        return told

    async def do_request(self, url: str, method: str, request_data: RequestData | None = None,
                         read_timeout: Any = BaseRequest.DEFAULT_NONE, write_timeout: Any = BaseRequest.DEFAULT_NONE,
                         connect_timeout: Any = BaseRequest.DEFAULT_NONE,
                         pool_timeout: Any = BaseRequest.DEFAULT_NONE) -> tuple[int, bytes]:
        """One call: the HTTP status and the body."""
        if self._session is None:
            raise RuntimeError("the client was not initialized")
        files = request_data.multipart_data if request_data else {}
        writing = _or(write_timeout, UPLOAD if files else READ)
        timeout = aiohttp.ClientTimeout(connect=_or(pool_timeout, None), sock_connect=_or(connect_timeout, CONNECT),
                                        total=_total(_or(read_timeout, self._read), writing))
        try:
            async with self._session.request(method, url, data=_body(request_data, files), timeout=timeout,
                                             headers=None if files else JSON, proxy=self._proxy(url)) as answer:
                return answer.status, _told(answer.status, await answer.read())
        except (TimeoutError, aiohttp.ServerTimeoutError) as e:
            raise TimedOut(type(e).__name__) from None
        except (aiohttp.ClientError, OSError) as e:
            raise NetworkError(f"the line broke ({type(e).__name__})") from None

    def _proxy(self, url: str) -> str | None:
        """The environment's proxy for a server; looked up once, as that reads settings."""
        parts = urlsplit(url)
        host = parts.hostname or ""
        if host not in self._proxies:
            self._proxies[host] = None if proxy_bypass(host) else getproxies().get(parts.scheme)
        return self._proxies[host]


def _told(status: int, body: bytes) -> bytes:
    """What an error says, if it is JSON: a proxy's page would go into the library's messages."""
    return body if 200 <= status < 300 or body.lstrip().startswith(b"{") else b"{}"


def _or(given: Any, default: float | None) -> float | None:
    if isinstance(given, DefaultValue):
        return default
    return None if given is None else float(given)


def _total(read: float | None, write: float | None) -> float | None:
    return None if read is None or write is None else read + write


def _body(request_data: RequestData | None, files: Any) -> aiohttp.FormData | bytes | None:
    """JSON, which is less work than a form; a form where there are files."""
    if request_data is None:
        return None
    if not files:
        return request_data.json_payload
    form = aiohttp.FormData()
    for name, value in request_data.json_parameters.items():
        form.add_field(name, value)
    for name, (file_name, content, mime) in files.items():
        form.add_field(name, content, filename=file_name, content_type=mime)
    return form
