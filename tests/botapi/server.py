"""The HTTP side: routes, token check, one call from request to answer, the record of calls."""

from __future__ import annotations

import asyncio
import hmac
import json
import re
import time
from dataclasses import dataclass, field

from aiohttp import web

from .errors import ApiError, NotImitated
from .faults import Fault, Faults
from .methods import HOOK_METHODS, METHODS
from .params import Json, Params, read_params
from .webhook import Webhook
from .world import World

_TOKEN = re.compile(r"[0-9]{1,20}:[A-Za-z0-9_-]+\Z")
_NAMES = {
    name.lower(): name
    for name in (
        "getMe", "getUpdates", "sendMessage", "editMessageText", "editMessageCaption",
        "editMessageReplyMarkup", "answerCallbackQuery", "answerInlineQuery", "setMyCommands",
        "answerGuestQuery", "getChatMember", "leaveChat",
        "getMyCommands", "deleteMyCommands", "sendPhoto", "sendDocument", "getFile", "sendChatAction",
        "deleteMessage", "setMessageReaction", "setWebhook", "deleteWebhook", "getWebhookInfo",
    )
}  # fmt: skip


@dataclass
class Call:
    """One call of the bot. `at` is on the monotonic clock, in seconds; `status` 0 means still open or cut.

    `error` is the description of a refusal, or "fault"; `carried_out` tells whether the method took
    effect, `done` whether the server is finished with the call.
    """

    method: str
    params: Json
    at: float = field(default_factory=time.monotonic)
    status: int = 0
    error: str = ""
    carried_out: bool = False
    done: bool = False
    file_names: tuple[str, ...] = ()


class Server:
    """Serves one bot token on 127.0.0.1. The token appears in no log and no representation."""

    def __init__(self, token: str, world: World, faults: Faults) -> None:
        self.world = world
        self.faults = faults
        self.hook = Webhook(world.pending, faults, self._from_webhook)
        self.calls: list[Call] = []
        self.troubles: list[Exception] = []
        self.port = 0
        self._token = token
        self._runner: web.AppRunner | None = None
        self._working: set[asyncio.Task[web.StreamResponse]] = set()

    async def start(self) -> None:
        """Listen on a free port."""
        app = web.Application(client_max_size=64 * 2**20)
        app.router.add_route("*", "/bot{token:[^/]*}/{method:[^/]*}", self._method)
        app.router.add_get("/file/bot{token:[^/]*}/{path:.+}", self._file)
        app.router.add_route("*", "/{rest:.*}", self._lost)
        self._runner = web.AppRunner(app, access_log=None, handler_cancellation=True, shutdown_timeout=0.2)
        await self._runner.setup()
        site = web.TCPSite(self._runner, "127.0.0.1", 0)
        await site.start()
        self.port = int(self._runner.addresses[0][1])

    async def stop(self) -> None:
        """Close everything, open polls and calls included."""
        await self.hook.stop()
        self.world.pending.interrupt(ApiError(502, "Bad Gateway"))
        if self._runner:
            await self._runner.cleanup()
        for work in self._working:
            work.cancel()
        await asyncio.gather(*self._working, return_exceptions=True)

    def _refuse_token(self, given: str) -> ApiError | None:
        if not _TOKEN.match(given):
            return ApiError(404, "Not Found")
        same = hmac.compare_digest(given.encode(), self._token.encode())
        return None if same else ApiError(401, "Unauthorized")

    async def _lost(self, request: web.Request) -> web.StreamResponse:
        return _reply(ApiError(404, "Not Found"))

    async def _file(self, request: web.Request) -> web.StreamResponse:
        refused = self._refuse_token(request.match_info["token"])
        if refused:
            return _reply(refused)
        for kept in self.world.files.values():
            if kept.path == request.match_info["path"]:
                return web.Response(body=kept.data, content_type="application/octet-stream")
        return _reply(ApiError(404, "Not Found"))

    async def _method(self, request: web.Request) -> web.StreamResponse:
        refused = self._refuse_token(request.match_info["token"])
        if refused:
            return _reply(refused)
        asked = request.match_info["method"]
        name = _NAMES.get(asked.lower(), asked)
        try:
            params = await read_params(request)
        except ApiError as error:
            return _reply(error)
        files = tuple(upload.name for upload in params.files.values())
        call = Call(name, params.values, file_names=files)
        self.calls.append(call)
        work = asyncio.create_task(self._answer(request, call, params))
        self._working.add(work)
        work.add_done_callback(self._working.discard)
        if name == "getUpdates":
            return await work
        return await asyncio.shield(work)

    async def _answer(self, request: web.Request, call: Call, params: Params) -> web.StreamResponse:
        """Carry out a call and mark it done. A client that goes away ends its long poll and nothing else."""
        try:
            return await self._outcome(request, call, params)
        finally:
            call.done = True

    async def _outcome(self, request: web.Request, call: Call, params: Params) -> web.StreamResponse:
        fault = self.faults.take(call.method, params) or self.faults.over(call.method, params)
        await asyncio.sleep(self.faults.delay(call.method))
        if fault and fault.error:
            call.status, call.error = fault.error.code, fault.error.description
            return _reply(fault.error)
        if fault and not fault.after:
            call.error = "fault"
            return await _broken(fault, request, b"")
        outcome = await self._run(call, params)
        if fault:
            body = json.dumps(outcome.payload() if isinstance(outcome, ApiError) else outcome).encode()
            call.status, call.error = 0, "fault"
            return await _broken(fault, request, body)
        return _reply(outcome)

    async def _run(self, call: Call, params: Params) -> ApiError | Json:
        """Carry out a method; every failure becomes an answer, ours are kept for the end of the test."""
        try:
            result = await self._carry_out(call.method.lower(), params)
        except ApiError as error:
            call.status, call.error = error.code, error.description
            return error
        except Exception as trouble:
            self.troubles.append(trouble)
            missing = isinstance(trouble, NotImitated)
            call.status, call.error = 501 if missing else 500, repr(trouble)
            return ApiError(call.status, f"Not imitated: {trouble}" if missing else "Internal Server Error")
        call.status, call.carried_out = 200, True
        return {"ok": True, "result": result}

    async def _carry_out(self, name: str, params: Params) -> object:
        if name in HOOK_METHODS:
            return await HOOK_METHODS[name](self.world, self.hook, params)
        if name not in METHODS:
            raise ApiError(404, "Not Found: method not found")
        return METHODS[name](self.world, params)

    async def _from_webhook(self, body: Json) -> None:
        name = str(body["method"])
        params = Params({key: value for key, value in body.items() if key != "method"})
        call = Call(_NAMES.get(name.lower(), name), params.values)
        self.calls.append(call)
        await self._run(call, params)
        call.done = True


async def _broken(fault: Fault, request: web.Request, body: bytes) -> web.StreamResponse:
    assert fault.respond is not None
    return await fault.respond(request, body)


def _reply(outcome: ApiError | Json) -> web.Response:
    if isinstance(outcome, ApiError):
        return web.json_response(outcome.payload(), status=outcome.code)
    return web.json_response(outcome)
