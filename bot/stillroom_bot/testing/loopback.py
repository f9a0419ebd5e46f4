"""A server on 127.0.0.1 that answers the few calls of the Bot API that a bot makes to talk in one private chat."""

from __future__ import annotations

import asyncio
import email
import email.policy
import itertools
import json
import time
from contextlib import suppress
from typing import Any
from urllib.parse import parse_qs, unquote

Json = dict[str, Any]
BOT: Json = {"id": 4242, "is_bot": True, "first_name": "Loopback", "username": "loopback_bot"}
PERSON: Json = {"id": 1001, "is_bot": False, "first_name": "Mara", "language_code": "en"}
CHAT: Json = {"id": PERSON["id"], "type": "private", "first_name": PERSON["first_name"]}
SENDING = {"sendmessage", "sendphoto", "senddocument", "sendmediagroup"}
"""Methods of the Bot API, whose names are the same in capitals and small letters (core.telegram.org/bots/api)."""
WAIT = 0.5


class Loopback:
    """``said`` holds the messages that the bot sent or edited, in order; ``push`` gives it an update."""

    def __init__(self) -> None:
        self.said: asyncio.Queue[Json] = asyncio.Queue()
        self._updates: asyncio.Queue[Json] = asyncio.Queue()
        self._numbers = itertools.count(1)
        self._server: asyncio.Server | None = None
        self._open: set[asyncio.StreamWriter] = set()

    async def start(self) -> str:
        """Listen on a free port; the base URL for a bot."""
        self._server = await asyncio.start_server(self._serve, "127.0.0.1", 0)
        return f"http://127.0.0.1:{self._server.sockets[0].getsockname()[1]}/bot"

    async def stop(self) -> None:
        """Close it and its connections."""
        if self._server is not None:
            self._server.close()
        for writer in tuple(self._open):
            writer.close()

    def message(self, sender: Json, text: str, **more: Any) -> Json:
        """A message in the chat."""
        return {"message_id": next(self._numbers), "date": int(time.time()), "chat": CHAT, "from": sender,
                "text": text, **more}

    def push(self, **update: Any) -> None:
        """Give the bot an update (``message=...`` or ``callback_query=...``)."""
        self._updates.put_nowait({"update_id": next(self._numbers), **update})

    async def _serve(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self._open.add(writer)
        with suppress(asyncio.IncompleteReadError, ConnectionError, asyncio.CancelledError):
            while True:
                head = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1")
                first, *lines = head.strip().split("\r\n")
                headers = {k.lower(): v.strip() for k, _, v in (x.partition(":") for x in lines)}
                body = await reader.readexactly(int(headers.get("content-length", 0)))
                method = unquote(first.split(" ")[1].rpartition("/")[2])
                result = await self._call(method, _parameters(headers.get("content-type", ""), body))
                data = json.dumps({"ok": True, "result": result}).encode()
                writer.write(b"HTTP/1.1 200 OK\r\nContent-Type: application/json\r\nContent-Length: "
                             + str(len(data)).encode() + b"\r\n\r\n" + data)
                await writer.drain()
        self._open.discard(writer)
        writer.close()

    async def _call(self, method: str, said: Json) -> Any:
        name = method.lower()
        if name == "getme":
            return BOT
        if name == "getupdates":
            with suppress(TimeoutError):
                return [await asyncio.wait_for(self._updates.get(), min(WAIT, float(said.get("timeout", 0)) or 0.01))]
            return []
        if name in SENDING or name.startswith("editmessage"):
            text = said.get("text") or said.get("caption") or ""
            keys = {"reply_markup": said["reply_markup"]} if "reply_markup" in said else {}
            made = self.message(BOT, str(text), **keys)
            if "message_id" in said:
                made["message_id"] = said["message_id"]
            self.said.put_nowait(made | {"parse_mode": said.get("parse_mode"), "method": method})
            return [made] if name == "sendmediagroup" else made
        return True


def _parameters(kind: str, body: bytes) -> Json:
    """The parameters of a call, each read as JSON where it is JSON."""
    if kind.startswith("multipart/"):
        whole = email.message_from_bytes(f"Content-Type: {kind}\r\n\r\n".encode() + body, policy=email.policy.HTTP)
        pairs = [(str(p.get_param("name", header="content-disposition")), p.get_content())
                 for p in whole.iter_parts() if not p.get_filename()]
    elif kind.startswith("application/json"):
        pairs = list(json.loads(body or b"{}").items())
    else:
        pairs = [(k, v[-1]) for k, v in parse_qs(body.decode()).items()]
    return {k: _read(k, v) for k, v in pairs}


def _read(name: str, value: Any) -> Any:
    if name in ("text", "caption") or not isinstance(value, (str, bytes)):
        return value
    try:
        return json.loads(value)
    except (ValueError, TypeError):
        return value
