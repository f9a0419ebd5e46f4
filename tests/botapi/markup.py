"""The HTML parse mode: text and entities out of markup, or the sentence that refuses it.

Tags and entity kinds: core.telegram.org/bots/api#html-style. Refusals are worded from memory of the
published server's; offsets in them count UTF-8 bytes, offsets in entities count UTF-16 code units.
"""

from __future__ import annotations

import html
import re
from dataclasses import dataclass, field

from .errors import ApiError, bad
from .params import Json

_KINDS = {
    "b": "bold", "strong": "bold", "i": "italic", "em": "italic", "u": "underline", "ins": "underline",
    "s": "strikethrough", "strike": "strikethrough", "del": "strikethrough", "tg-spoiler": "spoiler",
    "span": "spoiler", "a": "text_link", "code": "code", "pre": "pre", "blockquote": "blockquote",
    "tg-emoji": "custom_emoji",
}  # fmt: skip
_NAME = re.compile(r"[^\s>]*")
_ATTRIBUTE = re.compile(r"\s+([^\s=>]+)(?:\s*=\s*(?:\"([^\"]*)\"|'([^']*)'|([\w.-]+)(?=[\s>])))?")
_TAG_END = re.compile(r"\s*>")
_CHARACTER = re.compile(r"&(?:#[0-9]{1,7}|#[xX][0-9a-fA-F]{1,6}|lt|gt|amp|quot);")
_RUN = re.compile(r"[^<&]+|&")
_MENTION_LINK = re.compile(r"tg://user\?id=([0-9]+)\Z")


def utf16(text: str) -> int:
    """Length in UTF-16 code units, the unit in which the Bot API counts."""
    return len(text.encode("utf-16-le")) // 2


@dataclass
class _Open:
    """A tag that waits for its end."""

    name: str
    start: int
    at: int
    attributes: dict[str, str] = field(default_factory=dict)


def _refuse(sentence: str) -> ApiError:
    return bad(f"can't parse entities: {sentence}")


class _Reader:
    def __init__(self, source: str) -> None:
        self.source = source
        self.at = 0
        self.out: list[str] = []
        self.units = 0
        self.open: list[_Open] = []
        self.entities: list[Json] = []

    def read(self) -> tuple[str, list[Json]]:
        while self.at < len(self.source):
            if self.source.startswith("</", self.at):
                self._close()
            elif self.source[self.at] == "<":
                self._start()
            else:
                self._plain()
        if self.open:
            raise _refuse(f'Can\'t find end tag corresponding to start tag "{self.open[-1].name}"')
        return "".join(self.out), sorted(self.entities, key=lambda e: (e["offset"], -e["length"]))

    def _plain(self) -> None:
        found = _CHARACTER.match(self.source, self.at)
        run = found or _RUN.match(self.source, self.at)
        assert run is not None
        piece = html.unescape(found.group()) if found else run.group()
        self.at = run.end()
        self.out.append(piece)
        self.units += utf16(piece)

    def _place(self, at: int) -> str:
        return f"at byte offset {len(self.source[:at].encode())}"

    def _word(self, at: int, unclosed: str) -> tuple[str, int]:
        end = _NAME.match(self.source, at).end()  # type: ignore[union-attr]
        if end == len(self.source):
            raise _refuse(f"{unclosed} {self._place(self.at)}")
        return self.source[at:end].lower(), end

    def _start(self) -> None:
        name, end = self._word(self.at + 1, "Unclosed start tag")
        if name not in _KINDS:
            raise _refuse(f'Unsupported start tag "{name}" {self._place(self.at)}')
        attributes: dict[str, str] = {}
        while found := _ATTRIBUTE.match(self.source, end):
            attributes[found[1].lower()] = html.unescape(found[2] or found[3] or found[4] or "")
            end = found.end()
        closing = _TAG_END.match(self.source, end)
        if closing is None:
            raise _refuse(f'Unclosed start tag "{name}" {self._place(self.at)}')
        if name == "span" and attributes.get("class") != "tg-spoiler":
            raise _refuse(f'Tag "span" must have class "tg-spoiler" {self._place(self.at)}')
        self.open.append(_Open(name, self.units, len(self.out), attributes))
        self.at = closing.end()

    def _close(self) -> None:
        if not self.open:
            raise _refuse(f"Unexpected end tag {self._place(self.at)}")
        name, end = self._word(self.at + 2, "Unclosed end tag")
        closing = _TAG_END.match(self.source, end)
        if closing is None:
            raise _refuse(f"Unclosed end tag {self._place(self.at)}")
        tag = self.open.pop()
        if name and name != tag.name:
            expected = f'expected "</{tag.name}>", found "</{name}>"'
            raise _refuse(f"Unmatched end tag {self._place(self.at)}, {expected}")
        self.at = closing.end()
        if self.units > tag.start:
            self._entity(tag)

    def _entity(self, tag: _Open) -> None:
        made: Json = {"type": _KINDS[tag.name], "offset": tag.start, "length": self.units - tag.start}
        if tag.name == "a":
            url = tag.attributes.get("href") or "".join(self.out[tag.at :])
            mention = _MENTION_LINK.match(url)
            if mention:
                made |= {"type": "text_mention", "user": {"id": int(mention[1])}}
            elif "." in url or "://" in url:
                made["url"] = url
            else:
                return
        elif tag.name == "blockquote" and "expandable" in tag.attributes:
            made["type"] = "expandable_blockquote"
        elif tag.name == "tg-emoji":
            made["custom_emoji_id"] = tag.attributes.get("emoji-id", "")
        elif tag.name == "code" and self.open and self.open[-1].name == "pre":
            language = tag.attributes.get("class", "")
            if language.startswith("language-"):
                self.open[-1].attributes["language"] = language.removeprefix("language-")
            return
        elif tag.name == "pre" and "language" in tag.attributes:
            made["language"] = tag.attributes["language"]
        self.entities.append(made)


def parse_html(source: str) -> tuple[str, list[Json]]:
    """Plain text and entities of the markup; raises 400 "can't parse entities: ..." when it is broken."""
    return _Reader(source).read()
