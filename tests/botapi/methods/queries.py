"""answerCallbackQuery, answerInlineQuery, answerGuestQuery."""

from __future__ import annotations

from ..errors import QUERY_TOO_OLD, bad
from ..formatting import MAX_TEXT, read_markup
from ..keyboards import check_keyboard
from ..markup import utf16
from ..params import Json, Params
from ..world import Query, World

MAX_NOTICE = 200
"""Characters of a callback answer (core.telegram.org/bots/api#answercallbackquery)."""

MAX_RESULTS = 50
"""Results of one inline answer (core.telegram.org/bots/api#answerinlinequery)."""

MAX_RESULT_ID = 64
"""Bytes of a result's id (core.telegram.org/bots/api#inlinequeryresultarticle)."""


def _open(world: World, kind: str, number: str) -> Query:
    query = world.queries.get(number)
    if query is None or query.kind != kind or query.too_old:
        raise bad(QUERY_TOO_OLD)
    return query


def answer_callback(world: World, params: Params) -> bool:
    """Answer a button press with at most 200 characters, or none."""
    query = _open(world, "callback", params.text("callback_query_id"))
    if utf16(params.text("text")) > MAX_NOTICE:
        raise bad("MESSAGE_TOO_LONG")
    query.answers.put_nowait(dict(params.values))
    return True


def _check_result(result: object, seen: set[str]) -> Json:
    where = "can't parse inline query result: "
    if not isinstance(result, dict):
        raise bad(where + "Object expected")
    if not result.get("type"):
        raise bad(where + 'Can\'t find field "type"')
    number = str(result.get("id", ""))
    if not 1 <= len(number.encode()) <= MAX_RESULT_ID:
        raise bad("RESULT_ID_INVALID")
    if number in seen:
        raise bad("RESULT_ID_DUPLICATE")
    seen.add(number)
    if result["type"] == "article" and not result.get("title"):
        raise bad(where + 'Can\'t find field "title"')
    content = result.get("input_message_content")
    if result["type"] == "article" and not isinstance(content, dict):
        raise bad(where + 'Can\'t find field "input_message_content"')
    if isinstance(content, dict) and "message_text" in content:
        mode, listed = str(content.get("parse_mode", "")), content.get("entities")
        text, entities = read_markup(str(content["message_text"]), mode, listed)
        if not text.strip():
            raise bad("message text is empty")
        if utf16(text) > MAX_TEXT:
            raise bad("MESSAGE_TOO_LONG")
        result = result | {"shown": {"text": text, "entities": entities}}
    if isinstance(result.get("reply_markup"), dict):
        check_keyboard(result["reply_markup"])
    return result


def answer_inline(world: World, params: Params) -> bool:
    """Answer an inline query with at most 50 results of distinct ids."""
    query = _open(world, "inline", params.text("inline_query_id"))
    results = params.objects("results", "inline query results") or []
    if len(results) > MAX_RESULTS:
        raise bad("RESULTS_TOO_MUCH")
    seen: set[str] = set()
    checked = [_check_result(result, seen) for result in results]
    query.answers.put_nowait(params.values | {"results": checked})
    return True


def answer_guest(world: World, params: Params) -> Json:
    """Answer a guest's message with one result, which is sent to the chat that it came from."""
    query = _open(world, "guest", params.text("guest_query_id"))
    result = params.object("result", "inline query result")
    query.answers.put_nowait(_check_result(result, set()))
    return {"inline_message_id": f"guest-{query.id}"}
