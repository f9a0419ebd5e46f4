"""Saying what is to be said: the only file that speaks to a chat."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable
from contextlib import suppress
from typing import Any

from telegram import (
    Bot,
    InlineQueryResultArticle,
    InlineQueryResultsButton,
    InputTextMessageContent,
    LinkPreviewOptions,
    ReplyParameters,
)
from telegram.constants import ParseMode
from telegram.error import BadRequest

from ..reply import Attachment
from .formatting import Piece, pieces
from .patience import DAY, patiently
from .saying import COPY, Row, Saying

GONE = ("message to edit not found", "message can't be edited", "message_id_invalid")
CAPTION = 1024
SEND, REWRITE = "sendmessage", "editmessagetext"
"""Methods of the Bot API, whose names mean the same in any case (core.telegram.org/bots/api, "Making requests").  Texts
are most of what is said, and go as plain data: in the library's objects, which it makes for names that it knows, a
message costs it more than its way over the network.  ``Defaults`` do not hold for them."""
NO_PREVIEW = '{"is_disabled": true}'


async def say(bot: Bot, saying: Saying, seconds: float = DAY) -> tuple[int, ...]:
    """Say it, and return the numbers of the messages in which it stands now.

    Raises Later when it cannot be said within so many seconds, and what Telegram raises for good.
    """
    return await WAYS[saying.how](_Voice(bot, saying, seconds))


def keyboard(rows: tuple[Row, ...]) -> str | None:
    """Rows of buttons, as JSON."""
    if not rows:
        return None
    return json.dumps({"inline_keyboard": [
        [{"text": label, "copy_text": {"text": data[len(COPY):]}} if data.startswith(COPY)
         else {"text": label, "callback_data": data} for label, data in row] for row in rows]})


class _Voice:
    """One saying on its way."""

    def __init__(self, bot: Bot, saying: Saying, seconds: float):
        self.bot, self.saying, self.seconds = bot, saying, seconds
        self.keys = keyboard(saying.keys)
        self.quoting = ReplyParameters(saying.answers, allow_sending_without_reply=True) if saying.answers else None

    async def send(self) -> tuple[int, ...]:
        """New messages; the last carries the buttons."""
        parts = pieces(self.saying.reply)
        made = [await self._new(part, self.keys if part is parts[-1] else None) for part in parts]
        return (*made, *[await self._file(file) for file in self.saying.files])

    async def revise(self) -> tuple[int, ...]:
        """In the place of an earlier one; what is gone is sent anew, what is left over deleted."""
        parts, old, made = pieces(self.saying.reply), self.saying.old, []
        for n, part in enumerate(parts):
            keys = self.keys if part is parts[-1] else None
            here = n < len(old) and await self._rewrite(old[n], part, keys)
            made.append(old[n] if here else await self._new(part, keys))
        for number in old[len(parts):]:
            await self._delete(number)
        return (*made, *[await self._file(file) for file in self.saying.files])

    async def toast(self) -> tuple[int, ...]:
        """Answer a press; one that is too old to be answered is no error."""
        return await self._query(lambda: self.bot.answer_callback_query(
            self.saying.query, self.saying.headline[:200] or None))

    async def cards(self) -> tuple[int, ...]:
        """Answer an inline query, for the one who asked."""
        more = InlineQueryResultsButton("Ask in a chat of our own", start_parameter="inline")
        return await self._query(lambda: self.bot.answer_inline_query(
            self.saying.query, [_card(c) for c in self.saying.cards], cache_time=0, is_personal=True, button=more))

    async def guest(self) -> tuple[int, ...]:
        """Answer where the bot was named in a chat that it is no member of."""
        return await self._query(lambda: self.bot.answer_guest_query(self.saying.query, _card(self.saying.cards[0])))

    async def leave(self) -> tuple[int, ...]:
        """Leave a group."""
        with suppress(BadRequest):
            await patiently(lambda: self.bot.leave_chat(self.saying.chat), self.seconds)
        return ()

    async def _query(self, call: Callable[[], Awaitable[Any]]) -> tuple[int, ...]:
        try:
            await patiently(call, self.seconds)
        except BadRequest as e:
            if "query is too old" not in str(e).lower():
                raise
        return ()

    async def _text(self, method: str, part: Piece, keys: str | None, **where: Any) -> Any:
        """Write a text with markup; without it, if the server cannot read it."""
        where |= {"chat_id": self.saying.chat, "reply_markup": keys, "link_preview_options": NO_PREVIEW}
        try:
            marked = {"text": part.html, "parse_mode": "HTML", **where}
            return await patiently(lambda: self.bot.do_api_request(method, dict(marked)), self.seconds)
        except BadRequest as e:
            if "can't parse entities" not in str(e).lower():
                raise
            plain = {"text": part.plain, **where}
            return await patiently(lambda: self.bot.do_api_request(method, dict(plain)), self.seconds)

    async def _new(self, part: Piece, keys: str | None) -> int:
        said = await self._text(SEND, part, keys, reply_parameters=self.quoting, message_thread_id=self.saying.topic)
        return int(said["message_id"])

    async def _rewrite(self, number: int, part: Piece, keys: str | None) -> bool:
        """Whether the message is there and now says this."""
        try:
            await self._text(REWRITE, part, keys, message_id=number)
        except BadRequest as e:
            said = str(e).lower()
            if any(sentence in said for sentence in GONE):
                return False
            if "message is not modified" not in said:
                raise
        return True

    async def _file(self, file: Attachment) -> int:
        """A picture to look at, or a file; without its caption where that is too long."""
        where: dict[str, Any] = {"reply_parameters": self.quoting, "message_thread_id": self.saying.topic,
                                 "caption": file.caption[:CAPTION] or None}
        if file.picture:
            return (await patiently(lambda: self.bot.send_photo(
                self.saying.chat, file.content, filename=file.name, **where), self.seconds)).message_id
        return (await patiently(lambda: self.bot.send_document(
            self.saying.chat, file.content, filename=file.name, **where), self.seconds)).message_id

    async def _delete(self, number: int) -> None:
        try:
            await patiently(lambda: self.bot.delete_message(self.saying.chat, number), self.seconds)
        except BadRequest:
            return


WAYS: dict[str, Callable[[_Voice], Awaitable[tuple[int, ...]]]] = {
    "send": _Voice.send, "revise": _Voice.revise, "toast": _Voice.toast, "cards": _Voice.cards,
    "guest": _Voice.guest, "leave": _Voice.leave,
}


def _card(card: tuple[str, str, str, tuple[str, ...]]) -> InlineQueryResultArticle:
    id, title, headline, body = card
    part = pieces(Saying("", headline=headline, body=body).reply)[0]
    content = InputTextMessageContent(part.html, ParseMode.HTML, link_preview_options=LinkPreviewOptions(True))
    return InlineQueryResultArticle(id, title[:120] or "…", content, description=" ".join(body)[:200] or None)
